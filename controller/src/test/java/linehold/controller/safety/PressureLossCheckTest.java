package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Requirement("LH-PR-2")
class PressureLossCheckTest {
    private static final long MS = 1_000_000;
    private PressureLossCheck check =
            new PressureLossCheck(Calibration.builder().build());
    private boolean watching = true;
    private boolean standing;
    private boolean standstillConfirmed;
    private double requestNm = 100;
    private double oilC = 60;

    /** With an edge at this very tick. */
    private void at(long ms, double bar) {
        at(ms, bar, ms);
    }

    private void at(long ms, double bar, long lastEdgeMs) {
        check.update(ms * MS, watching, bar * 1e5, standing, lastEdgeMs * MS, standstillConfirmed, requestNm, oilC);
    }

    @Test
    void shouldFindPressureLostWithTheShaftTurningAfterTheConfirmTime() {
        at(0, 3.99);
        at(19, 3.99);
        assertThat(check.lostMoving()).isFalse();
        at(20, 3.99);
        assertThat(check.lostMoving()).isTrue();
        assertThat(check.lostStanding()).isFalse();
        assertThat(check.engaging()).isFalse();
    }

    @Test
    void shouldGoOnWithholdingWhenTheCarBeginsToRollBeforePressureHolds() {
        standing = true;
        at(0, 3.99);
        assertThat(check.engaging()).isTrue();
        standing = false;
        at(5, 3.99);
        assertThat(check.engaging()).isTrue();
        assertThat(check.lostMoving()).isFalse();
        at(10, 4);
        assertThat(check.engaging()).isFalse();
        at(15, 3.99);
        assertThat(check.engaging()).isFalse();
    }

    @Test
    void shouldCountTheConfirmTimeUpToTheLastEdge() {
        at(0, 3.99, 0);
        at(60, 3.99, 19);
        assertThat(check.lostMoving()).isFalse();
        at(65, 3.99, 64);
        assertThat(check.lostMoving()).isTrue();
    }

    @Test
    void shouldStartTheConfirmTimeAnewWhenTheShaftMayHaveComeToRest() {
        at(0, 3.99);
        standing = true;
        at(15, 3.99);
        standing = false;
        at(20, 3.99);
        at(39, 3.99);
        assertThat(check.lostMoving()).isFalse();
        at(40, 3.99);
        assertThat(check.lostMoving()).isTrue();
    }

    @Test
    void shouldForgiveADipShorterThanTheConfirmTime() {
        at(0, 3);
        at(15, 4);
        at(20, 3);
        at(35, 3);

        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldCallItEngagingAtStandstillInTheSameTick() {
        standing = true;
        at(0, 3.99);
        assertThat(check.engaging()).isTrue();
        at(5, 4);
        assertThat(check.engaging()).isFalse();
        assertThat(check.lostStanding()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"20, 1200", "0, 3100", "-20, 5000", "NaN, 5000"})
    void shouldFindPressureLostAtStandstillLongerThanTheAllowanceOfThisOil(double oilTemperatureC, long allowanceMs) {
        standing = true;
        oilC = oilTemperatureC;
        at(100, 3);
        at(100 + allowanceMs, 3);
        assertThat(check.lostStanding()).isFalse();
        at(101 + allowanceMs, 3);
        assertThat(check.lostStanding()).isTrue();
        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldMeasureEachEngagementFromItsOwnBeginning() {
        standing = true;
        at(0, 3);
        at(1000, 4);
        at(1005, 3);
        at(2200, 3);

        assertThat(check.lostStanding()).isFalse();
    }

    @Test
    void shouldFindNothingBeforePrimeIsOver() {
        watching = false;
        at(0, 0);
        at(60_000, 0);
        standing = true;
        at(120_000, 0);
        at(180_000, 0);

        assertThat(check.lostMoving() || check.lostStanding() || check.engaging())
                .isFalse();
    }

    @Test
    void shouldFindNothingWhilePressureIsUnknown() {
        at(0, Double.NaN);
        at(1000, Double.NaN);
        standing = true;
        at(2000, Double.NaN);
        at(60_000, Double.NaN);

        assertThat(check.lostMoving() || check.lostStanding() || check.engaging())
                .isFalse();
    }

    private void lose() {
        at(0, 3);
        at(20, 3);
        assertThat(check.lostMoving()).isTrue();
    }

    @Test
    void shouldReleaseOnlyWhenPressureIsBackForItsTimeAndTheDriverHasLetGo() {
        lose();
        at(100, 4);
        requestNm = 0;
        at(2099, 4);
        assertThat(check.lostMoving()).isTrue();
        requestNm = 5.1;
        at(2100, 4);
        assertThat(check.lostMoving()).isTrue();
        requestNm = -5.1;
        at(2105, 4);
        assertThat(check.lostMoving()).isTrue();
        requestNm = -5;
        at(2110, 4);
        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldStartTheReturnTimeAnewWhenPressureDipsAgain() {
        lose();
        requestNm = 0;
        at(100, 4);
        at(2000, 3.9);
        at(2005, 4);
        at(4004, 4);
        assertThat(check.lostMoving()).isTrue();
        at(4005, 4);
        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldWaitForStandstillWhereTheRequestIsNotKnownAtThisTick() {
        lose();
        requestNm = Double.NaN;
        at(100, 4);
        at(5000, 4);
        assertThat(check.lostMoving()).isTrue();
        standstillConfirmed = true;
        at(5005, 4);
        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldWaitForStandstillWhereNoRequestIsFitted() {
        check = new PressureLossCheck(
                Calibration.builder().set(Key.TORQUE_REQUEST_FITTED, false).build());
        lose();
        requestNm = 0;
        at(100, 4);
        at(5000, 4);
        assertThat(check.lostMoving()).isTrue();
        standstillConfirmed = true;
        at(5005, 4);
        assertThat(check.lostMoving()).isFalse();
    }

    @Test
    void shouldReleaseALossAtStandstillTheSameWay() {
        standing = true;
        standstillConfirmed = true;
        at(0, 3);
        at(1300, 3);
        assertThat(check.lostStanding()).isTrue();
        at(1400, 4);
        at(3400, 4);
        assertThat(check.lostStanding()).isTrue();
        requestNm = 0;
        at(3405, 4);
        assertThat(check.lostStanding()).isFalse();
    }
}

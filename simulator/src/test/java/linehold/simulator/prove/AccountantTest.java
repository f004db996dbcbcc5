package linehold.simulator.prove;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Every criterion of the verdict, with a limit just kept and just broken. The demonstration build holds 4 bar. */
class AccountantTest {
    private static final double HOLD_PA = 4e5;

    private final Build build = BuildFile.loadNamed("demonstration");
    private final Accountant account = new Accountant(build);
    private final Moment moment = new Moment();

    @BeforeEach
    void standInFirstWithGoodPressure() {
        moment.keyOn = true;
        moment.oilC = 60;
        moment.outputs.state = PumpState.ELECTRIC;
        moment.outputs.permission = DrivePermission.GRANTED;
        moment.gear = Gear.FIRST;
        moment.element = Element.LOW_BAND;
        moment.engagement = Engagement.ENGAGED;
        pressure(7e5);
    }

    private void pressure(double pa) {
        moment.linePressurePa = pa;
        moment.lowestPressurePa = pa;
        moment.elementPressurePa = pa;
    }

    private void tick() {
        account.tick(moment);
        moment.timeS += 0.005;
    }

    @Test
    void shouldHoldWhilePressureStaysAtTheHoldPressure() {
        tick();
        pressure(HOLD_PA);
        tick();
        assertThat(account.firstLoss).isEmpty();
        assertThat(account.pressureMinPa).isEqualTo(HOLD_PA);
        assertThat(account.belowHoldTicks).isZero();
    }

    @Test
    void shouldLosePressureJustBelowTheHoldPressureOfAnEngagedElement() {
        tick();
        pressure(HOLD_PA - 1);
        tick();
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.PRESSURE_LOST);
        assertThat(account.firstLoss.get(Criterion.PRESSURE_LOST).timeS()).isEqualTo(0.005);
        assertThat(account.belowHoldTicks).isEqualTo(2);
    }

    @Test
    void shouldSeeADipBetweenTwoTicks() {
        tick();
        moment.lowestPressurePa = 3e5;
        tick();
        assertThat(account.firstLoss).containsKey(Criterion.PRESSURE_LOST);
        assertThat(account.pressureMinPa).isEqualTo(3e5);
    }

    @Test
    void shouldAllowLowPressureWhileAnElementIsEngaging() {
        tick();
        moment.engagement = Engagement.ENGAGING;
        moment.engagingS = 0.5;
        pressure(1e5);
        tick();
        assertThat(account.firstLoss).isEmpty();
        assertThat(account.longestEngagementS).isEqualTo(0.5);
    }

    @Test
    void shouldNotBlameAnElementForThePressureBeforeItEngaged() {
        tick();
        moment.engagement = Engagement.ENGAGING;
        pressure(3.5e5);
        tick();
        moment.engagement = Engagement.ENGAGED;
        pressure(4.1e5);
        moment.lowestPressurePa = 3.5e5;
        tick();
        assertThat(account.firstLoss).isEmpty();
    }

    @Test
    void shouldTellTheSettledLowPointFromTheRiseAfterAnEngagement() {
        tick();
        moment.engagement = Engagement.ENGAGING;
        pressure(3.5e5);
        tick();
        moment.engagement = Engagement.ENGAGED;
        for (double pa : new double[] {4.1e5, 5e5, 6.5e5, 6.4e5, 6.2e5, 6.3e5}) {
            pressure(pa);
            tick();
        }
        assertThat(account.pressureMinPa).isEqualTo(4.1e5);
        assertThat(account.settledMinPa).isEqualTo(6.2e5);
    }

    @Test
    void shouldLoseAnEngagementBeyondItsLimit() {
        tick();
        moment.engagement = Engagement.ENGAGING;
        moment.engagingS = 1.2; // the limit from 20 °C up
        tick();
        assertThat(account.firstLoss).isEmpty();
        moment.engagingS = 1.205;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.ENGAGEMENT_LATE);
    }

    @Test
    void shouldAllowALongerEngagementInTheCold() {
        tick();
        moment.oilC = 0; // half way between 1.2 s at 20 °C and 5 s at −20 °C
        moment.engagement = Engagement.ENGAGING;
        moment.engagingS = 3.09;
        tick();
        assertThat(account.firstLoss).isEmpty();
        moment.engagingS = 3.11;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.ENGAGEMENT_LATE);
    }

    @Test
    void shouldLoseTheMarginOfABandUnderTooMuchTorque() {
        // Capstan relation: T = 0.072·0.0075·(5 − 1)e5·(e^(0.12·5.5) − 1) = 201.92 N·m; demand 0.82·|T|
        double bandNm = 0.072 * 0.0075 * 4e5 * (Math.exp(0.66) - 1);
        tick();
        pressure(5e5);
        moment.motorTorqueNm = bandNm / (0.82 * 1.2) - 0.1;
        tick();
        assertThat(account.firstLoss).isEmpty();
        moment.motorTorqueNm += 0.2;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.MARGIN_LOST);
        assertThat(account.marginMin).isCloseTo(1.2, within(0.01));
    }

    @Test
    void shouldSeeThatABandHoldsLessOnOverrun() {
        // 1 − e^(−μθ) instead of e^(μθ) − 1: 48 % instead of 93 %
        tick();
        pressure(5e5);
        moment.motorTorqueNm = -150;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.MARGIN_LOST);
    }

    @Test
    void shouldCountNoDemandBelowFiveNewtonMetres() {
        tick();
        pressure(1.01e5);
        moment.lowestPressurePa = 5e5;
        moment.motorTorqueNm = 4.9;
        moment.outputs.permission = DrivePermission.WITHHELD;
        tick();
        assertThat(account.firstLoss).doesNotContainKeys(Criterion.MARGIN_LOST, Criterion.DRIVE_REFUSED);
    }

    @Test
    void shouldLoseADriveThatIsRefusedWhileItAsksForTorque() {
        tick();
        moment.outputs.permission = DrivePermission.REDUCED;
        tick();
        assertThat(account.firstLoss).isEmpty();
        moment.motorTorqueNm = 20;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.DRIVE_REFUSED);
        assertThat(account.refusedTicks).isEqualTo(1);
    }

    @Test
    void shouldJudgeNothingBeforePrimed() {
        moment.outputs.state = PumpState.PRIME;
        pressure(1e5);
        moment.motorTorqueNm = 100;
        tick();
        assertThat(account.firstLoss).isEmpty();
        assertThat(account.primedAtS).isNaN();
    }

    @Test
    void shouldJudgeNothingAfterKeyOff() {
        tick();
        moment.keyOn = false;
        pressure(0);
        tick();
        assertThat(account.firstLoss).isEmpty();
    }

    @Test
    void shouldLoseAKeyCycleThatNeverPrimed() {
        moment.outputs.state = PumpState.PRIME;
        pressure(1e5);
        tick();
        moment.keyOn = false;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.NEVER_PRIMED);
    }

    @Test
    void shouldLoseADriveThatAsksForTorqueLongAfterKeyOnWithoutPressure() {
        moment.outputs.state = PumpState.PRIME;
        pressure(1e5);
        tick();
        moment.motorTorqueNm = 50;
        moment.timeS = 1.2;
        tick();
        assertThat(account.firstLoss).isEmpty();
        moment.timeS = 1.21;
        tick();
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.NEVER_PRIMED);
    }

    @Test
    void shouldLoseADriveThatEndsUnprimed() {
        moment.outputs.state = PumpState.PRIME;
        pressure(1e5);
        tick();
        account.end(moment);
        assertThat(account.firstLoss).containsOnlyKeys(Criterion.NEVER_PRIMED);
    }

    @Test
    void shouldPrimeAgainAfterASecondKeyOn() {
        tick();
        moment.keyOn = false;
        tick();
        moment.keyOn = true;
        moment.outputs.state = PumpState.PRIME;
        pressure(1e5);
        tick();
        assertThat(account.firstLoss).isEmpty();
    }

    @Test
    void shouldCountHandOversOnly() {
        tick();
        for (PumpState state : new PumpState[] {
            PumpState.OVERLAP,
            PumpState.INTERNAL,
            PumpState.INTERNAL,
            PumpState.HELP,
            PumpState.OVERLAP,
            PumpState.INTERNAL
        }) {
            moment.outputs.state = state;
            tick();
        }
        assertThat(account.handOvers).isEqualTo(2);
    }
}

package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RelayCheckTest {
    private static final long MS = 1_000_000;
    private final RelayCheck relay = new RelayCheck(Calibration.builder().build());

    private void wanted(long atMs, double contactVolts, double busVolts) {
        relay.update(atMs * MS, true, true, contactVolts, busVolts);
    }

    private void notWanted(long atMs, double contactVolts, double busVolts) {
        relay.update(atMs * MS, false, false, contactVolts, busVolts);
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldFindAContactStuckOffAfterTheReadbackTimeAndLatchIt() {
        wanted(0, 0, 13);
        wanted(59, 0, 13);
        assertThat(relay.stuckOff()).isFalse();
        wanted(60, 0, 13);
        assertThat(relay.stuckOff()).isTrue();

        // The standby relay feeds the same wire: the voltage proves nothing.
        wanted(100, 13, 13);
        notWanted(200, 0, 13);
        assertThat(relay.stuckOff()).isTrue();
        relay.clearAtKeyOff();
        assertThat(relay.stuckOff()).isFalse();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldAcceptPullInAndBounceWithinTheReadbackTime() {
        wanted(0, 0, 13);
        wanted(15, 13, 13);
        wanted(17, 0, 13);
        wanted(20, 13, 13);
        wanted(1000, 13, 13);

        assertThat(relay.stuckOff()).isFalse();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldFindAFeedThatIsLostInTheMiddleOfARun() {
        wanted(0, 13, 13);
        wanted(5000, 0, 13);
        wanted(5060, 0, 13);

        assertThat(relay.stuckOff()).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"7.9, 13, false", "7.7, 13, true", "6, 9, false", "7.3, NaN, false", "7.1, NaN, true", "NaN, 13, true"})
    @Requirement("LH-RL-1")
    void shouldJudgeTheContactByItsShareOfBusVoltage(double contactVolts, double busVolts, boolean stuckOff) {
        wanted(0, contactVolts, busVolts);
        wanted(100, contactVolts, busVolts);

        assertThat(relay.stuckOff()).isEqualTo(stuckOff);
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldFindAWeldedContactOnlyAfterThePumpHasHadTimeToCoast() {
        notWanted(0, 13, 13);
        notWanted(499, 13, 13);
        assertThat(relay.welded()).isFalse();
        notWanted(500, 13, 13);
        assertThat(relay.welded()).isTrue();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldNotTakeACoastingPumpForAWeld() {
        // Voltage of a pump that coasts from 11.4 V to a stop in 0.3 s, measured each period.
        for (int atMs = 0; atMs <= 2000; atMs += 5) {
            notWanted(atMs, 11.4 * Math.max(0, 1 - atMs / 300.0), 13);
        }
        assertThat(relay.welded()).isFalse();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldKeepTheWeldWhileThePumpIsWantedAndDropItWhenTheContactOpens() {
        notWanted(0, 13, 13);
        notWanted(500, 13, 13);
        wanted(600, 13, 13);
        assertThat(relay.welded()).isTrue();
        wanted(900, 0, 13);
        assertThat(relay.welded()).isTrue();
        notWanted(2000, 0, 13);
        assertThat(relay.welded()).isFalse();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldStartTheWeldTimeAnewAtEverySwitchingOff() {
        notWanted(0, 13, 13);
        notWanted(400, 13, 13);
        wanted(450, 13, 13);
        notWanted(3000, 13, 13);
        notWanted(3400, 13, 13);

        assertThat(relay.welded()).isFalse();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldNotCallTheStandbyRelayWeldedWhileTheMainRelayFeedsThePump() {
        for (int atMs = 0; atMs <= 2000; atMs += 5) {
            relay.update(atMs * MS, false, true, 13, 13);
        }
        assertThat(relay.welded()).isFalse();
        assertThat(relay.stuckOff()).isFalse();
    }
}

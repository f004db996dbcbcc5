package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Requirement("LH-RL-5")
class SelfTestTest {
    private final FeedBench bench = new FeedBench(true, false);

    /** The relays that are on, tick by tick without repetition, until the test is over. */
    private static List<String> sequence(FeedBench bench) {
        List<String> seen = new ArrayList<>();
        bench.tick();
        while (!bench.feed.selfTestOver()) {
            String on = (bench.feed.mainOn() ? "main " : "") + (bench.feed.standbyOn() ? "standby" : "");
            if (seen.isEmpty() || !seen.get(seen.size() - 1).equals(on.trim())) {
                seen.add(on.trim());
            }
            bench.tick();
        }
        return seen;
    }

    @Test
    void shouldOperateEachRelayOnceAndGoOnWithTheMainRelay() {
        bench.keyOff().keyOn();
        long since = bench.nowNs;
        assertThat(sequence(bench)).containsExactly("standby", "", "main");
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
        assertThat(bench.codes.active()).isZero();
        assertThat((bench.nowNs - since) * 1e-9).isLessThan(0.06);
        bench.run(1);
        assertThat(bench.feed.mainOn()).isTrue();
        assertThat(bench.feed.standbyOn()).isFalse();
    }

    @Test
    void shouldOperateTheMainRelayAloneWhereNoStandbyIsFitted() {
        FeedBench alone = new FeedBench(false, false);
        alone.keyOff().keyOn();
        assertThat(sequence(alone)).containsExactly("main");
        assertThat(alone.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
    }

    @Test
    void shouldPrimeWithTheMainRelayUntilAShaftIsKnownToStandAfterAStart() {
        bench.keyOn();
        assertThat(sequence(bench)).containsExactly("main", "", "standby", "", "main");
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
    }

    /** One pulse at 100 rpm takes 0.15 s with four pulses per revolution, 0.6 s with one. */
    @ParameterizedTest
    @CsvSource({"4, 0.15", "1, 0.6"})
    void shouldKnowThatTheShaftStandsAfterOnePulseAtStandstillSpeed(int pulses, double seconds) {
        FeedBench started = new FeedBench(
                Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulses).build());
        started.keyOn().tick();
        assertThat(started.secondsUntil(() -> !started.feed.mainOn())).isCloseTo(seconds, within(0.0051));
    }

    @Test
    void shouldNeverOpenTheFeedOfAShaftThatTurns() {
        bench.keyOn();
        for (int i = 0; i < 1000; i++) {
            bench.signs.edges = i / 20; // an edge each 0.1 s: 150 rpm
            bench.tick();
            assertThat(bench.feed.mainOn()).isTrue();
        }
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.NOT_DONE);
        assertThat(bench.feed.selfTestOver()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2})
    void shouldGiveTheFeedBackInTheSameTickWhenTheShaftStartsToTurn(int ticks) {
        bench.coastS = 2;
        bench.keyOn().run(0.2);
        assertThat(bench.feed.mainOn()).isFalse();
        bench.run(ticks * FeedBench.TICK_S);
        bench.signs.edges++;
        bench.tick();
        assertThat(bench.feed.mainOn()).isTrue();
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.NOT_DONE);
        bench.run(5);
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldNotTestWhileThePickupIsLost() {
        bench.signs.pickupLost = true;
        bench.keyOff().keyOn().tick();
        assertThat(bench.feed.mainOn()).isTrue();
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.NOT_DONE);
    }

    @Test
    void shouldNotTestOnABusTooLowToJudge() {
        bench.keyOff();
        bench.signs.busVolts = 5.9;
        bench.keyOn().tick();
        assertThat(bench.feed.mainOn()).isTrue();
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.NOT_DONE);
    }

    @Test
    void shouldCountAsNotDoneWhenTheKeyGoesOffMeanwhile() {
        bench.keyOff().keyOn().tick();
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.RUNNING);
        bench.keyOff();
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.NOT_DONE);
        assertThat(bench.feed.mainOn() || bench.feed.standbyOn()).isFalse();
        bench.keyOn().run(1);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
    }

    @Test
    void shouldGiveACoastingPumpItsTimeBeforeCallingAContactWelded() {
        bench.coastS = 4.9; // falls to nine tenths of the bus in 0.4 s
        bench.keyOn().run(0.54);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.RUNNING);
        bench.run(2);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    void shouldFindVoltageThatStandsBeforeAnythingIsOn() {
        bench.standbySticks = true;
        bench.keyOn().run(0.15);
        double seconds = bench.secondsUntil(bench.feed::selfTestOver);
        assertThat(seconds).isBetween(0.5, 0.52);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.FAILED);
        // Nothing has ever been seen open, so either contact may be the one.
        assertThat(bench.active(TroubleCode.MAIN_RELAY_WELDED)).isTrue();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_WELDED)).isTrue();
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldFindAStandbyContactThatDoesNotOpenAgain() {
        bench.keyOff().keyOn().tick();
        assertThat(bench.feed.standbyOn()).isTrue();
        bench.standbySticks = true;
        bench.run(0.48);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.RUNNING);
        bench.run(0.1);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.FAILED);
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_WELDED)).isTrue();
        assertThat(bench.active(TroubleCode.MAIN_RELAY_WELDED)).isFalse();
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldFindAStandbyRelayThatDoesNotCloseAndCarryOnWithTheMainRelay() {
        bench.standbySticks = false;
        bench.keyOff().keyOn().tick();
        assertThat(bench.secondsUntil(() -> !bench.feed.standbyOn())).isCloseTo(0.06, within(1e-9));
        bench.run(0.1);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.FAILED);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.STANDBY_RELAY_STUCK_OFF.bit());
        assertThat(bench.feed.mainOn()).isTrue();
    }

    @Test
    void shouldFindAMainRelayThatDoesNotCloseAndCarryOnWithTheStandbyRelay() {
        bench.mainSticks = false;
        bench.keyOff().keyOn().run(0.2);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.FAILED);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_STUCK_OFF.bit());
        assertThat(bench.feed.mainOn() && bench.feed.standbyOn()).isTrue();
        bench.run(5);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_STUCK_OFF.bit());
    }

    @ParameterizedTest
    @CsvSource({"0.055, true", "0.065, false"})
    void shouldGiveTheMainContactTheReadbackTimeToClose(double closesAfterS, boolean passed) {
        bench.mainSticks = false;
        bench.keyOff().keyOn();
        bench.secondsUntil(bench.feed::standbyOn);
        bench.secondsUntil(bench.feed::mainOn);
        bench.run(closesAfterS);
        bench.mainSticks = null;
        bench.run(0.2);
        assertThat(bench.feed.selfTest()).isEqualTo(passed ? SelfTestState.PASSED : SelfTestState.FAILED);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isEqualTo(!passed);
    }

    @Test
    void shouldFindAFuseThatIsBlown() {
        bench.fuseBlown = true;
        bench.keyOff().keyOn().run(0.4);
        assertThat(bench.feed.selfTest()).isEqualTo(SelfTestState.FAILED);
        assertThat(bench.feed.lost()).isTrue();
        assertThat(bench.feed.mainOn() && bench.feed.standbyOn()).isTrue();
    }

    @Test
    void shouldAcceptPumpCurrentInPlaceOfADeadReadback() {
        FeedBench measured = new FeedBench(true, true);
        measured.mainReadbackBroken = true;
        measured.standbyReadbackBroken = true;
        measured.keyOff().keyOn().run(0.2);
        assertThat(measured.feed.selfTest()).isEqualTo(SelfTestState.PASSED);
        assertThat(measured.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isFalse();
        assertThat(measured.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isFalse();
        assertThat(measured.active(TroubleCode.MAIN_READBACK_LOST)).isTrue();
        assertThat(measured.active(TroubleCode.STANDBY_READBACK_LOST)).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"1.4, true", "1.2, false"})
    void shouldFindAWornContactByTheVoltageItLosesToPumpCurrent(double dropVolts, boolean worn) {
        FeedBench measured = new FeedBench(true, true);
        measured.standbyDropVolts = dropVolts;
        measured.keyOff().keyOn().run(0.3);
        assertThat(measured.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isEqualTo(worn);
        assertThat(measured.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isFalse();
        assertThat(measured.feed.selfTest()).isEqualTo(worn ? SelfTestState.FAILED : SelfTestState.PASSED);

        FeedBench main = new FeedBench(true, true);
        main.mainDropVolts = dropVolts;
        main.keyOff().keyOn().run(0.3);
        assertThat(main.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isEqualTo(worn);
        assertThat(main.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isFalse();
        assertThat(main.feed.standbyOn()).isEqualTo(worn);
    }

    @Test
    void shouldNotTakeACoastingPumpForAClosedContact() {
        bench.standbySticks = false;
        bench.coastS = 5;
        bench.keyOn().run(2);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.STANDBY_RELAY_STUCK_OFF.bit());
    }

    @ParameterizedTest
    @CsvSource({"8e5, PUMP_CURRENT_SENSOR_LOST, PASSED, 1.0", "1e5, PUMP_CURRENT_NONE, PASSED, 0.3"})
    void shouldNotEndBeforeMissingCurrentIsLaidToThePumpOrToTheSensor(
            double pressurePa, TroubleCode code, SelfTestState result, double seconds) {
        FeedBench measured = new FeedBench(true, true);
        measured.ampsWhileFed = 0;
        measured.signs.pressurePa = pressurePa;
        measured.keyOff().keyOn().tick();
        assertThat(measured.secondsUntil(measured.feed::selfTestOver)).isBetween(seconds, seconds + 0.06);
        assertThat(measured.active(code)).isTrue();
        assertThat(measured.feed.selfTest()).isEqualTo(result);
    }
}

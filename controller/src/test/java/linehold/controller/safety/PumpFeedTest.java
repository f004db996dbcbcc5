package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PumpFeedTest {
    private final FeedBench bench = new FeedBench(true, false);

    @Test
    @Requirement("LH-RL-1")
    void shouldSwitchOnTheStandbyRelayAfterTheReadbackTimeAndLatchTheFinding() {
        bench.tested().pump(false).run(1);
        bench.mainSticks = false;
        bench.pump(true).tick();
        assertThat(bench.secondsUntil(bench.feed::standbyOn)).isCloseTo(0.06, within(1e-9));
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(bench.feed.mainOn()).isTrue();

        // The standby relay feeds the same wire: its voltage proves nothing of the main contact.
        bench.run(5).pump(false).run(5);
        assertThat(bench.feed.mainOn() || bench.feed.standbyOn()).isFalse();
        bench.pump(true).tick();
        assertThat(bench.feed.mainOn() && bench.feed.standbyOn()).isTrue();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isFalse();
        bench.keyOff().tick();
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isFalse();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldFindAFeedThatIsLostInTheMiddleOfARun() {
        bench.tested().run(5);
        bench.mainSticks = false;
        bench.run(0.2);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_STUCK_OFF.bit());
        assertThat(bench.fed).isTrue();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldAcceptPullInAndBounceWithinTheReadbackTime() {
        bench.tested().pump(false).run(1);
        bench.mainSticks = false;
        bench.pump(true).run(0.055);
        bench.mainSticks = null;
        bench.run(0.005);
        bench.mainSticks = false;
        bench.run(0.02);
        bench.mainSticks = null;
        bench.run(1);
        assertThat(bench.codes.active()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"7.9, 13, false", "7.7, 13, true", "6, 9, false", "7.3, NaN, false", "7.1, NaN, true", "NaN, 13, true"})
    @Requirement("LH-RL-1")
    void shouldJudgeTheContactByItsShareOfBusVoltage(double contactVolts, double busVolts, boolean stuckOff) {
        PumpFeed feed = new PumpFeed(Calibration.builder().build());
        PumpSigns signs = new PumpSigns();
        signs.wanted = true;
        signs.mainContactVolts = contactVolts;
        signs.busVolts = busVolts;
        CodeStore codes = new CodeStore();
        for (int i = 0; i < 30; i++) {
            feed.update(i * 5_000_000L, signs);
        }
        feed.report(codes);
        assertThat(codes.active() & TroubleCode.MAIN_RELAY_STUCK_OFF.bit())
                .isEqualTo(stuckOff ? TroubleCode.MAIN_RELAY_STUCK_OFF.bit() : 0);
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldBlameNoRelayForABusThatDropsOut() {
        bench.tested();
        bench.signs.busVolts = 2;
        bench.mainSticks = false;
        bench.run(0.2);
        bench.signs.busVolts = FeedBench.BUS;
        bench.mainSticks = null;
        bench.run(1);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldSwitchOnTheStandbyRelayWhereACodeAsksForIt() {
        bench.tested();
        assertThat(bench.feed.standbyOn()).isFalse();
        bench.codes.set(TroubleCode.PRESSURE_LOST_STANDING, true);
        bench.run(0.01);
        assertThat(bench.feed.standbyOn()).isTrue();
        bench.pump(false).tick();
        assertThat(bench.feed.standbyOn()).isFalse();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldTellABrokenReadbackFromADeadRelayByTheOtherReadback() {
        bench.tested();
        bench.mainReadbackBroken = true;
        bench.run(1);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit());
        assertThat(bench.feed.standbyOn()).isTrue();
        bench.pump(false).run(1);
        assertThat(bench.active(TroubleCode.MAIN_READBACK_LOST)).isTrue();
        bench.mainReadbackBroken = false;
        bench.standbyReadbackBroken = true;
        bench.pump(true).run(1);
        assertThat(bench.codes.active()).isEqualTo(TroubleCode.STANDBY_READBACK_LOST.bit());
        bench.standbyReadbackBroken = false;
        bench.run(0.02);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldTellABrokenReadbackFromADeadRelayByPumpCurrent() {
        FeedBench measured = new FeedBench(false, true);
        measured.tested().pump(false).run(1);
        measured.mainReadbackBroken = true;
        measured.pump(true).run(1);
        assertThat(measured.codes.active()).isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit());

        // Without readback, current goes on telling whether the contact closes.
        measured.pump(false).run(1);
        measured.mainSticks = false;
        measured.pump(true).run(0.2);
        assertThat(measured.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(measured.feed.lost()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    @Requirement("LH-RL-1")
    void shouldTellABrokenReadbackFromADeadRelayByPressureAtStandstill(boolean rises) {
        FeedBench single = new FeedBench(false, false);
        single.tested();
        single.mainReadbackBroken = true;
        single.signs.pressurePa = rises ? 1.9e5 : 4e5;
        single.run(0.9);
        assertThat(single.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(single.active(TroubleCode.MAIN_READBACK_LOST)).isFalse();
        assertThat(single.feed.lost()).isTrue();
        // Risen pressure shows it at once, pressure that was there only after the evidence time.
        single.signs.pressurePa = 4e5;
        single.run(rises ? 0.1 : 0.2);
        assertThat(single.codes.active())
                .isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit() | TroubleCode.PUMP_FEED_LOST.bit());
        single.run(2);
        assertThat(single.codes.active()).isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit());

        // Blind, no relay is judged any more, whatever the pressure does.
        single.signs.pressurePa = 3e5;
        single.run(2);
        assertThat(single.codes.active()).isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit());
    }

    @ParameterizedTest
    @CsvSource({"1.2, true", "1.4, false"})
    @Requirement("LH-RL-1")
    void shouldTakeAReadbackThatShowsLessThanATenthOfTheBusForBroken(double volts, boolean broken) {
        bench.tested();
        bench.standbyReadbackBroken = true;
        bench.brokenStandbyVolts = volts;
        bench.run(1);
        assertThat(bench.active(TroubleCode.STANDBY_READBACK_LOST)).isEqualTo(broken);
    }

    @Test
    @Requirement({"LH-RL-1", "LH-RL-3"})
    void shouldStillFindTheFeedLostByTheReadbackThatIsLeft() {
        bench.tested();
        bench.mainReadbackBroken = true;
        bench.run(1);
        bench.fuseBlown = true;
        bench.run(0.2);
        assertThat(bench.feed.lost()).isTrue();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isTrue();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldAcquitBothRelaysWhenNoReadbackIsLeft() {
        FeedBench measured = new FeedBench(true, true);
        measured.tested();
        measured.fuseBlown = true;
        measured.run(0.3);
        assertThat(measured.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isTrue();
        measured.mainReadbackBroken = true;
        measured.standbyReadbackBroken = true;
        measured.fuseBlown = false;
        measured.run(3);
        assertThat(measured.codes.active())
                .isEqualTo(TroubleCode.MAIN_READBACK_LOST.bit() | TroubleCode.STANDBY_READBACK_LOST.bit());
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldForgetAtKeyOffThatTheStandbyRelayDidNotClose() {
        bench.standbySticks = false;
        bench.tested();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isTrue();
        bench.standbySticks = null;
        bench.tested();
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldNotLetStoredPressureHideADeadRelay() {
        bench.signs.pressurePa = 8e5;
        bench.tested().run(5);
        bench.mainSticks = false;
        bench.tick();
        double seconds = bench.secondsUntil(bench.feed::standbyOn);
        assertThat(seconds).isBetween(0.055, 0.08);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
    }

    @Test
    @Requirement("LH-RL-1")
    void shouldNotTakePressureOfATurningShaftForTheElectricPumps() {
        FeedBench single = new FeedBench(false, false);
        single.tested();
        single.mainSticks = false;
        single.turning = true;
        single.signs.pressurePa = 3e5;
        single.run(1);
        single.signs.pressurePa = 8e5;
        single.run(5);
        assertThat(single.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(single.active(TroubleCode.MAIN_READBACK_LOST)).isFalse();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    @Requirement("LH-RL-2")
    void shouldNameTheWeldedContactThatWasClosedSinceTheWireWasSeenDead(boolean standbyAlong) {
        bench.tested();
        if (standbyAlong) {
            bench.codes.set(TroubleCode.PRESSURE_LOST_STANDING, true);
            bench.run(0.1);
            bench.codes.set(TroubleCode.PRESSURE_LOST_STANDING, false);
        }
        bench.mainSticks = true;
        bench.pump(false).run(0.5);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_WELDED)).isFalse();
        bench.run(0.01);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_WELDED)).isTrue();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_WELDED)).isEqualTo(standbyAlong);

        // While a relay is on nothing new can be learnt; once the contacts are seen open it is over.
        bench.pump(true).run(2);
        assertThat(bench.active(TroubleCode.MAIN_RELAY_WELDED)).isTrue();
        bench.mainSticks = null;
        bench.pump(false).run(0.1);
        assertThat(bench.codes.active()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"7.9, none", "7.7, worn", "1.4, worn", "1.2, silent"})
    @Requirement("LH-RL-1")
    void shouldTellAWornContactFromASilentReadbackByTheVoltageThatIsLeft(double voltsLeft, String finding) {
        FeedBench measured = new FeedBench(false, true);
        measured.tested();
        measured.mainDropVolts = FeedBench.BUS - voltsLeft;
        measured.run(1);
        assertThat(measured.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isEqualTo(finding.equals("worn"));
        assertThat(measured.active(TroubleCode.MAIN_READBACK_LOST)).isEqualTo(finding.equals("silent"));
        assertThat(measured.feed.lost()).isFalse();
    }

    @Test
    @Requirement({"LH-RL-1", "LH-RL-3"})
    void shouldHelpAWornMainContactByTheStandbyRelayAndNotCallTheFeedLost() {
        FeedBench measured = new FeedBench(true, true);
        measured.tested();
        measured.mainDropVolts = 6;
        measured.run(1);
        assertThat(measured.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_STUCK_OFF.bit());
        assertThat(measured.feed.standbyOn()).isTrue();
        measured.standbyDropVolts = 6;
        measured.run(1);
        assertThat(measured.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isTrue();
        assertThat(measured.feed.lost()).isFalse();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldNotTakeACoastingPumpForAWeld() {
        bench.coastS = 4;
        bench.tested().pump(false).run(2);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldStartTheWeldTimeAnewAtEverySwitchingOff() {
        bench.tested();
        bench.mainSticks = true;
        bench.pump(false).run(0.4).pump(true).run(0.05).pump(false).run(0.4);
        assertThat(bench.codes.active()).isZero();
    }

    @Test
    @Requirement("LH-RL-2")
    void shouldSayNothingOfAStandbyRelayThatIsNotFitted() {
        FeedBench single = new FeedBench(false, false);
        single.mainSticks = true;
        single.run(1);
        assertThat(single.codes.active()).isEqualTo(TroubleCode.MAIN_RELAY_WELDED.bit());
    }

    @Test
    @Requirement("LH-RL-3")
    void shouldFindTheFeedLostOnceBothRelaysFailAndGiveItBackAfterTheReturnTimeWithTheDriverLettingGo() {
        bench.tested();
        bench.signs.letGo = false;
        bench.fuseBlown = true;
        bench.run(0.1);
        assertThat(bench.feed.standbyOn()).isTrue();
        assertThat(bench.feed.lost()).isFalse();
        bench.run(0.1);
        assertThat(bench.feed.lost()).isTrue();
        assertThat(bench.active(TroubleCode.MAIN_RELAY_STUCK_OFF)).isTrue();
        assertThat(bench.active(TroubleCode.STANDBY_RELAY_STUCK_OFF)).isTrue();

        bench.fuseBlown = false;
        bench.run(10);
        assertThat(bench.feed.lost()).isTrue();
        bench.signs.letGo = true;
        bench.tick();
        assertThat(bench.feed.lost()).isFalse();
        bench.fuseBlown = true;
        bench.run(0.1);
        assertThat(bench.feed.lost()).isTrue();
        bench.fuseBlown = false;
        bench.run(1.9);
        assertThat(bench.feed.lost()).isTrue();
        bench.run(0.2);
        assertThat(bench.feed.lost()).isFalse();
    }

    @Test
    @Requirement("LH-RL-3")
    void shouldKeepTheFeedLostWhileThePumpIsOffAndForgetItAtKeyOff() {
        bench.tested();
        bench.fuseBlown = true;
        bench.run(0.3).pump(false).run(5);
        assertThat(bench.feed.lost()).isTrue();
        bench.keyOff();
        assertThat(bench.feed.lost()).isFalse();
    }

    @Test
    @Requirement("LH-RL-3")
    void shouldFindTheFeedLostByTheMainRelayAloneWhereNoStandbyIsFitted() {
        FeedBench single = new FeedBench(
                Calibration.builder().set(Key.RELAY_READBACK_TIME, 0.1).build());
        single.tested();
        single.mainSticks = false;
        single.run(0.1);
        assertThat(single.feed.lost()).isFalse();
        single.run(0.03);
        assertThat(single.feed.lost()).isTrue();
        assertThat(single.active(TroubleCode.PUMP_FEED_LOST)).isTrue();
        assertThat(single.feed.standbyOn()).isFalse();
    }
}

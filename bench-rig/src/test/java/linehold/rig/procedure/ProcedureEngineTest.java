package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The engine by itself, fed tick by tick. In the demonstration build an energised main coil means pump off (LH-RL-6). */
class ProcedureEngineTest {
    private static final long PERIOD_NS = 5_000_000;

    private final Build build = VirtualBench.DEMONSTRATION;
    private final ProcedureEngine engine = new ProcedureEngine(new Bench(build, 3));
    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private long nowNs = 7;

    @BeforeEach
    void healthy() {
        in.pressureSenderSupplyVolts = 5;
        in.pressureSenderVolts = 0.5;
        in.mainContactVolts = 0;
        in.standbyContactVolts = 0;
        in.busVolts = 13.2;
        in.pumpCurrentAmps = 0;
        in.oilTemperatureC = 60;
        in.keyOn = true;
        in.selectedRange = Range.NEUTRAL;
    }

    private void tick() {
        nowNs += PERIOD_NS;
        engine.step(nowNs, in, out);
    }

    private void ticks(double seconds) {
        for (long i = 0; i < Math.round(seconds * 1e9) / PERIOD_NS; i++) {
            tick();
        }
    }

    private void assertSafe() {
        assertThat(out.mainRelayCoil).as("main coil energised, pump off").isFalse();
        assertThat(out.standbyRelayCoil).isFalse();
        assertThat(out.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(out.torqueLimitNm).isZero();
        assertThat(out.warningLamp).isTrue();
        assertThat(out.buzzer).isFalse();
    }

    private Result result() {
        return engine.view().result();
    }

    private static Step step(Command command, double longestS, Work work) {
        return Step.of("A step", command, Shaft.still(Range.NEUTRAL), longestS, now -> "It took too long.", work);
    }

    private void start(Step... steps) {
        engine.start(Procedure.WIRING, List.of(steps));
        tick();
    }

    private void offForEver() {
        start(step(Command.SAFE, 1, (now, findings) -> true), step(Command.PUMP_OFF, 100, (now, findings) -> false));
        tick();
        assertThat(out.mainRelayCoil).as("pump off").isTrue();
    }

    @Test
    void shouldRunThePumpWithDriveWithheldBeforeAnyProcedure() {
        tick();
        assertSafe();
        assertThat(engine.view().running()).isFalse();
        assertThat(engine.shaft().radPerS()).isZero();
    }

    @ParameterizedTest
    @EnumSource(value = Command.class, names = "CONTROLLER", mode = EnumSource.Mode.EXCLUDE)
    void shouldCommandWhatTheStepSaysAndWithholdDrive(Command command) {
        start(step(command, 1, (now, findings) -> false));
        boolean mainFeeds = command != Command.PUMP_OFF && command != Command.STANDBY_RELAY;
        assertThat(out.mainRelayCoil).isEqualTo(!mainFeeds);
        assertThat(out.standbyRelayCoil).isEqualTo(command == Command.STANDBY_RELAY);
        assertThat(out.buzzer).isEqualTo(command == Command.SIGNALS);
        assertThat(out.permission).isEqualTo(DrivePermission.WITHHELD);
    }

    @Test
    void shouldWireANormallyOpenContactTheOtherWayRound() {
        Build open = build.withCalibration(build.calibration().toBuilder()
                .set(Key.NORMALLY_CLOSED_CONTACT, false)
                .build());
        ProcedureEngine other = new ProcedureEngine(new Bench(open, 1));
        other.step(PERIOD_NS, in, out);
        assertThat(out.mainRelayCoil).isTrue();
        other.start(Procedure.WIRING, List.of(step(Command.PUMP_OFF, 1, (now, findings) -> false)));
        other.step(2 * PERIOD_NS, in, out);
        assertThat(out.mainRelayCoil).isFalse();
    }

    @Test
    void shouldEndSafelyInTheTickOfAStop() {
        offForEver();
        engine.stop("Stopped by key.");
        tick();
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.STOPPED);
        assertThat(result().sentence()).isEqualTo("Stopped by key.");
        ticks(1);
        assertSafe();
    }

    @Test
    void shouldEndSafelyInTheTickInWhichTheKeyIsSwitchedOff() {
        offForEver();
        in.keyOn = false;
        tick();
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.STOPPED);
        assertThat(result().sentence()).contains("key");
    }

    @Test
    void shouldEndSafelyInTheTickOfADefect() {
        start(step(Command.PUMP_OFF, 10, (now, findings) -> {
            if (now.stepS() > 0.02) {
                throw new IllegalStateException("broken on purpose");
            }
            return false;
        }));
        ticks(0.05);
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result().sentence()).contains("broken on purpose", "a defect to report");
        assertThat(result().defect()).isInstanceOf(IllegalStateException.class);
        ticks(0.1);
        assertSafe();
        // and the next one can be started
        start(step(Command.PUMP_OFF, 10, (now, findings) -> false));
        assertThat(out.mainRelayCoil).isTrue();
    }

    @Test
    void shouldEndSafelyInTheTickOfAValueOutOfLimits() {
        start(step(Command.PUMP_OFF, 10, (now, findings) -> {
            findings.atMost("key", "Title", engineBench().volts(), 2, 1, "Too much.");
            return true;
        }));
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result().sentence()).isEqualTo("Too much.");
        assertThat(result().findings()).extracting(Finding::key).containsExactly("key", "longest-tick");
    }

    private Bench engineBench() {
        return new Bench(build, 1);
    }

    @Test
    void shouldFailAStepThatTakesTooLong() {
        start(step(Command.PUMP_OFF, 0.5, (now, findings) -> false));
        ticks(0.49);
        assertThat(engine.view().running()).isTrue();
        ticks(0.02);
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result().sentence()).isEqualTo("It took too long.");
    }

    @Test
    void shouldFailAValueThatCouldNotBeMeasured() {
        Finding finding = new Finding("k", "t", Double.NaN, engineBench().volts(), 0, 1, "s");
        assertThat(finding.passes()).isFalse();
        assertThat(finding.valueText()).isEqualTo("–");
        assertThat(finding.limitText()).isEqualTo("0.00 to 1.00 V");
    }

    @Test
    void shouldEndAboveThePressureOfTheBuild() {
        offForEver();
        // 14 bar; the demonstration build allows 1.25 times its set pressure of 10 bar.
        in.pressureSenderVolts = 0.5 + 4 * 14 / 20.0;
        ticks(0.04);
        assertThat(engine.view().running()).isTrue();
        ticks(0.02);
        assertSafe();
        assertThat(result().sentence()).contains("14.00 bar", "12.50 bar");
    }

    @Test
    void shouldEndInOilThatIsTooHot() {
        offForEver();
        in.oilTemperatureC = 131;
        ticks(1.1);
        assertSafe();
        assertThat(result().sentence()).contains("131 °C", "130 °C", "let it cool");
    }

    @Test
    void shouldEndWhereTheOilTemperatureIsLost() {
        offForEver();
        in.oilTemperatureC = Double.NaN;
        ticks(1.1);
        assertSafe();
        assertThat(result().sentence()).contains("oil temperature cannot be read");
    }

    @ParameterizedTest
    @ValueSource(doubles = {8.5, 17})
    void shouldEndWithABusOutOfBounds(double volts) {
        offForEver();
        in.busVolts = volts;
        ticks(0.6);
        assertSafe();
        assertThat(result().sentence()).contains("The bus has", "9.00 to 16.00 V");
    }

    @Test
    void shouldEndWithAStalledPump() {
        start(step(Command.SAFE, 1, (now, findings) -> true), step(Command.MAIN_RELAY, 100, (now, findings) -> false));
        in.pumpCurrentAmps = 80;
        ticks(1.2);
        assertThat(engine.view().running()).as("an inrush is none").isTrue();
        ticks(0.2);
        assertSafe();
        assertThat(result().sentence()).contains("80.0 A", "does not turn");
    }

    @Test
    void shouldEndWithoutItsSenderOnlyWhereItIsNeeded() {
        for (Procedure procedure : List.of(Procedure.WIRING, Procedure.STALL_HOLD)) {
            in.pressureSenderVolts = 0;
            engine.start(procedure, List.of(step(Command.SAFE, 10, (now, findings) -> false)));
            ticks(0.5);
            assertThat(engine.view().running()).isEqualTo(procedure == Procedure.WIRING);
            engine.stop("next");
            tick();
        }
        assertThat(result().sentence()).contains("a wire is off or shorted");
    }

    @Test
    void shouldTakeAnAnswerOnlyToTheQuestionThatWasShown() {
        Step ask =
                Step.asking("Ask", "Is it so?", Ask.CONFIRM, Command.SAFE, Shaft.still(Range.NEUTRAL), Work.ANSWERED);
        start(ask, ask);
        long first = engine.view().question();
        assertThat(first).isPositive();
        // pressed twice
        engine.answer(Answer.yes(first));
        engine.answer(Answer.yes(first));
        ticks(0.1);
        assertThat(engine.view().stepNumber()).isEqualTo(2);
        assertThat(engine.view().running()).isTrue();
        assertThat(engine.view().question()).isGreaterThan(first);
        engine.answer(Answer.yes(engine.view().question()));
        ticks(0.1);
        assertThat(result().outcome()).isEqualTo(Outcome.PASSED);
    }

    @Test
    void shouldStopWhereNobodyAnswersForTenMinutes() {
        engine.start(Procedure.WIRING);
        ticks(599);
        assertThat(engine.view().running()).isTrue();
        ticks(2);
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.STOPPED);
    }

    @Test
    void shouldFailALampThatIsNotSeen() {
        Result result = VirtualBench.healthy(60)
                .silentPerson()
                .onlooker((other, truth) -> {
                    if (other.view().question() > 0) {
                        boolean lamp = other.view().step().ask() == Ask.YES_NO;
                        other.answer(new Answer(other.view().question(), lamp ? 0 : 1));
                    }
                })
                .run(Procedure.WIRING);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains("Lamp or buzzer does not work");
    }

    @Test
    void shouldRefuseASecondProcedureWhileOneRuns() {
        offForEver();
        assertThatThrownBy(() -> engine.start(Procedure.PICKUP)).isInstanceOf(IllegalStateException.class);
    }

    @ParameterizedTest
    @ValueSource(strings = {"key", "range", "shaft"})
    void shouldNotBeginBeforeTheCarIsPrepared(String what) {
        engine.start(Procedure.PICKUP);
        tick();
        switch (what) {
            case "key" -> in.keyOn = false;
            case "range" -> in.selectedRange = Range.DRIVE;
            default -> {
                for (int i = 0; i < 40; i++) {
                    in.pickupEdgeCount++;
                    in.pickupLastEdgeNs = nowNs;
                    tick();
                }
            }
        }
        engine.answer(Answer.yes(engine.view().question()));
        tick();
        assertSafe();
        assertThat(result().outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result().sentence()).contains(what);
    }

    @Test
    void shouldAskForTheOilTemperatureWhereNoSensorTellsIt() {
        Build without = build.withCalibration(build.calibration().toBuilder()
                .set(Key.OIL_TEMPERATURE_FITTED, false)
                .build());
        ProcedureEngine other = new ProcedureEngine(new Bench(without, 1));
        other.start(Procedure.STALL_HOLD);
        in.selectedRange = Range.DRIVE;
        in.oilTemperatureC = Double.NaN;
        long t = 0;
        List<Ask> asked = new ArrayList<>();
        for (int i = 0; i < 1000; i++) {
            other.step(t += PERIOD_NS, in, out);
            if (other.view().question() > 0) {
                asked.add(other.view().step().ask());
                other.answer(new Answer(other.view().question(), 85));
            }
        }
        assertThat(asked).contains(Ask.CONFIRM, Ask.OIL_TEMPERATURE);
        assertThat(other.view().oilC()).isEqualTo(85);
    }

    /** No step of any procedure moves a coil or grants drive but as its command says. */
    @ParameterizedTest
    @EnumSource(Procedure.class)
    void shouldGrantDriveOnlyWhereTheControllerDecides(Procedure procedure) {
        int[] granted = {0};
        VirtualBench.healthy(60)
                .onlooker((other, truth) -> {
                    View view = other.view();
                    boolean drives = truth.outputs.permission != DrivePermission.WITHHELD;
                    granted[0] += drives ? 1 : 0;
                    // The view of a tick shows the step that comes next where one has just ended.
                    if (drives && view.running() && view.stepS() > 0) {
                        assertThat(view.step().command()).isEqualTo(Command.CONTROLLER);
                    }
                })
                .run(procedure);
        boolean turned = procedure == Procedure.HAND_OVER || procedure == Procedure.PANIC_STOP;
        assertThat(granted[0] > 0).isEqualTo(turned);
    }

    /** A build without sender, standby relay and current: what does not need them still runs. */
    @Test
    void shouldRunWithoutASenderWhatNeedsNone() {
        Build rule = BuildFile.loadNamed("rule-of-thumb");
        for (Procedure procedure : List.of(Procedure.WIRING, Procedure.PICKUP)) {
            Result result = new VirtualBench(rule, rule, 60, List.of()).run(procedure);
            assertThat(result.sentence()).isEmpty();
            assertThat(result.outcome()).isEqualTo(Outcome.PASSED);
        }
    }
}

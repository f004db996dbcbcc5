package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One fault on the simulated bench: the procedure that looks there fails, and says what it is. */
class BrokenBenchTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    WIRING     | READBACK_BROKEN         | Main relay on: its readback shows 0.00 V although the pump is fed
                    WIRING     | STANDBY_READBACK_BROKEN | Standby readback shows 0.00 V although the pump's wire is fed
                    WIRING     | MAIN_RELAY_WELDED       | a relay is welded
                    WIRING     | STANDBY_RELAY_WELDED    | a relay is welded
                    WIRING     | MAIN_COIL_LOST          | the wire to the main coil is off
                    WIRING     | MAIN_RELAY_STUCK_OPEN   | Main relay on: its readback shows 0.00 V: the relay does not close
                    WIRING     | STANDBY_COIL_LOST       | Standby relay on: its readback shows 0.00 V: the relay does not close
                    WIRING     | MAIN_CONTACT_WORN       | a worn or dirty contact
                    WIRING     | MAIN_CONTACT_BOUNCING   | a slow or bouncing relay
                    WIRING     | PUMP_FUSE_BLOWN         | or the fuse is blown
                    WIRING     | CURRENT_SENSOR_DEAD     | Pump current reads 0.0 A with the pump fed
                    PICKUP     | PICKUP_TOOTH_MISSING    | Counted 30 edges in ten turns, 3.0 per revolution; the build says 4
                    PICKUP     | PICKUP_DEAD             | No edge came in ten turns
                    PICKUP     | PICKUP_NOISE            | or the pickup's line picks up noise
                    SENDER     | SENDER_DRIFTING         | where the gauge shows 0.00 bar: the sender is off
                    SENDER     | SENDER_STUCK            | where the gauge shows 6.19 bar: the sender is off
                    SENDER     | SENDER_OPEN             | a wire is off or shorted
                    SENDER     | MAIN_RELAY_STUCK_OPEN   | No voltage behind the main contact
                    PRIME      | SUCTION_BLOCKED         | a worn or starved pump, a leak, air
                    PRIME      | CHECK_VALVE_STUCK_SHUT  | a check valve that sticks, or a large leak
                    PRIME      | STANDBY_RELAY_STUCK_OPEN | P1797
                    SPIN_UP    | CHECK_VALVE_STUCK_SHUT  | No flow of the electric pump showed in the line
                    SPIN_UP    | MAIN_CONTACT_BOUNCING   | Voltage behind the main contact came late
                    SPIN_UP    | MAIN_RELAY_WELDED       | Voltage stays behind the main contact with the relay off
                    SPIN_UP    | CURRENT_SENSOR_DEAD     | Pump current does not show a motor that comes to speed
                    SPIN_UP    | REGULATOR_STUCK_OPEN    | The internal pump alone has not brought the line to
                    LEAK_DOWN  | HOSE_LEAK               | a leak in hose, seal or valve body
                    LEAK_DOWN  | BAND_SEAL_LEAK          | a leak in hose, seal or valve body
                    LEAK_DOWN  | CHECK_VALVE_STUCK_OPEN  | or a check valve that does not shut
                    LEAK_DOWN  | MAIN_RELAY_WELDED       | the pump is still fed
                    STALL_HOLD | SUCTION_BLOCKED         | where the build promises 8.05 bar: a worn or starved pump
                    STALL_HOLD | PUMP_STALLED            | the current of a stalled motor
                    STALL_HOLD | PUMP_DRY                | below the hold pressure of 4.00 bar
                    STALL_HOLD | CURRENT_SENSOR_DEAD     | Pump current is 0.0 A on the mean
                    HAND_OVER  | PICKUP_TOOTH_MISSING    | No hand-over: the shaft shows
                    HAND_OVER  | REGULATOR_STUCK_SHUT    | a relief or regulator valve is stuck
                    HAND_OVER  | READBACK_BROKEN         | P1798
                    PANIC_STOP | MAIN_CONTACT_BOUNCING   | The main contact did not close in time during the stop
                    ENDURANCE  | PUMP_DRY                | Cycle 1 of 20: hold pressure was not reached
                    """)
    void shouldFailWithTheRightSentence(Procedure procedure, FaultKind kind, String sentence) {
        Fault fault = new Fault(kind, 0, Double.POSITIVE_INFINITY, kind.usualSize());
        Result result = VirtualBench.with(fault, 60).run(procedure);
        assertThat(result.defect()).isNull();
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains(sentence);
    }

    /** With warm oil it still reaches its relief pressure: only hot oil tells. */
    @Test
    void shouldFindAWornPumpInHotOil() {
        Fault worn = Fault.usual(FaultKind.PUMP_WORN, 0);
        assertThat(VirtualBench.with(worn, 60).run(Procedure.STALL_HOLD).outcome())
                .isEqualTo(Outcome.PASSED);
        Result hot = VirtualBench.with(worn, 110).run(Procedure.STALL_HOLD);
        assertThat(hot.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(hot.sentence()).contains("The pump holds 5.1", "where the build promises 6.12 bar");
    }

    @Test
    void shouldFailAtTheCycleInWhichTheRelayGivesUp() {
        Result result = VirtualBench.with(FaultKind.MAIN_RELAY_STUCK_OPEN, 40).run(Procedure.ENDURANCE);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).startsWith("Cycle 11 of 20: no voltage behind the main contact");
        assertThat(result.findings())
                .filteredOn(finding -> finding.key().equals("cycles-held"))
                .singleElement()
                .extracting(Finding::value)
                .isEqualTo(10.0);
    }

    /** The relay gives up while the internal pump carries alone: nobody notices before the stop. */
    @Test
    void shouldFailAPanicStopWithARelayThatDoesNotCome() {
        Result result = VirtualBench.with(FaultKind.MAIN_RELAY_STUCK_OPEN, 3).run(Procedure.PANIC_STOP);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains("P2797");
    }

    @Test
    void shouldTellAPickupWithOtherTeethThanTheBuilds() throws IOException {
        Build car = edited("pulses-per-revolution: 4", "pulses-per-revolution: 2");
        Result result = new VirtualBench(VirtualBench.DEMONSTRATION, car, 60, List.of()).run(Procedure.PICKUP);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains("Counted 20 edges in ten turns, 2.0 per revolution; the build says 4");
    }

    @Test
    void shouldTellASenderOfAnotherRangeThanTheBuilds() throws IOException {
        Build car = edited("pressure-full-scale: 20 bar", "pressure-full-scale: 25 bar");
        Result result = new VirtualBench(VirtualBench.DEMONSTRATION, car, 60, List.of()).run(Procedure.SENDER);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains("or sensors.pressure-full-scale is not its range");
    }

    @Test
    void shouldTellAReliefValveThatOpensTooLate() throws IOException {
        Build car = edited("relief: 8.5 bar", "relief: 9.6 bar");
        Result result = new VirtualBench(VirtualBench.DEMONSTRATION, car, 60, List.of()).run(Procedure.STALL_HOLD);
        assertThat(result.outcome()).isEqualTo(Outcome.FAILED);
        assertThat(result.sentence()).contains("above its relief pressure of 8.50 bar");
    }

    private Build edited(String from, String to) throws IOException {
        String text = new String(
                BuildFile.class
                        .getResourceAsStream("/linehold/builds/demonstration.yaml")
                        .readAllBytes(),
                StandardCharsets.UTF_8);
        assertThat(text).contains(from);
        Path file = folder.resolve("car.yaml");
        Files.writeString(file, text.replace(from, to));
        return BuildFile.load(file);
    }
}

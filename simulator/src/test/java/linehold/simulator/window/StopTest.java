package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.speed.ShaftSpeed;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.sensor.SpeedPickup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The stop's layout against pickup and controller themselves. */
class StopTest {
    private static final double RPM = Math.PI / 30;

    private static Calibration calibration(double onRpm, int pulses) {
        return Calibration.builder()
                .set(Key.SWITCH_ON_SPEED, onRpm * RPM)
                .set(Key.SWITCH_OFF_SPEED, 1.5 * onRpm * RPM)
                .set(Key.PULSES_PER_REVOLUTION, pulses)
                .build();
    }

    /** When the controller sees the crossing, and when it was, followed at 20 µs through the stop's own rows. */
    private static double seenAfterS(Stop stop, Calibration calibration) {
        int pulses = (int) calibration.get(Key.PULSES_PER_REVOLUTION);
        double on = calibration.get(Key.SWITCH_ON_SPEED);
        SpeedPickup pickup = new SpeedPickup(pulses);
        ShaftSpeed speed = new ShaftSpeed(
                2 * Math.PI / pulses,
                calibration.get(Key.HIGHEST_SHAFT_SPEED),
                calibration.get(Key.HIGHEST_FALL_RATE),
                5_000_000);
        double stepS = 2e-5;
        double crossedS = Double.NaN;
        var rows = stop.drive().rows();
        for (int i = 1; i < rows.size(); i++) {
            DriveSample from = rows.get(i - 1);
            DriveSample to = rows.get(i);
            double slope = (to.shaftSpeedRadPerS - from.shaftSpeedRadPerS) / (to.timeS - from.timeS);
            int steps = (int) Math.max(1, Math.ceil((to.timeS - from.timeS) / stepS));
            double lengthS = (to.timeS - from.timeS) / steps;
            for (int k = 0; k < steps; k++) {
                double atS = from.timeS + k * lengthS;
                pickup.turn(atS, lengthS, from.shaftSpeedRadPerS + slope * k * lengthS, slope);
                double nowS = atS + lengthS;
                speed.update(
                        Math.round(nowS * 1e9),
                        pickup.edgeCount(),
                        Math.round(Math.min(nowS, pickup.lastEdgeS()) * 1e9));
                boolean stopping = nowS > stop.startS();
                if (stopping && Double.isNaN(crossedS) && from.shaftSpeedRadPerS + slope * (k + 1) * lengthS < on) {
                    crossedS = nowS;
                }
                if (stopping && speed.radPerS() < on) {
                    return nowS - crossedS;
                }
            }
        }
        throw new AssertionError("never seen");
    }

    @ParameterizedTest
    @CsvSource({
        "500, 1, 1500, 0.2",
        "500, 1, 1500, 0.55",
        "500, 1, 1500, 0.9",
        "800, 4, 15000, 0.1",
        "800, 4, 15000, 0.56",
        "800, 4, 15000, 0.8",
        "700, 4, 4500, 0.3",
        "700, 4, 4500, 0.52",
        "250, 8, 300, 0.7"
    })
    void shouldBeSeenWhenTheFormulaSays(double onRpm, int pulses, double rate, double phase) {
        Calibration calibration = calibration(onRpm, pulses);
        Stop stop = Stop.of(rate * RPM, Gear.FIRST, calibration, 0, phase, false);
        double formula = Stop.seenAfterS(onRpm * RPM, rate * RPM, 2 * Math.PI / pulses, phase);
        assertThat(seenAfterS(stop, calibration)).isCloseTo(formula, within(1e-4));
    }

    @ParameterizedTest
    @CsvSource({"500, 1, 1500", "800, 4, 15000", "700, 4, 4500", "250, 8, 300"})
    void shouldBeSeenLatestAtTheLatestPhaseAndAtMostOneAndAHalfPulsesLate(double onRpm, int pulses, double rate) {
        double pitch = 2 * Math.PI / pulses;
        double pulseS = pitch / (onRpm * RPM);
        Calibration calibration = calibration(onRpm, pulses);
        double phase = Stop.latestPhase(onRpm * RPM, rate * RPM, pitch);
        double latest = seenAfterS(Stop.of(rate * RPM, Gear.FIRST, calibration, 0, phase, false), calibration);
        for (int i = 0; i < 25; i++) {
            Stop other = Stop.of(rate * RPM, Gear.FIRST, calibration, 0, i / 25.0, false);
            assertThat(seenAfterS(other, calibration)).isLessThan(latest + 0.01 * pulseS);
        }
        assertThat(latest).isBetween(1.3 * pulseS, 1.5 * pulseS + 1e-4);
    }

    /** The control unit then learns it as late as it can: nearly a whole period after the pickup could have told. */
    @Test
    void shouldPutTheControllersTickJustBeforeTheMomentOfSeeing() {
        Calibration calibration = calibration(800, 4);
        double phase = 0.6;
        Stop stop = Stop.of(15000 * RPM, Gear.TOP, calibration, 0, phase, true);
        double seenS = seenAfterS(stop, calibration);
        double fallen = 15000 * RPM * 0.15 / 2;
        double cruise = stop.drive().topShaftSpeedRadPerS();
        double crossingS = stop.startS() + 0.15 + (cruise - fallen - 800 * RPM) / (15000 * RPM);
        double sinceTickS = (crossingS + seenS) % 0.005;
        assertThat(sinceTickS).isBetween(0.0, 2e-4);
        assertThat(stop.drive().rows()).allMatch(row -> row.gear == Gear.TOP && row.keyOn);
        assertThat(stop.drive().rows().get(3).brakeApplied).isTrue();
        assertThat(stop.drive().rows().get(2).brakeApplied).isFalse();
    }
}

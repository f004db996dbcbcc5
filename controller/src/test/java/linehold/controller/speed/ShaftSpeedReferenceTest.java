package linehold.controller.speed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Speed from edges against published values and closed forms.
 *
 * <p>Sources: tooth frequency f = rpm·z/60 with 3000 rpm and 60 teeth giving 3000 Hz (industrialmonitordirect.com, page on
 * speed measurement); 20.5 rpm and 60 teeth giving a period of 48.75 ms to the 0.25 ms tick of its clock
 * (mechanicalvibration.com). Wheel lock: α = (T_b − μ·F_z·r)/J with the model values of public brake simulations (teaching
 * models, no measurements): 1,495 rad/s² at a bare wheel, which a total ratio of 8.75 makes 124,900 rpm/s at the shaft.
 */
class ShaftSpeedReferenceTest {
    private static final double RPM = Math.PI / 30;

    @ParameterizedTest
    @CsvSource({"3000, 60, 333333", "20.5, 60, 48750000"})
    @Requirement("LH-SP-1")
    void shouldAgreeWithPublishedToothPeriods(double rpm, int teeth, long periodNs) {
        ShaftSpeed speed = new ShaftSpeed(2 * Math.PI / teeth, 10_000 * RPM, 150_000 * RPM, 0);
        speed.update(0, 1, 0);
        speed.update(periodNs, 2, periodNs);

        // Half a tick of the 0.25 ms clock in 48.75 ms is 0.26 %.
        assertThat(speed.radPerS()).isCloseTo(rpm * RPM, within(0.0026 * rpm * RPM));
    }

    /** With deceleration a from speed v the angle is v·t − a·t²/2, so edge k comes at (v − √(v² − 2a·k·θ))/a. */
    @ParameterizedTest
    @CsvSource({
        "4500, 3000, 4",
        "15000, 3000, 4",
        "15000, 6000, 1",
        "124900, 8000, 4",
        "124900, 3500, 4",
        "124900, 9000, 1"
    })
    @Requirement("LH-SP-3")
    void shouldNotTakeALockedWheelForALostPickup(double rpmPerS, double fromRpm, int pulsesPerRev) {
        double theta = 2 * Math.PI / pulsesPerRev;
        double a = rpmPerS * RPM;
        double v = fromRpm * RPM;
        ShaftSpeed speed = new ShaftSpeed(theta, 10_000 * RPM, 150_000 * RPM, 5_000_000);
        double steady = theta / v;
        long count = 10;
        long stopBeginsNs = Math.round(10 * steady * 1e9);
        for (int i = 0; i <= count; i++) {
            long edge = Math.round(i * steady * 1e9);
            speed.update(edge, i, edge);
        }
        long lastEdge = stopBeginsNs;
        for (long tick = 1; tick <= 400; tick++) {
            long now = stopBeginsNs + tick * 5_000_000;
            double t = Math.min((now - stopBeginsNs) * 1e-9, v / a);
            long edges = (long) Math.floor((v * t - a * t * t / 2) / theta);
            if (edges > 0) {
                double at = (v - Math.sqrt(v * v - 2 * a * edges * theta)) / a;
                lastEdge = stopBeginsNs + Math.round(at * 1e9);
            }
            speed.update(now, count + edges, lastEdge);
            assertThat(speed.fellTooFast()).as("tick %d", tick).isFalse();
        }
        assertThat(speed.radPerS()).isLessThan(60 * RPM);
    }

    /** The angle turned since the last edge is less than one pulse, so the true speed is below 2·θ/elapsed at a steady stop. */
    @Test
    @Requirement("LH-SP-1")
    void shouldNeverReadBelowAShaftThatSlowsDownSteadily() {
        double theta = Math.PI / 2;
        double a = 800 * RPM;
        double v = 900 * RPM;
        ShaftSpeed speed = new ShaftSpeed(theta, 10_000 * RPM, 150_000 * RPM, 0);
        long lastEdge = 0;
        for (long tick = 0; tick < 225; tick++) {
            long now = tick * 5_000_000;
            double t = now * 1e-9;
            long edges = (long) Math.floor((v * t - a * t * t / 2) / theta);
            if (edges > 0) {
                lastEdge = Math.round((v - Math.sqrt(v * v - 2 * a * edges * theta)) / a * 1e9);
            }
            speed.update(now, edges + 1, lastEdge);
            if (edges > 1) {
                assertThat(speed.radPerS()).isGreaterThanOrEqualTo((v - a * t) * (1 - 1e-9));
            }
        }
    }
}

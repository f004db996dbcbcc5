package linehold.rig.procedure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What procedures measure on the healthy simulated bench, against values that come from elsewhere. */
class HealthyBenchReferenceTest {
    private static final double TICK_S = 0.005;

    private static double value(Result result, String key) {
        assertThat(result.outcome()).as(result.sentence()).isEqualTo(Outcome.PASSED);
        return result.findings().stream()
                .filter(finding -> finding.key().equals(key))
                .mapToDouble(Finding::value)
                .findFirst()
                .orElseThrow();
    }

    /**
     * Source: the circuit of docs/model.md with the demonstration build's numbers, integrated by an independent adaptive
     * solver (Radau, relative tolerance 1e-9): standing in first with the pump on the line settles there.
     */
    @ParameterizedTest
    @CsvSource({"60, 8.05", "100, 7.14", "110, 6.12", "120, 5.30", "-20, 6.26"})
    void shouldHoldTheStallPressureOfAnIndependentSolver(double oilC, double settledBar) {
        Result result = VirtualBench.healthy(oilC).run(Procedure.STALL_HOLD);
        assertThat(value(result, "mean-pressure") / 1e5).isCloseTo(settledBar, within(0.01));
    }

    /** Same source: from empty at 100 °C the band touches 0.60 s after the contact closes, 4 bar are passed 0.02 s later. */
    @Test
    void shouldPrimeInTheTimeOfAnIndependentSolver() {
        Result result = VirtualBench.healthy(100).run(Procedure.PRIME);
        assertThat(value(result, "fill-time")).isCloseTo(0.62, within(2 * TICK_S));
    }

    /**
     * Warm oil: the relief valve is open, so that p_relief = p + p_crack + R_lam·(μ/μ_ref)·Q + R_turb·(ρ/ρ_ref)·Q², where
     * Q is what leaks at p. Source: the equations of docs/model.md, solved here by hand.
     */
    @Test
    void shouldStandBelowTheReliefPressureByWhatHoseAndValveTake() {
        Standing standing = new Standing(60);
        Result result = VirtualBench.healthy(60).run(Procedure.STALL_HOLD);
        double linePa = value(result, "mean-pressure");
        assertThat(linePa + standing.hoseLossPa(standing.leakM3PerS(linePa))).isCloseTo(8.5e5, within(1e3));
    }

    /**
     * Source: start of a DC motor against a constant load (e.g. Kluever, Dynamic Systems, ch. 10), as {@code linehold size}
     * has it: t = τ·ln 20, τ = R·J/(R·b·(μ/μ_ref) + K²).
     */
    @ParameterizedTest
    @CsvSource({"20", "60", "120"})
    void shouldSpinUpInTheTimeOfTheClosedForm(double oilC) {
        double ohm = 0.12 + 0.035 + 0.005 + 0.015;
        double viscousNmS = 3e-5 * new Standing(oilC).muPaS / 6.2e-3;
        double timeConstantS = ohm * 4.0e-4 / (ohm * viscousNmS + 0.042 * 0.042);
        Result result = VirtualBench.healthy(oilC).run(Procedure.SPIN_UP);
        // The contact's closing and the end are both seen at the next tick; the contact bounces for 2 ms.
        assertThat(value(result, "spin-up-time")).isCloseTo(timeConstantS * Math.log(20), within(2 * TICK_S));
    }

    /** Source: the equations of docs/model.md in small explicit steps, written here a second time. */
    @ParameterizedTest
    @CsvSource({"60", "100"})
    void shouldLeakDownAsTheEquationsSay(double oilC) {
        double[] expected = new Standing(oilC).fall();
        Result result = VirtualBench.healthy(oilC).run(Procedure.LEAK_DOWN);
        assertThat(value(result, "half-time")).isCloseTo(expected[0], within(3 * TICK_S));
        // Smoothed over some ten ticks, on a curve that is almost level there.
        assertThat(value(result, "tenth-time")).isCloseTo(expected[1], within(0.12));
    }

    @Test
    void shouldCountThePulsesOfTheBuild() {
        Result result = VirtualBench.healthy(60).run(Procedure.PICKUP);
        assertThat(value(result, "pulses-per-revolution")).isEqualTo(4.0);
        assertThat(value(result, "speed") * 30 / Math.PI).isCloseTo(700, within(1.0));
    }

    /** A sweep of 100 rpm/s passes 900 rpm and is confirmed for 0.3 s: 930 rpm; down it is on again at 700 rpm. */
    @Test
    void shouldHandOverAndTakeBackAtTheCalibratedSpeeds() {
        Result result = VirtualBench.healthy(60).run(Procedure.HAND_OVER);
        assertThat(value(result, "hand-over-speed") * 30 / Math.PI).isCloseTo(930, within(3.0));
        assertThat(value(result, "switch-on-speed") * 30 / Math.PI).isCloseTo(700, within(5.0));
    }

    /** The gauge knows the truth behind the sender. */
    @Test
    void shouldSeeTheLowestPressureOfAPanicStop() {
        double[] lowestPa = {Double.POSITIVE_INFINITY};
        Result result = VirtualBench.healthy(110)
                .onlooker((engine, truth) -> {
                    View view = engine.view();
                    if (view.running() && view.step().title().equals("Stop")) {
                        lowestPa[0] = Math.min(lowestPa[0], truth.lowestPressurePa);
                    }
                })
                .run(Procedure.PANIC_STOP);
        assertThat(value(result, "lowest-pressure")).isCloseTo(lowestPa[0], within(0.15e5));
    }

    /** The standing car in first with the numbers of the demonstration build, in the plainest way. */
    private static final class Standing {
        private static final double STEP_S = 2e-6;

        final double muPaS;
        final double rho;

        Standing(double oilC) {
            // ASTM D341 through 34.0 mm²/s at 40 °C and 7.2 mm²/s at 100 °C.
            double b = (w(34.0) - w(7.2)) / (Math.log10(373.15) - Math.log10(313.15));
            double a = w(34.0) + b * Math.log10(313.15);
            double nu = Math.pow(10, Math.pow(10, a - b * Math.log10(oilC + 273.15))) - 0.7;
            rho = 865 * (1 - 7.0e-4 * (oilC - 15));
            muPaS = nu * 1e-6 * rho;
        }

        private static double w(double nu) {
            return Math.log10(Math.log10(nu + 0.7));
        }

        private double sq(double x) {
            double size = Math.abs(x);
            double part = size / 5e3;
            return size >= 5e3
                    ? Math.signum(x) * Math.sqrt(2 * size / rho)
                    : x * Math.sqrt(2 / (rho * 5e3)) * (1.25 - 0.25 * part * part);
        }

        double leakM3PerS(double pa) {
            return (2.6e-13 + 6.0e-13) * pa / muPaS + 0.6 * Math.PI / 4 * 1e-6 * sq(pa);
        }

        double hoseLossPa(double q) {
            return 0.3e5 + 8.0e7 * (muPaS / 6.2e-3) * q + 5.0e11 * (rho / 814) * q * q;
        }

        private static double storedM3(double pa) {
            return (0.60e-3 / 1.5e9 + 4.0e-12) * pa + 0.60e-3 * 0.03 * pa / (pa + 101_325);
        }

        private static double pressurePa(double storedM3) {
            double low = 0;
            double high = 2e6;
            for (int i = 0; i < 40; i++) {
                double middle = (low + high) / 2;
                if (storedM3(middle) < storedM3) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return low;
        }

        private static double bandPa(double v) {
            return v < 35e-6 ? 0.6e5 + 0.4e5 * v / 35e-6 : 1.0e5 + (v - 35e-6) / 1.0e-12;
        }

        /** Flow and outlet pressure of the electric pump at a speed into a line. */
        private double[] pump(double speed, double linePa) {
            double displacement = 3.0e-6 / (2 * Math.PI);
            double low = 0;
            double high = displacement * speed;
            for (int i = 0; i < 40; i++) {
                double q = (low + high) / 2;
                double outletPa = linePa + hoseLossPa(q);
                if (displacement * speed - 5e-14 * outletPa / muPaS > q && outletPa < 8.5e5) {
                    low = q;
                } else {
                    high = q;
                }
            }
            double outletPa = low > 1e-12 ? linePa + hoseLossPa(low) : displacement * speed * muPaS / 5e-14;
            return new double[] {low > 1e-12 ? low : 0, Math.min(8.5e5, outletPa)};
        }

        /** Times from the coil until half and a tenth of the settled pressure, s. */
        double[] fall() {
            double p = 5e5;
            double v = 35e-6 + 4e-12 * 1e5;
            double stored = storedM3(p);
            double speed = 200;
            double ohm = 0.12 + 0.035 + 0.005 + 0.015;
            double startPa = 0;
            double[] times = {Double.NaN, Double.NaN};
            // An energised coil opens the normally closed contact after the relay's pull-in.
            double openS = 1.5 + 0.012;
            for (long i = 0; Double.isNaN(times[1]); i++) {
                double nowS = i * STEP_S;
                if (nowS < 1.5) {
                    startPa = p;
                } else if (Double.isNaN(times[0]) && p <= startPa / 2) {
                    times[0] = nowS - 1.5;
                } else if (p <= startPa / 10) {
                    times[1] = nowS - 1.5;
                }
                double amps = nowS < openS ? Math.max(0, (13.2 - 0.042 * speed) / ohm) : 0;
                double[] pump = pump(speed, p);
                double torque = 0.042 * amps
                        - 3.0e-6 / (2 * Math.PI) * pump[1]
                        - 0.03 * Math.min(1, speed)
                        - 3e-5 * (muPaS / 6.2e-3) * speed;
                double feed = 0.6 * Math.PI / 4 * 2.6e-3 * 2.6e-3 * sq(p - bandPa(v));
                if (v <= 0 && feed < 0) {
                    feed = 0;
                }
                speed = Math.max(0, speed + STEP_S * torque / 4.0e-4);
                stored += STEP_S * (pump[0] - leakM3PerS(p) - feed);
                v = Math.max(0, v + STEP_S * feed);
                p = pressurePa(stored);
            }
            return times;
        }
    }

    /** The numbers above are those of the build. */
    @Test
    void shouldStandOnTheBuildsNumbers() {
        Build build = VirtualBench.DEMONSTRATION;
        assertThat(List.of(
                        build.electricPump().motorConstantVsPerRad(),
                        build.electricPump().inertiaKgM2(),
                        build.electricPump().viscousTorqueNmS(),
                        build.line().volumeM3(),
                        build.line().laminarLeakM3(),
                        build.internalPump().slipM3(),
                        build.oil().entrainedAir(),
                        build.element(Element.LOW_BAND).strokeVolumeM3(),
                        build.relay().pullInS()))
                .usingElementComparator((a, b) -> Math.abs(a - b) <= 1e-9 * Math.abs(b) ? 0 : Double.compare(a, b))
                .containsExactly(0.042, 4.0e-4, 3e-5, 0.60e-3, 6.0e-13, 2.6e-13, 0.03, 35e-6, 0.012);
    }
}

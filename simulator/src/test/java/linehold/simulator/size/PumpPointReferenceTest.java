package linehold.simulator.size;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Element;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.electrics.Relay;
import linehold.simulator.oil.Oil;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The standing car in equilibrium against independent solutions, and its leakage against published worked values. */
class PumpPointReferenceTest {
    /** Settled pressures of docs/model.md, section 9: Radau of a general-purpose library at 1e-9. */
    @ParameterizedTest
    @CsvSource({"60, 8.05", "100, 7.14", "110, 6.12", "120, 5.30", "-20, 6.26"})
    void shouldSettleWhereAnIndependentSolverDoes(double oilC, double bar) {
        assertThat(PumpPoint.standingPa(Builds.demonstration(), oilC) / 1e5).isCloseTo(bar, within(0.006));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-20, 60, 120})
    void shouldDrawTheCurrentThatTheCircuitDraws(double oilC) {
        Build build = Builds.demonstration();
        Plant plant = new Plant(build, oilC, false, true);
        plant.setRange(linehold.controller.Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        plant.ask(Relay.MAIN, true);
        plant.advance(20, 20);
        PumpPoint point = PumpPoint.at(build, oilC, PumpPoint.standingPa(build, oilC));
        assertThat(point.amps()).isCloseTo(plant.pumpCurrentAmps(), Percentage.withPercentage(0.1));
        assertThat(point.speedRadPerS()).isCloseTo(plant.pumpRadPerS(), Percentage.withPercentage(0.1));
    }

    private static Build leaking(double laminarM3, double orificeM2) {
        return TestBuilds.demonstrationWith(parts -> {
            parts.line = new LineSpec(0.6e-3, 0, laminarM3, orificeM2, 5e3, null);
            parts.internalPump = new InternalPumpSpec(24e-6, 0, Double.POSITIVE_INFINITY);
        });
    }

    /** Q = Cd·A·√(2Δp/ρ), sharp edge 0.611: 1.5 mm, 1 MPa, 860 kg/m³ give 3.1241 L/min (here scaled to the oil's density). */
    @Test
    void shouldLeakThroughAnOrificeAsPublished() {
        Build build = leaking(0, 0.611 * Math.PI / 4 * 1.5e-3 * 1.5e-3);
        Oil oil = new Oil(build.oil(), 60);
        double scaled = PumpPoint.leakM3PerS(build, oil, 1e6) * Math.sqrt(oil.densityKgPerM3() / 860);
        assertThat(scaled * 6e4).isCloseTo(3.1241, within(1e-4));
    }

    /**
     * Fox and McDonald, Introduction to Fluid Mechanics, ex. 8.1, through public solutions (title from memory): a piston of
     * 25 mm with 5 µm clearance over 15 mm, 19 MPa, 0.018 Pa·s leaks 57.57 mm³/s; as a coefficient S = π·D·c³/(12·L).
     */
    @Test
    void shouldLeakThroughAGapAsPublished() {
        Build build = leaking(Math.PI * 25e-3 * Math.pow(5e-6, 3) / (12 * 15e-3), 0);
        Oil oil = new Oil(build.oil(), 60);
        double scaled = PumpPoint.leakM3PerS(build, oil, 19e6) * oil.viscosityPaS() / 0.018;
        assertThat(scaled * 1e9).isCloseTo(57.57, within(0.01));
    }
}

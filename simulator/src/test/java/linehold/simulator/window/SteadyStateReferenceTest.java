package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Range;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Element;
import linehold.simulator.oil.Oil;
import linehold.simulator.size.Sizer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Carry speeds, standstill pressures and torque pressures against closed formulas and an independent solver. */
class SteadyStateReferenceTest {
    private static final double RPM = Math.PI / 30;

    private final Build build = Builds.demonstration();

    /**
     * Wilson's pump model and a sharp-edged orifice (e.g. Merritt, Hydraulic Control Systems, 1967, ch. 3), balanced with the
     * regulator shut: D·n = (S_int + S_line)·p/μ + Cd·A·√(2p/ρ).
     */
    @ParameterizedTest
    @ValueSource(doubles = {-20, 20, 60, 100, 120})
    void shouldFindTheCarrySpeedOfTheClosedFormula(double oilC) {
        Oil oil = new Oil(build.oil(), oilC);
        for (double pressurePa : new double[] {4e5, 6.07e5, 9.5e5}) {
            double leakM3PerS = (2.6e-13 + 6.0e-13) * pressurePa / oil.viscosityPaS()
                    + 0.6 * Math.PI / 4 * 1e-6 * Math.sqrt(2 * pressurePa / oil.densityKgPerM3());
            double formula = leakM3PerS / 24e-6 * 60;
            double found = new SteadyState(build, oilC).carryRadPerS(Element.LOW_BAND, Range.DRIVE, pressurePa) / RPM;
            assertThat(found).isCloseTo(formula, within(0.05));
        }
    }

    /** Above its set pressure the regulator takes G·(p − p_set) more: 4e-9·0.5e5 = 2e-4 m³/s, 500 rpm of 24 cm³. */
    @Test
    void shouldCountTheRegulatorsFlowAboveItsSetPressure() {
        SteadyState circuit = new SteadyState(build, 60);
        double atSet = circuit.carryRadPerS(Element.LOW_BAND, Range.DRIVE, 10e5) / RPM;
        double above = circuit.carryRadPerS(Element.LOW_BAND, Range.DRIVE, 10.5e5) / RPM;
        assertThat(above - atSet).isBetween(500.0, 510.0);
    }

    /**
     * The electric pump's flow at hold pressure must cover leakage and what the internal pump draws out: D·n = Q_el − Q_leak.
     * Q_el/Q_leak is the sizing sheet's, which solves motor, pump and hose for equilibrium instead of running them.
     */
    @Test
    void shouldRollBackAsFastAsThePumpsFlowAllows() {
        double reserve = Sizer.sheet(build).lines().stream()
                .filter(line -> line.key().equals("flow-reserve-hot"))
                .findFirst()
                .orElseThrow()
                .result();
        SteadyState hot = new SteadyState(build, 120);
        double leakingRadPerS = hot.carryRadPerS(Element.LOW_BAND, Range.DRIVE, 4e5);
        assertThat(hot.rollBackRadPerS(4e5) / RPM)
                .isCloseTo((reserve - 1) * leakingRadPerS / RPM, within(0.1))
                .isBetween(80.0, 90.0);
    }

    @Test
    void shouldSayWhereThePumpKeepsNothingEvenAtStandstill() {
        assertThat(new SteadyState(Builds.weak(), 120).rollBackRadPerS(4e5)).isNaN();
    }

    /** Settled pressures of an independent adaptive solver (Radau, relative tolerance 1e-9) of the same equations. */
    @ParameterizedTest
    @CsvSource({"-20, 6.26", "60, 8.05", "100, 7.14", "110, 6.12", "120, 5.30"})
    void shouldHoldAtStandstillWhatAnIndependentSolverFinds(double oilC, double bar) {
        assertThat(new SteadyState(build, oilC).standstillPa(13.2) / 1e5).isCloseTo(bar, within(0.006));
    }

    @Test
    void shouldSayWhereNoShaftSpeedMakesThePressure() {
        assertThat(new SteadyState(build, 60).carryRadPerS(Element.LOW_BAND, Range.DRIVE, 40e5))
                .isNaN();
    }

    /**
     * By hand, capstan relation: 260 N·m · 0.82 · 1.2 = 255.8 N·m over 0.072 m · 0.0075 m² · (e^0.66 − 1) is 5.07 bar above
     * the touch of 1.0 bar; in reverse, discs with uniform wear (Shigley): 304.6 N·m over 0.13·8·0.070·0.0120 is 3.49 bar
     * above 0.9 bar.
     */
    @Test
    void shouldNeedForTheLargestTorqueWhatBandAndDiscsNeedByHand() {
        assertThat(TorquePressure.forwardPa(build)).isCloseTo(6.068e5, within(100.0));
        assertThat(TorquePressure.reversePa(build)).isCloseTo(4.386e5, within(100.0));
    }

    /** By hand: a band that the drum works against carries (e^0.66 − 1)/(1 − e^−0.66) = e^0.66 times less. */
    @Test
    void shouldCountABandThatTheDrumWorksAgainst() {
        Build opposed = EditedBuild.of("drum-helps: true", "drum-helps: false");
        assertThat(TorquePressure.forwardPa(opposed) - 1e5)
                .isCloseTo((TorquePressure.forwardPa(build) - 1e5) * Math.exp(0.66), within(1.0));
    }
}

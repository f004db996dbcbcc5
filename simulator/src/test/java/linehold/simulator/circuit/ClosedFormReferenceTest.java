package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Range;
import linehold.simulator.TestBuilds;
import linehold.simulator.TestBuilds.Parts;
import linehold.simulator.build.Build;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.Element;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.build.SupplySpec;
import linehold.simulator.electrics.Relay;
import linehold.simulator.oil.Oil;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The plant where all but a few of its terms vanish, against closed forms and published worked examples. */
class ClosedFormReferenceTest {
    private static final double OIL_C = 60;
    private static final double NEVER_PA = 1e9;

    /** An oil of one density without air and a line without leakage; no regulator. */
    private static void bare(Parts parts, double volumeM3, double bulkPa, double densityKgPerM3) {
        parts.oil = new OilSpec(34e-6, 7.2e-6, -45, densityKgPerM3, 0, bulkPa, 0);
        parts.line = new LineSpec(volumeM3, 0, 0, 0, 100, null);
        parts.internalPump = new InternalPumpSpec(24e-6, 0, Double.POSITIVE_INFINITY);
        parts.regulator = new RegulatorSpec(4e-9, NEVER_PA, NEVER_PA, NEVER_PA);
    }

    private static LineSpec leaking(LineSpec line, double laminarM3, double orificeM2) {
        return new LineSpec(line.volumeM3(), 0, laminarM3, orificeM2, line.linearBelowPa(), null);
    }

    private static double viscosityPaS(Parts parts) {
        return new Oil(parts.oil, OIL_C).viscosityPaS();
    }

    private static double bore(double metres) {
        return 0.611 * Math.PI / 4 * metres * metres;
    }

    /**
     * p = (Q/C)·(1 − e^(−t/τ)), τ = V/(B·C): 0.5 L, 0.7 GPa, C 1e-10 m³/(s·Pa), Q 1.3333e-4 m³/s give τ 7.142857 ms,
     * 0.842806 MPa after τ and 1.33330 MPa in the end.
     */
    @Test
    void shouldChargeAgainstALaminarLeakLikeTheExponential() {
        Build build = TestBuilds.demonstrationWith(parts -> {
            bare(parts, 0.5e-3, 0.7e9, 860);
            parts.line = leaking(parts.line, 1e-10 * viscosityPaS(parts), 0);
        });
        Plant plant = new Plant(build, OIL_C, false, false);
        plant.setShaft(2 * Math.PI * 1.3333e-4 / 24e-6, 0);
        plant.advance(7.142857e-3, 1);
        assertThat(plant.linePressurePa()).isCloseTo(0.842806e6, within(500 + 843.0));
        plant.advance(1, 1);
        assertThat(plant.linePressurePa()).isCloseTo(1.33330e6, within(15.0));
        plant.setShaft(0, 0);
        plant.advance(1 + 7.142857e-3, 2);
        assertThat(plant.linePressurePa()).isCloseTo(1.33330e6 * Math.exp(-1), within(500 + 490.0));
    }

    /**
     * √p = √p0 − k·t/2, k = (B/V)·Cd·A·√(2/ρ): 1.5 mm, 0.611, 860 kg/m³, 1 MPa give k 72 896.6, empty at 27.4361 ms, a
     * quarter of the pressure at half that time, a hundredth at nine tenths.
     */
    @ParameterizedTest
    @CsvSource({"0.25, 562500", "0.5, 250000", "0.75, 62500", "0.9, 10000"})
    void shouldEmptyThroughAnOrificeLikeTheParabola(double part, double expectedPa) {
        Build build = TestBuilds.demonstrationWith(parts -> {
            bare(parts, 0.5e-3, 0.7e9, 860);
            parts.line = leaking(parts.line, 0, bore(1.5e-3));
        });
        Plant plant = new Plant(build, OIL_C, false, false);
        plant.start(1e6, 0, new double[Element.COUNT]);
        plant.advance(part * 27.4361e-3, 1);
        assertThat(plant.linePressurePa()).isCloseTo(expectedPa, within(500 + 1e-3 * expectedPa));
        plant.advance(29e-3, 1);
        assertThat(plant.linePressurePa()).as("empty but for the linear part").isLessThan(100);
    }

    /** Against a shut valve: K·i = D·p + T_c + b·w, p = D·w·μ/S, i = (V − K·w)/R is linear in w. */
    @Test
    void shouldTurnADeadHeadedPumpAtTheSpeedOfTheTorqueBalance() {
        double slipM3 = 2e-12;
        double reliefPa = 60e5;
        Build build = TestBuilds.demonstrationWith(parts -> {
            ElectricPumpSpec pump = parts.electricPump;
            parts.electricPump = new ElectricPumpSpec(
                    pump.displacementM3PerRev(),
                    slipM3,
                    pump.motorConstantVsPerRad(),
                    pump.armatureResistanceOhm(),
                    pump.inertiaKgM2(),
                    pump.coulombTorqueNm(),
                    pump.viscousTorqueNmS(),
                    reliefPa);
        });
        double mu = new Oil(build.oil(), OIL_C).viscosityPaS();
        double displacement = 3e-6 / (2 * Math.PI);
        double ohm = 0.12 + 0.035 + 0.005 + 0.015;
        double viscous = 3e-5 * mu / 6.2e-3;
        double speed = (0.042 * 13.2 / ohm - 0.03)
                / (displacement * displacement * mu / slipM3 + viscous + 0.042 * 0.042 / ohm);

        Plant plant = new Plant(build, OIL_C, false, true);
        plant.setRange(Range.DRIVE);
        plant.setShaft(3000 * Math.PI / 30, 0);
        plant.start(10e5, 0, new double[Element.COUNT]);
        plant.advance(3, 3);
        assertThat(plant.electricFlowM3PerS()).isZero();
        assertThat(plant.pumpRadPerS()).isCloseTo(speed, Percentage.withPercentage(0.02));
    }

    /** A PM motor without pump: D 0, inductance 0. */
    private static Plant motor(
            double volts, double ohm, double constant, double inertia, double viscous, double loadNm) {
        Build build = TestBuilds.demonstrationWith(parts -> {
            parts.electricPump = new ElectricPumpSpec(0, 5e-14, constant, ohm, inertia, loadNm, viscous, 60e5);
            parts.supply = new SupplySpec(volts, 0, 0);
            parts.relay = new RelaySpec(0, 0, 0, 0);
            HoseSpec hose = parts.hose;
            parts.hose = new HoseSpec(hose.crackPa(), hose.laminarPaSPerM3(), 0, viscosityPaS(parts), 814, 1e-6);
        });
        return new Plant(build, OIL_C, false, true);
    }

    /** Kluever, Dynamic Systems, example 10-3: τ 49.0196 ms, 156.863 rad/s in the end; 99.156 at τ, 136.466 at 0.1 s. */
    @Test
    void shouldSpinUpLikeTheTextbookMotor() {
        Plant plant = motor(8, 0.5, 0.05, 2.5e-4, 1e-4, 0);
        plant.advance(0.0490196, 5);
        assertThat(plant.pumpRadPerS()).isCloseTo(99.156, within(0.15));
        plant.advance(0.1, 5);
        assertThat(plant.pumpRadPerS()).isCloseTo(136.466, within(0.15));
        plant.advance(5, 5);
        assertThat(plant.pumpRadPerS()).isCloseTo(156.863, within(0.01));
    }

    /** 13 V, 0.08 Ω, 0.05 V·s/rad, 4e-4 kg·m², 2 N·m constant load: 40 A, 196.0 rad/s, stall 162.5 A, 95 % at 38.4 ms. */
    @Test
    void shouldSpinUpAgainstAConstantLoad() {
        Plant plant = motor(13, 0.08, 0.05, 4e-4, 0, 2);
        assertThat(plant.pumpCurrentAmps()).isCloseTo(162.5, within(1e-9));
        plant.advance(38.4e-3, 2);
        assertThat(plant.pumpRadPerS()).isCloseTo(0.95 * 196.0, within(0.3));
        plant.advance(2, 2);
        assertThat(plant.pumpRadPerS()).isCloseTo(196.0, within(0.05));
        assertThat(plant.pumpCurrentAmps()).isCloseTo(40.0, within(0.05));
    }

    /**
     * Motor, pump and line together, from three stiff solvers of a general-purpose library that agree: 75.319 A, 119.4895
     * rad/s, 2.358710 MPa. Its inductance plays no part at rest.
     */
    @Test
    void shouldSettleWhereMotorPumpAndOrificeBalance() {
        Build build = TestBuilds.demonstrationWith(parts -> {
            bare(parts, 5e-4, 7e8, 850);
            double mu = viscosityPaS(parts);
            parts.line = leaking(parts.line, 0, bore(2e-3));
            parts.electricPump = new ElectricPumpSpec(10e-6, 2e-11 * mu, 0.05, 0.08, 4e-4, 0, 1e-4, 60e5);
            parts.hose = new HoseSpec(0, 1e4, 0, mu, 850, 1e-6);
            parts.supply = new SupplySpec(12, 0, 0);
            parts.relay = new RelaySpec(0, 0, 0, 0);
        });
        Plant plant = new Plant(build, OIL_C, false, true);
        plant.advance(1, 1);
        assertThat(plant.pumpCurrentAmps()).isCloseTo(75.319046, Percentage.withPercentage(0.01));
        assertThat(plant.pumpRadPerS()).isCloseTo(119.489526, Percentage.withPercentage(0.01));
        assertThat(plant.linePressurePa()).isCloseTo(2_358_709.87, Percentage.withPercentage(0.01));
    }

    /** Standing in first on the electric pump, from an independent adaptive stiff solver (Radau, 1e-9), bar. */
    @ParameterizedTest
    @CsvSource({"-20, 6.26", "60, 8.05", "100, 7.14", "110, 6.12", "120, 5.30"})
    void shouldStandAtTheOperatingPointOfTheReference(double oilC, double bar) {
        Plant plant = new Plant(TestBuilds.demonstration(), oilC, false, true);
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        plant.advance(8, 8);
        assertThat(plant.linePressurePa()).isCloseTo(bar * 1e5, within(501.0));
    }

    /** Prime from empty by the same solver: the band touches 0.60 s after the contact at 100 °C, 0.90 s at −20 °C. */
    @ParameterizedTest
    @CsvSource({"100, 0.60", "-20, 0.90"})
    void shouldTouchTheBandWhenTheReferenceDoes(double oilC, double seconds) {
        Plant plant = new Plant(TestBuilds.demonstration(), oilC, false, true);
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        plant.advance(seconds - 0.005, 8);
        assertThat(plant.touched(Element.LOW_BAND)).isFalse();
        plant.advance(seconds + 0.005, 8);
        assertThat(plant.touched(Element.LOW_BAND)).isTrue();
    }

    /** A stop from 1500 rpm at 20,000 rpm/s, 110 °C, contact 12 or 50 ms after 500 rpm: 4.95 and 3.35 bar (same solver). */
    @ParameterizedTest
    @CsvSource({"0.012, 4.95", "0.050, 3.35"})
    void shouldFallInAPanicStopAsLowAsTheReference(double contactS, double bar) {
        Plant plant = new Plant(TestBuilds.demonstration(), 110, false, false);
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        double rpm = Math.PI / 30;
        plant.setShaft(1500 * rpm, 0);
        plant.advance(3, 3);
        plant.setShaft(1500 * rpm, -20_000 * rpm);
        double standsS = 3.075;
        // The coil leads the contact by its pull-in of 12 ms.
        double coilS = 3.05 + contactS - 0.012;
        plant.takeLowestPressurePa();
        plant.advance(Math.min(coilS, standsS), standsS);
        if (coilS <= standsS) {
            plant.ask(Relay.MAIN, true);
            plant.advance(standsS, standsS);
            plant.setShaft(0, 0);
        } else {
            plant.setShaft(0, 0);
            plant.advance(coilS, coilS);
            plant.ask(Relay.MAIN, true);
        }
        plant.advance(5, 5);
        assertThat(plant.takeLowestPressurePa()).isCloseTo(bar * 1e5, within(600.0));
    }
}

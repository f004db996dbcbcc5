package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;
import linehold.simulator.circuit.Condition.Valve;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Orifice, storage and pump outlet against published forms and worked values. */
class PartsReferenceTest {
    private static final double L_PER_MIN = 1e-3 / 60;

    /** Q = Cd·A·√(2Δp/ρ): 1.5 mm, Cd 0.611 = π/(π+2), 1 MPa, 860 kg/m³ give 3.1241 L/min. */
    @Test
    void shouldPassTheFlowOfASharpEdgedOrifice() {
        Orifice orifice = new Orifice(5e3);
        orifice.setDensity(860);
        double area = 0.611 * Math.PI / 4 * 1.5e-3 * 1.5e-3;
        assertThat(orifice.flow(area, 1e6) / L_PER_MIN).isCloseTo(3.1241, within(1e-4));
        assertThat(orifice.flow(area, -1e6)).isEqualTo(-orifice.flow(area, 1e6));
    }

    /**
     * Worked example of a fluid power text (Esposito, orifice flow in gal/min; the title is from memory): 1 in, C 0.80,
     * 100 psi, specific gravity 0.9 give 252 gal/min with its rounded unit constant 38.1, which is 0.4 % high.
     */
    @Test
    void shouldPassTheFlowOfTheTextbookOrifice() {
        Orifice orifice = new Orifice(5e3);
        orifice.setDensity(900);
        double area = 0.80 * Math.PI / 4 * 0.0254 * 0.0254;
        double galPerMin = orifice.flow(area, 100 * 6894.757) / (3.785411784e-3 / 60);
        assertThat(galPerMin).isCloseTo(252, Percentage.withPercentage(0.5));
    }

    @Test
    void shouldJoinTheLinearPartToTheRootInValueAndSlope() {
        Orifice orifice = new Orifice(5e3);
        orifice.setDensity(850);
        for (double sign : new double[] {-1, 1}) {
            double inside = sign * 5e3 * (1 - 1e-9);
            double outside = sign * 5e3;
            assertThat(orifice.flow(1, inside)).isCloseTo(orifice.flow(1, outside), within(1e-7));
            assertThat(orifice.conductance(1, inside, orifice.flow(1, inside)))
                    .isCloseTo(orifice.conductance(1, outside, orifice.flow(1, outside)), within(1e-10));
        }
        assertThat(orifice.flow(1, 0)).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-3e5, -5e3, -100, 0, 1e-3, 4e3, 5e3, 9e5})
    void shouldHaveTheSlopeOfItsFlow(double pa) {
        Orifice orifice = new Orifice(5e3);
        orifice.setDensity(850);
        double step = 0.01;
        double slope = (orifice.flow(1, pa + step) - orifice.flow(1, pa - step)) / (2 * step);
        assertThat(orifice.conductance(1, pa, orifice.flow(1, pa))).isCloseTo(slope, Percentage.withPercentage(0.01));
    }

    /**
     * Oil with a volume fraction of air at atmospheric pressure, isothermal: the published gauge form with n = 1,
     * E = El·[1 + a·pa/(pa + p)]/[1 + a·El·pa/(pa + p)²], is 1/E = 1/El + a·pa/P² but for its numerator, the oil's
     * share of the volume; they agree to a·pa/P.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 2.5e5, 5e5, 1e6, 1.5e6, 5e6})
    void shouldGiveTheBulkModulusOfOilWithAir(double pa) {
        double atmosphere = 101_325;
        double el = 1.4e9;
        double a = 0.01;
        double absolute = atmosphere + pa;
        double published = el * (1 + a * atmosphere / absolute) / (1 + a * el * atmosphere / (absolute * absolute));
        LineStorage line = new LineStorage(
                new LineSpec(1e-3, 0, 0, 0, 5e3, null), new OilSpec(35e-6, 7e-6, -45, 865, 7e-4, el, a));
        double bulkPa = 1e-3 / line.complianceM3PerPa(pa);
        assertThat(bulkPa).isCloseTo(published, Percentage.withPercentage(100 * a * atmosphere / absolute + 1e-9));
    }

    /** 1/Be = a/P + 1/B with a the gas share AT pressure P (Rabie, eq. 2.49 ff.): B 1.4 GPa, 1 % at 1 MPa: 93.40 MPa. */
    @Test
    void shouldGiveTheBulkModulusOfTheSumOfGasAndOil() {
        double absolute = 1e6;
        double atAtmosphere = 0.01 * absolute / 101_325;
        LineStorage line = new LineStorage(
                new LineSpec(1e-3, 0, 0, 0, 5e3, null), new OilSpec(35e-6, 7e-6, -45, 865, 7e-4, 1.4e9, atAtmosphere));
        assertThat(1e-3 / line.complianceM3PerPa(absolute - 101_325))
                .isCloseTo(93.40e6, Percentage.withPercentage(1.0));
    }

    @ParameterizedTest
    @CsvSource({"0", "1", "1e3", "98675", "198675", "198676", "5e5", "2e6"})
    void shouldGiveBackThePressureOfAStoredVolumeWithAndWithoutAccumulator(double pa) {
        OilSpec oil = new OilSpec(35e-6, 7e-6, -45, 865, 7e-4, 1.5e9, 0.03);
        for (LineSpec.AccumulatorSpec gas :
                new LineSpec.AccumulatorSpec[] {null, new LineSpec.AccumulatorSpec(3e5, 0.3e-3)}) {
            LineStorage line = new LineStorage(new LineSpec(0.6e-3, 4e-12, 0, 0, 5e3, gas), oil);
            assertThat(line.pressurePa(line.storedM3(pa))).isCloseTo(pa, within(1e-6 + 1e-9 * pa));
            double step = 1e-2;
            double slope =
                    (line.storedM3(pa + step) - line.storedM3(Math.max(0, pa - step))) / (step + Math.min(step, pa));
            if (gas == null || Math.abs(pa + 101_325 - 3e5) > step) {
                assertThat(line.complianceM3PerPa(pa)).isCloseTo(slope, Percentage.withPercentage(0.1));
            }
        }
    }

    /** Boyle: 0.3 L of gas at 3 bar absolute hold half their volume of oil at 6 bar absolute. */
    @Test
    void shouldFillAnAccumulatorToHalfAtTwiceItsPrecharge() {
        OilSpec oil = new OilSpec(35e-6, 7e-6, -45, 865, 7e-4, 1.5e9, 0.03);
        double pa = 6e5 - 101_325;
        double with = new LineStorage(
                        new LineSpec(0.6e-3, 4e-12, 0, 0, 5e3, new LineSpec.AccumulatorSpec(3e5, 0.3e-3)), oil)
                .storedM3(pa);
        double without = new LineStorage(new LineSpec(0.6e-3, 4e-12, 0, 0, 5e3, null), oil).storedM3(pa);
        assertThat(with - without).isCloseTo(0.15e-3, within(1e-12));
    }

    private static PumpOutlet outlet(double slipM3, double laminar, double turbulent, double reliefPa) {
        return outlet(slipM3, laminar, turbulent, reliefPa, Valve.HEALTHY);
    }

    private static PumpOutlet outlet(
            double slipM3, double laminar, double turbulent, double reliefPa, Valve checkValve) {
        Orifice orifice = new Orifice(5e3);
        orifice.setDensity(850);
        PumpOutlet outlet = new PumpOutlet(
                new ElectricPumpSpec(10e-6, slipM3, 0.05, 0.08, 4e-4, 0, 0, reliefPa),
                new HoseSpec(0.3e5, laminar, turbulent, 30e-3, 850, 1.9e-6),
                orifice);
        Condition condition = new Condition();
        condition.checkValve = checkValve;
        outlet.set(30e-3, 850, condition);
        return outlet;
    }

    /**
     * Wilson's pump model, Q = D·w − Cs·D·Δp/μ: 10 cm³/rev, 2000 rpm, 1 MPa, Cs 2e-8, 30 mPa·s: 20.000 L/min less
     * 0.0637 L/min. Through a hose of almost no resistance the outlet is line plus cracking pressure.
     */
    @Test
    void shouldDeliverWhatWilsonsPumpModelGives() {
        double displacement = 10e-6 / (2 * Math.PI);
        PumpOutlet outlet = outlet(2e-8 * displacement, 1, 0, 60e5);
        outlet.solve(2000 * Math.PI / 30, 1e6 - 0.3e5);
        assertThat(outlet.outletPa).isCloseTo(1e6, within(1.0));
        assertThat(outlet.flowM3PerS / L_PER_MIN).isCloseTo(20.0 - 0.0637, within(1e-4));
    }

    /** Against a closed valve all of D·w goes through the slip: p = D·w·μ/S. */
    @Test
    void shouldDeadHeadAtTheSlipPressureUpToTheRelief() {
        double displacement = 10e-6 / (2 * Math.PI);
        PumpOutlet outlet = outlet(1e-12, 8e7, 5e11, 60e5);
        outlet.solve(50, 55e5);
        assertThat(outlet.flowM3PerS).isZero();
        assertThat(outlet.outletPa).isCloseTo(displacement * 50 * 30e-3 / 1e-12, within(1e-6));
        PumpOutlet relieved = outlet(1e-12, 8e7, 5e11, 20e5);
        relieved.solve(50, 55e5);
        assertThat(relieved.outletPa).isEqualTo(20e5);
        assertThat(relieved.flowM3PerS).isZero();
    }

    @Test
    void shouldSatisfyHoseAndPumpTogetherWhenTheValveIsOpen() {
        double displacement = 10e-6 / (2 * Math.PI);
        PumpOutlet outlet = outlet(1e-12, 8e7, 5e11, 60e5);
        outlet.solve(120, 4e5);
        double q = outlet.flowM3PerS;
        assertThat(q).isPositive();
        assertThat(outlet.outletPa).isCloseTo(4e5 + 0.3e5 + 8e7 * q + 5e11 * q * q, within(1e-3));
        assertThat(q).isCloseTo(displacement * 120 - 1e-12 * outlet.outletPa / 30e-3, within(1e-12));
    }

    @Test
    void shouldReturnTheRestThroughTheReliefWhenTheHoseTakesNoMore() {
        PumpOutlet outlet = outlet(1e-12, 8e7, 5e11, 8e5);
        outlet.solve(500, 6e5);
        double q = outlet.flowM3PerS;
        assertThat(outlet.outletPa).isEqualTo(8e5);
        assertThat(6e5 + 0.3e5 + 8e7 * q + 5e11 * q * q).isCloseTo(8e5, within(1e-3));
        outlet.solve(500, 7.8e5);
        assertThat(outlet.flowM3PerS).isZero();
    }

    @Test
    void shouldLeakBackOnlyThroughAFailedValveAndOnlyDownhill() {
        PumpOutlet healthy = outlet(1e-12, 8e7, 5e11, 60e5);
        healthy.solve(0, 6e5);
        assertThat(healthy.flowM3PerS).isZero();
        PumpOutlet outlet = outlet(1e-12, 8e7, 5e11, 60e5, Valve.STUCK_OPEN);
        outlet.solve(0, 6e5);
        assertThat(outlet.flowM3PerS).isCloseTo(-1.9e-6 * Math.sqrt(2 * 6e5 / 850), within(1e-12));
        outlet.solve(20, 6e5);
        assertThat(outlet.outletPa).isGreaterThan(6e5);
        assertThat(outlet.flowM3PerS).isNotNegative();
    }

    @ParameterizedTest
    @CsvSource({"120, 4e5", "300, 6e5", "5, 6e5", "300, 7.8e5", "500, 6e5", "1, 2e5"})
    void shouldHaveTheDerivativesOfItsSolution(double speed, double linePa) {
        for (Valve checkValve : Valve.values()) {
            PumpOutlet outlet = outlet(1e-12, 8e7, 5e11, 8e5, checkValve);
            double dp = 1;
            double dw = 1e-4;
            outlet.solve(speed, linePa + dp);
            double flowUp = outlet.flowM3PerS;
            double outletUp = outlet.outletPa;
            outlet.solve(speed + dw, linePa);
            double flowFaster = outlet.flowM3PerS;
            double outletFaster = outlet.outletPa;
            outlet.solve(speed, linePa);
            double flow = outlet.flowM3PerS;
            double pa = outlet.outletPa;
            double least = 1e-14;
            assertThat(outlet.flowByPressure * dp)
                    .isCloseTo(flowUp - flow, within(least + 1e-3 * Math.abs(flowUp - flow)));
            assertThat(outlet.flowBySpeed * dw)
                    .isCloseTo(flowFaster - flow, within(least + 1e-2 * Math.abs(flowFaster - flow)));
            assertThat(outlet.outletByPressure * dp).isCloseTo(outletUp - pa, within(1e-3));
            assertThat(outlet.outletBySpeed * dw)
                    .isCloseTo(outletFaster - pa, within(1e-3 + 1e-2 * Math.abs(outletFaster - pa)));
        }
    }
}

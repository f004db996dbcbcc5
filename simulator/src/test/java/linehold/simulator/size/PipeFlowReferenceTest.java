package linehold.simulator.size;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Hose friction, fittings, velocities and sizes against published tables and worked examples. */
class PipeFlowReferenceTest {
    private static final double PSI = 6894.757293;
    private static final double FOOT = 0.3048;
    private static final double GAL_PER_MIN = 3.785411784e-3 / 60;
    private static final double GRAVITY = 9.80665;

    /** Friction factors of the general-purpose library fluids 1.0.22 (Churchill_1977), run for this table. */
    @ParameterizedTest
    @CsvSource({
        "1e3, 0, 0.0640000",
        "2500, 0, 0.0351451",
        "1e4, 0, 0.0310021",
        "1e4, 1e-4, 0.0311782",
        "1e4, 1e-3, 0.0326902",
        "1e5, 0, 0.0178748",
        "1e5, 1e-4, 0.0184626",
        "1e5, 1e-3, 0.0223432",
        "1e6, 0, 0.0116124",
        "1e6, 1e-4, 0.0135082",
        "1e6, 1e-3, 0.0200220"
    })
    void shouldGiveChurchillsFrictionFactorOfAnIndependentLibrary(double reynolds, double roughness, double f) {
        assertThat(PipeFlow.churchill(reynolds, roughness)).isCloseTo(f, within(1e-7));
    }

    /** Colebrook's equation by the same library; Churchill is an explicit fit of it, within 1.5 % in turbulent flow. */
    @ParameterizedTest
    @CsvSource({
        "1e4, 0, 0.0308830",
        "1e4, 1e-3, 0.0323818",
        "1e5, 0, 0.0179898",
        "1e5, 1e-4, 0.0185139",
        "1e6, 1e-4, 0.0134414",
        "1e6, 1e-3, 0.0199435"
    })
    void shouldStayNearColebrooksEquation(double reynolds, double roughness, double f) {
        assertThat(PipeFlow.churchill(reynolds, roughness)).isCloseTo(f, Percentage.withPercentage(1.5));
    }

    /** Public solutions to Esposito, Fluid Power with Applications (title from memory), ex. 4-2 and 4-4: Re 250, 2873 kPa. */
    @Test
    void shouldLoseTheLaminarPressureOfATextbookPipe() {
        double density = 8800 / GRAVITY;
        double flow = 5 * Math.PI / 4 * 0.05 * 0.05;
        assertThat(PipeFlow.reynolds(5, 0.05, 0.001)).isCloseTo(250, within(1e-9));
        assertThat(PipeFlow.lossPa(flow, 0.05, 50, 0, 0.001 * density, density))
                .isCloseTo(2873e3, Percentage.withPercentage(0.1));
    }

    /** The same, ex. 4-3: 100 cSt, 10 ft/s, 1 in, 100 ft, specific gravity 0.9: Re 774, 60.0 psi (exactly 60.15). */
    @Test
    void shouldLoseTheLaminarPressureOfATextbookPipeInUsUnits() {
        double bore = 0.0254;
        double flow = 10 * FOOT * Math.PI / 4 * bore * bore;
        assertThat(PipeFlow.reynolds(10 * FOOT, bore, 100e-6)).isCloseTo(774, within(0.5));
        assertThat(PipeFlow.lossPa(flow, bore, 100 * FOOT, 0, 100e-6 * 900, 900) / PSI)
                .isCloseTo(60.0, Percentage.withPercentage(0.5));
    }

    /** The same, ex. 4-6: 30 gal/min through a 1 in globe valve, K 10, specific gravity 0.9: 12.2 ft/s, 9.01 psi. */
    @Test
    void shouldLoseThePressureOfATextbookValve() {
        double velocity = PipeFlow.velocity(30 * GAL_PER_MIN, 0.0254);
        assertThat(velocity / FOOT).isCloseTo(12.2, within(0.1));
        assertThat(10 * PipeFlow.headPa(velocity, 0.9 * 998) / PSI).isCloseTo(9.01, Percentage.withPercentage(1));
    }

    /** The same, ex. 10-1: 30 gal/min at 20 ft/s ask for a bore of 0.783 in. */
    @Test
    void shouldGiveTheVelocityOfATextbookBore() {
        assertThat(PipeFlow.velocity(30 * GAL_PER_MIN, 0.783 * 0.0254) / FOOT)
                .isCloseTo(20, Percentage.withPercentage(0.3));
    }

    /** A supplier's worked table: 20 L/min at 0.5 to 1.5 m/s ask for 16.8 to 29.1 mm, at 3 to 10 m/s for 6.5 to 11.9 mm. */
    @ParameterizedTest
    @CsvSource({"16.8, 1.5", "29.1, 0.5", "6.5, 10", "11.9, 3"})
    void shouldGiveTheVelocitiesOfASuppliersTable(double boreMm, double velocity) {
        assertThat(PipeFlow.velocity(20e-3 / 60, boreMm / 1e3)).isCloseTo(velocity, Percentage.withPercentage(1));
    }

    /** Crane TP-410 ex. 7.9, seen through the notebooks of the library fluids: Re 1675.6, f 0.03819 (laminar). */
    @Test
    void shouldGiveTheLaminarFrictionFactorOfAHandbook() {
        assertThat(PipeFlow.churchill(1675.6, 0)).isCloseTo(0.03819, Percentage.withPercentage(0.1));
    }

    /** Crane TP-410 ex. 7.1, seen likewise: smooth 50 mm, Re 100 600, handbook f 0.0179. */
    @Test
    void shouldGiveTheFrictionFactorOfAHandbooksSmoothPipe() {
        assertThat(PipeFlow.churchill(100_600, 0)).isCloseTo(0.0179, Percentage.withPercentage(1.5));
    }

    /**
     * Crane TP-410 ex. 7.13, seen likewise: specific gravity 0.815, 2.7 cSt, 2 in schedule 40 (2.067 in; roughness 0.0018 in
     * for commercial steel), 100 ft, 2 gal/s: handbook f 0.0230 and 66.5 kPa.
     */
    @Test
    void shouldGiveTheTurbulentLossOfAHandbooksPipe() {
        double bore = 2.067 * 0.0254;
        double velocity = PipeFlow.velocity(2 * 3.785411784e-3, bore);
        double f = PipeFlow.churchill(PipeFlow.reynolds(velocity, bore, 2.7e-6), 0.0018 / 2.067);
        assertThat(f).isCloseTo(0.0230, Percentage.withPercentage(2));
        double density = 0.815 * 999;
        assertThat(f * 100 * FOOT / bore * PipeFlow.headPa(velocity, density))
                .isCloseTo(66.5e3, Percentage.withPercentage(2));
    }

    /** Bores of the SAE J517 family as suppliers list them: dash size is sixteenths of an inch. */
    @ParameterizedTest
    @CsvSource({"6.35, 4", "9.5, 6", "12.7, 8", "15.9, 10", "19.0, 12", "25.4, 16"})
    void shouldNameTheDashSizeOfAHose(double boreMm, int dash) {
        assertThat(PipeFlow.dash(boreMm / 1e3)).isEqualTo(dash);
    }

    @Test
    void shouldLoseNothingWithoutFlow() {
        assertThat(PipeFlow.lossPa(0, 0.01, 1, 4, 0.01, 850)).isZero();
    }
}

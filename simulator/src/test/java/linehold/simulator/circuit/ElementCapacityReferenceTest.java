package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.ApplyElementSpec.Band;
import linehold.simulator.build.ApplyElementSpec.Discs;
import linehold.simulator.build.ApplyElementSpec.Friction;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** Torque capacities against worked examples of machine design texts. */
class ElementCapacityReferenceTest {
    private static final Percentage CLOSE = Percentage.withPercentage(0.01);

    /** Piston of 1 m² that touches at 0 Pa: pressure is force. */
    private static ApplyElementSpec element(double friction, double share, Friction geometry) {
        return new ApplyElementSpec(1e-6, 1e-12, 0, 0, 1, friction, share, geometry);
    }

    /**
     * Bhandari, Design of Machine Elements, ex. 11.8 (title from memory): 5 steel and 4 bronze discs, 75 and 150 mm, μ
     * 0.1, uniform wear, 2 650.72 N give 119.282 N·m.
     */
    @Test
    void shouldCarryTheTorqueOfTheTextbookClutch() {
        ElementCapacity clutch = new ElementCapacity(element(0.1, 1, new Discs(8, (0.150 + 0.075) / 4)));
        assertThat(clutch.torqueNm(2650.72, true)).isCloseTo(119.282, CLOSE);
        assertThat(clutch.torqueNm(2650.72, false)).isCloseTo(119.282, CLOSE);
    }

    /** The same book, ex. 12.10: μ 0.25, 240°, 300 mm, 15 000 N against 5 263.80 N give 2 920.86 N·m. */
    @Test
    void shouldCarryTheTorqueOfTheTextbookBandAndLessTheOtherWay() {
        Band helping = new Band(0.3, Math.toRadians(240), true);
        ElementCapacity band = new ElementCapacity(element(0.25, 1, helping));
        assertThat(band.torqueNm(5263.80, true)).as("servo at the slack end").isCloseTo(2920.86, CLOSE);
        assertThat(band.torqueNm(15_000, false)).as("servo at the tight end").isCloseTo(2920.86, CLOSE);
        ElementCapacity opposed = new ElementCapacity(element(0.25, 1, new Band(0.3, Math.toRadians(240), false)));
        assertThat(opposed.torqueNm(15_000, true)).isCloseTo(2920.86, CLOSE);
    }

    /** Capstan, 215°, μ 0.25, 60 mm, 168 N at the slack end: ratio 2.5552, 15.676 N·m (public worked sheet). */
    @Test
    void shouldCarryTheTorqueOfTheWorkedBand() {
        ElementCapacity band = new ElementCapacity(element(0.25, 1, new Band(0.06, Math.toRadians(215), true)));
        assertThat(band.torqueNm(168, true)).isCloseTo(15.676, CLOSE);
    }

    @Test
    void shouldCarryNothingBelowTouchAndCompareWithTheElementsShareOfTheTorque() {
        ElementCapacity clutch = new ElementCapacity(
                new ApplyElementSpec(28e-6, 1e-12, 0.5e5, 0.9e5, 95e-4, 0.13, 0.45, new Discs(6, 0.062)));
        assertThat(clutch.torqueNm(0.9e5, true)).isZero();
        assertThat(clutch.torqueNm(0.5e5, true)).isZero();
        double capacity = 0.13 * 6 * 0.062 * 95e-4 * (4e5 - 0.9e5);
        assertThat(clutch.torqueNm(4e5, true)).isCloseTo(capacity, CLOSE);
        assertThat(clutch.margin(4e5, -200)).isCloseTo(capacity / 90, CLOSE);
    }
}

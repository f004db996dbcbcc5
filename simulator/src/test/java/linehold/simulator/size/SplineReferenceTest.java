package linehold.simulator.size;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * Spline stresses against the forms of Dudley, When splines need stress control (1957), as a public implementation tests
 * them: torque 2, load factor 3, pitch diameter 5, 7 teeth, length 11, thickness or height 13 give a shear of
 * 0.004795205 and a pressure of 0.002397602.
 */
class SplineReferenceTest {
    /** Pitch diameter 5 and tooth height 13, which no real spline has. */
    private static Spline spline(double sharing) {
        return new Spline(7, 5 + 13, 5 - 13, 11, sharing);
    }

    @Test
    void shouldShearTheTeethAsDudleysFormDoes() {
        Spline spline = spline(0.5);
        assertThat(spline.pitchDiameterM()).isEqualTo(5);
        assertThat(spline.shearPa(2 * 3) * spline.toothThicknessM() / 13).isCloseTo(0.004795205, within(1e-9));
    }

    @Test
    void shouldPressTheFlanksAsDudleysFormDoesWithAllTeeth() {
        assertThat(spline(1).bearingPa(2 * 3)).isCloseTo(0.002397602, within(1e-9));
        assertThat(spline(0.5).bearingPa(2 * 3)).isCloseTo(2 * 0.002397602, within(1e-9));
    }

    /** Half the pitch is tooth: 26 teeth on 28 mm are 1.69 mm thick. */
    @Test
    void shouldTakeHalfThePitchAsTooth() {
        assertThat(new Spline(26, 0.0295, 0.0265, 0.025, 0.5).toothThicknessM()).isCloseTo(1.692e-3, within(1e-6));
    }
}

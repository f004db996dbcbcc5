package linehold.controller.calibration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class KeyTest {
    @ParameterizedTest
    @EnumSource(Key.class)
    void shouldHaveADefaultWithinItsBounds(Key key) {
        assertThat(key.least()).isLessThan(key.most());
        assertThat(Arrays.stream(key.defaultValues()).boxed())
                .isNotEmpty()
                .allMatch(v -> v >= key.least() && v <= key.most());
    }

    @ParameterizedTest
    @EnumSource(Key.class)
    void shouldSayWhyInOneSentence(Key key) {
        assertThat(key.reason()).endsWith(".").hasSizeBetween(20, 200);
        assertThat(key.source()).isNotNull();
        assertThat(key.quantity()).isNotNull();
    }

    @Test
    void shouldNameItselfAsTheBuildFileDoes() {
        assertThat(Key.SWITCH_ON_SPEED.yamlName()).isEqualTo("switch-on-speed");
        assertThat(Arrays.stream(Key.values()).map(Key::yamlName)).doesNotHaveDuplicates();
    }

    @Test
    void shouldTellScalarsFromCurves() {
        assertThat(Key.SWITCH_ON_SPEED.shape()).isEqualTo(Key.Shape.SCALAR);
        assertThat(Key.CARRY_SPEED.shape()).isEqualTo(Key.Shape.OVER_OIL_TEMPERATURE);
        assertThat(Key.CARRY_SPEED.defaultOilC()).containsExactly(20, 60, 100, 120);
        assertThat(Key.MINIMUM_RUN_TIME.defaultValue()).isEqualTo(2);
        assertThatThrownBy(Key.CARRY_SPEED::defaultValue)
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("carry-speed");
        assertThatThrownBy(Key.SWITCH_ON_SPEED::defaultOilC)
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("switch-on-speed");
    }

    @Test
    void shouldNotLetItsDefaultsBeChanged() {
        Key.CARRY_SPEED.defaultValues()[0] = -1;
        Key.CARRY_SPEED.defaultOilC()[0] = -1;

        assertThat(Key.CARRY_SPEED.defaultValues()[0]).isPositive();
        assertThat(Key.CARRY_SPEED.defaultOilC()[0]).isEqualTo(20);
    }
}

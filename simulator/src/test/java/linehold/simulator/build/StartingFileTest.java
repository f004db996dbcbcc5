package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class StartingFileTest {
    private static final double ROUNDING = 1e-6;

    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldLoadAsTheDemonstrationCarInEitherUnitSystem(UnitSystem units) {
        Build written = load(StartingFile.text("mycar", units));

        assertThat(written.name()).isEqualTo("mycar");
        assertThat(written.units()).isEqualTo(units);
        assertSame("build", written, Builds.demonstration());
        assertThat(written.limits().uncoveredFaults())
                .as("another car starts by claiming everything")
                .isEmpty();
    }

    /** A key with # before it shows a value that loads: what a person gets who takes the # away. */
    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldStillLoadWithEveryKeySet(UnitSystem units) {
        String everything = StartingFile.text("mycar", units).replaceAll("(?m)^( *)# ([a-z0-9-]+:( .*)?)$", "$1$2");
        Build build = load(everything);

        assertThat(build.line().accumulator()).isNotNull();
        assertThat(build.internalPump().fillLimitRevPerS()).isCloseTo(100, within(1e-9));
        for (FileKey key : FileKeys.ALL) {
            assertThat(everything).containsPattern("(?m)^ *" + key.name() + ": ");
        }
    }

    @Test
    void shouldSpeakUsUnitsWhereAUsWorkshopDoes() {
        assertThat(StartingFile.text("mycar", UnitSystem.US))
                .contains("\nunits: us\n")
                .contains("  set-drive: 145.0377 psi ± 7.251887 psi\n")
                .contains("  motor-peak-torque: 191.7662 lbf.ft\n")
                .contains("  oil-temperatures: [-4 °F, 68 °F, 140 °F, 212 °F, 248 °F]\n")
                .doesNotContainPattern("(?m)^ *(# )?[a-z0-9-]+: .*[0-9] (bar|kPa|GPa|N\\.m|L|cm[23]|mm|°C)$");
    }

    @Test
    void shouldKeepANameThatYamlWouldMisread() {
        assertThat(load(StartingFile.text("a: \"b\" # c\\d", UnitSystem.METRIC)).name())
                .isEqualTo("a: \"b\" # c\\d");
    }

    private static Build load(String text) {
        return BuildFile.parse("mycar.yaml", text.getBytes(StandardCharsets.UTF_8));
    }

    /** Every number of two builds, record by record; names, units and checksum may differ. */
    private static void assertSame(String path, Object actual, Object expected) {
        if (expected instanceof Double number) {
            if (number.isInfinite()) {
                assertThat(actual).as(path).isEqualTo(expected);
            } else {
                assertThat((Double) actual).as(path).isCloseTo(number, within(ROUNDING * Math.abs(number)));
            }
        } else if (expected instanceof List<?> list) {
            for (int i = 0; i < list.size(); i++) {
                assertSame(path + "[" + i + "]", ((List<?>) actual).get(i), list.get(i));
            }
        } else if (expected instanceof Map<?, ?> map) {
            assertThat(((Map<?, ?>) actual).keySet()).as(path).isEqualTo(map.keySet());
            map.forEach((key, value) -> assertSame(path + "." + key, ((Map<?, ?>) actual).get(key), value));
        } else if (expected instanceof Spreads spreads) {
            assertSame(path, ((Spreads) actual).all(), spreads.all());
        } else if (expected instanceof Record) {
            assertSameRecord(path, actual, expected);
        } else if (expected instanceof Calibration calibration) {
            for (Key key : Key.values()) {
                for (double oilC : new double[] {-20, 20, 110}) {
                    assertSame(key.yamlName(), ((Calibration) actual).at(key, oilC), calibration.at(key, oilC));
                }
            }
        } else if (!(expected instanceof String) && !(expected instanceof UnitSystem)) {
            assertThat(actual).as(path).isEqualTo(expected);
        }
    }

    private static void assertSameRecord(String path, Object actual, Object expected) {
        for (RecordComponent component : expected.getClass().getRecordComponents()) {
            if (component.getName().equals("uncoveredFaults")) {
                continue;
            }
            try {
                assertSame(
                        path + "." + component.getName(),
                        component.getAccessor().invoke(actual),
                        component.getAccessor().invoke(expected));
            } catch (ReflectiveOperationException e) {
                throw new AssertionError(path, e);
            }
        }
    }
}

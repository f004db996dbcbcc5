package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A value outside its usual range is taken with a warning. */
class UsualRangesTest {
    private static Build parsed(String old, String with) {
        assertThat(GoodFile.TEXT).contains(old);
        return BuildFile.parse("mycar.yaml", GoodFile.TEXT.replace(old, with).getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void shouldWarnOfAnUnusualValueWithItsPlaceAndTakeIt() {
        Build build = parsed("volume: 0.60 L", "volume: 6 L ± 10 %");

        assertThat(build.line().volumeM3()).isEqualTo(0.006);
        assertThat(build.warnings())
                .containsExactly("mycar.yaml:18:11: line.volume: found '6 L ± 10 %', usual is 0.2 L to 2 L (assumed)");
    }

    @ParameterizedTest
    @CsvSource({"volume: 0.60 L, volume: 0.2 L", "volume: 0.60 L, volume: 2000 cm3", "volume: 0.60 L, volume: 0.60 L"})
    void shouldNotWarnWithinTheRangeOrAtItsEnds(String old, String with) {
        assertThat(parsed(old, with).warnings()).isEmpty();
    }

    @Test
    void shouldWarnOfAWholeNumber() {
        assertThat(parsed("friction-faces: 6", "friction-faces: 2").warnings())
                .hasSize(1)
                .first()
                .asString()
                .contains("high-clutch.friction-faces: found '2', usual is 4 to 16 (assumed)");
    }

    @Test
    void shouldWarnInTheOrderOfTheKeys() {
        Build build = parsed("volume: 0.60 L\n  compliance: 0.4 cm3/bar", "compliance: 9 cm3/bar\n  volume: 6 L");

        assertThat(build.warnings()).hasSize(2);
        assertThat(build.warnings().get(0)).contains("line.volume");
        assertThat(build.warnings().get(1)).contains("line.compliance");
    }

    @ParameterizedTest
    @ValueSource(strings = {"demonstration", "rule-of-thumb"})
    void shouldHaveNothingUnusualInTheShippedBuilds(String name) {
        assertThat(BuildFile.loadNamed(name).warnings()).isEmpty();
    }

    @Test
    void shouldKeepTheUsualRangeWithinTheBoundsAndTheDefaultWithinIt() {
        for (FileKey key : FileKeys.ALL) {
            boolean number = key.type() == FileKey.Type.QUANTITY || key.type() == FileKey.Type.COUNT;
            boolean typed = !key.section().equals(FileKeys.CALIBRATION);
            assertThat(key.usual() != null).as(key.path()).isEqualTo(number && typed);
            if (key.usual() != null) {
                assertThat(key.usual().least()).as(key.path()).isBetween(key.least(), key.most());
                assertThat(key.usual().most())
                        .as(key.path())
                        .isBetween(key.usual().least(), key.most());
                String standard = key.standard() == null ? key.example() : key.standard();
                assertThat(key.usual()
                                .has(Quantities.parse(standard, key.quantity()).orElseThrow()))
                        .as(key.path())
                        .isTrue();
            }
        }
    }
}

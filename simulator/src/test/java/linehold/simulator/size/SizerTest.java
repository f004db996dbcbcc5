package linehold.simulator.size;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.SplittableRandom;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.Builds;
import linehold.simulator.build.RandomBuilds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SizerTest {
    private static final String CABLE = "    awg: 10\n";

    private static SizeLine line(Build build, String key) {
        return Sizer.sheet(build).lines().stream()
                .filter(line -> line.key().equals(key))
                .findFirst()
                .orElseThrow();
    }

    private static SizeVerdict verdict(String key, String... changes) {
        return line(EditedBuild.of(changes), key).verdict();
    }

    @ParameterizedTest
    @ValueSource(strings = {"demonstration", "rule-of-thumb"})
    void shouldFindTheShippedBuildsEnoughAndComplete(String name) {
        SizeSheet sheet = Sizer.sheet(BuildFile.loadNamed(name));
        assertThat(sheet.enough()).isTrue();
        assertThat(sheet.count(SizeVerdict.NOT_GIVEN)).isZero();
    }

    @Test
    void shouldFindTheWeakBuildsPumpAndCableNotEnough() {
        Build weak = BuildFile.loadNamed("weak");
        assertThat(line(weak, "flow-reserve-hot").verdict()).isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(line(weak, "fuse-protects-cable").verdict()).isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(Sizer.sheet(weak).count(SizeVerdict.NOT_GIVEN)).isZero();
    }

    @Test
    void shouldGiveEveryLineAKeyOfItsOwnAFormulaAndASource() {
        Set<String> keys = new HashSet<>();
        for (SizeLine line : Sizer.sheet(Builds.demonstration()).lines()) {
            assertThat(keys.add(line.key())).as(line.key()).isTrue();
            assertThat(line.formula()).as(line.key()).isNotBlank();
            assertThat(line.source()).as(line.key()).isNotBlank();
            assertThat(line.inputs()).as(line.key()).isNotEmpty();
            assertThat(line.result()).as(line.key()).isFinite();
        }
        for (Topic topic : Topic.values()) {
            assertThat(Sizer.sheet(Builds.demonstration()).of(topic))
                    .as(topic.title())
                    .isNotEmpty();
        }
    }

    /** Rows of docs/size.md begin with one key or several; {@code -cold} stands for another ending, * for any. */
    @Test
    void shouldHaveEveryLineDescribedInTheDocs() throws IOException {
        Path page = Path.of(System.getProperty("linehold.root", "..")).resolve("docs/size.md");
        Set<String> described = new HashSet<>();
        for (String row : Files.readAllLines(page)) {
            if (row.startsWith("| `")) {
                String first = "";
                for (String key : row.split("\\|")[1].replace("`", "").strip().split(", ")) {
                    first = key.startsWith("-") ? first : key;
                    described.add(key.startsWith("-") ? first.substring(0, first.lastIndexOf('-')) + key : key);
                }
            }
        }
        for (SizeLine line : Sizer.sheet(Builds.demonstration()).lines()) {
            String family = line.key().substring(0, line.key().lastIndexOf('-') + 1) + "*";
            assertThat(described).as(line.key()).containsAnyOf(line.key(), family);
        }
    }

    @Test
    void shouldNameWhatABuildWithoutInstallationLacksAndNotCountIt() {
        SizeLine hose = line(EditedBuild.of("    bore: 9.5 mm\n", "", "    length: 1.6 m\n", ""), "hose-far-end-hot");

        assertThat(hose.verdict()).isEqualTo(SizeVerdict.NOT_GIVEN);
        assertThat(hose.missing()).containsExactly("installation.hose.bore", "installation.hose.length");
        assertThat(hose.result()).isNaN();
        assertThat(hose.inputs()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "    awg: 10, cable-drop-hot, OK",
        "    awg: 18, cable-drop-hot, NOT_ENOUGH",
        "    awg: 18, fuse-protects-cable, NOT_ENOUGH",
        "    area: 25 mm2, cable-drop-most, OK"
    })
    void shouldAskForAThickerCable(String typed, String key, SizeVerdict expected) {
        assertThat(verdict(key, CABLE, typed.replaceFirst("^ *", "    ") + "\n"))
                .isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource({
        "10 A, fuse-running-cold, NOT_ENOUGH",
        "10 A, fuse-start, NOT_ENOUGH",
        "10 A, fuse-stall, OK",
        "80 A, fuse-start, OK",
        "80 A, fuse-stall, NOT_ENOUGH",
        "80 A, fuse-protects-cable, NOT_ENOUGH"
    })
    void shouldWantAFuseThatCarriesTheStartAndOpensOnAStall(String rating, String key, SizeVerdict expected) {
        assertThat(verdict(key, "    rating: 30 A\n", "    rating: " + rating + "\n"))
                .isEqualTo(expected);
    }

    @Test
    void shouldKnowThatALargeBladeFuseOpensLater() {
        Build slow = EditedBuild.of("    type: blade\n", "    type: high-current-blade\n");
        assertThat(line(slow, "fuse-stall").result())
                .isGreaterThan(line(Builds.demonstration(), "fuse-stall").result());
        assertThat(line(slow, "fuse-start").result())
                .isLessThan(line(Builds.demonstration(), "fuse-start").result());
    }

    @Test
    void shouldDerateTheRelayForAMotor() {
        assertThat(verdict("relay-running", "contact-rating: 70 A", "contact-rating: 40 A"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("relay-running", "contact-rating: 70 A", "contact-rating: 200 A"))
                .isEqualTo(SizeVerdict.OK);
        assertThat(verdict("relay-making", "making-current: 150 A", "making-current: 60 A"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    /** By hand: 20 % of 70 A over 28.7 A, squared, of 100,000; a contact of 200 A is not beyond its motor rating. */
    @Test
    void shouldWearTheContactBeyondItsMotorRating() {
        double amps = line(Builds.demonstration(), "motor-current-cold").result();
        assertThat(line(Builds.demonstration(), "relay-life").result())
                .isCloseTo(100_000 * Math.pow(0.2 * 70 / amps, 2), within(1e-6))
                .isCloseTo(23_795, within(150.0));
        Build large = EditedBuild.of(
                "    contact-rating: 70 A\n", "    contact-rating: 200 A\n    rated-operations: 300000\n");
        assertThat(line(large, "relay-life").result()).isEqualTo(300_000);
        assertThat(ContactLife.closings(large)).isEqualTo(300_000);
        assertThat(ContactLife.closings(EditedBuild.of("    contact-rating: 70 A\n", "")))
                .isNaN();
    }

    @Test
    void shouldFindAPumpTooSmallForHotLeakage() {
        assertThat(verdict("flow-reserve-hot", "leak-bore: 1.0 mm", "leak-bore: 2.0 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("standing-pressure-hot", "leak-bore: 1.0 mm", "leak-bore: 2.0 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    /** Flow reserve and settled pressure ask the same question: reserve 1 is where the line settles at hold pressure. */
    @Test
    void shouldAgreeOnReserveAndSettledPressure() {
        for (String bore : new String[] {"1.2 mm", "1.3 mm", "1.35 mm", "1.4 mm", "1.5 mm"}) {
            SizeSheet sheet = Sizer.sheet(EditedBuild.of("leak-bore: 1.0 mm", "leak-bore: " + bore));
            double reserve = sheet.lines().get(0).result();
            double settledPa = sheet.lines().get(1).result();
            assertThat(reserve >= 1)
                    .as("bore %s: reserve %s, settled %s", bore, reserve, settledPa)
                    .isEqualTo(settledPa >= 4e5);
        }
    }

    @Test
    void shouldFindAHoseTooThinForColdOilAndASuctionLineTooHigh() {
        assertThat(verdict("hose-far-end-cold", "    bore: 9.5 mm", "    bore: 6 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("suction-pressure", "    lift: -0.10 m", "    lift: 2 m"))
                .isEqualTo(SizeVerdict.TIGHT);
        assertThat(verdict("suction-pressure", "    bore: 19 mm", "    bore: 12.7 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("suction-velocity", "    bore: 19 mm", "    bore: 9.5 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    /** By hand: 0.072·0.0075·3e5·(e^0.66 − 1)/(0.82·1.2) = 153.9 N·m. */
    @Test
    void shouldGiveTheMotorTorqueThatTheBandCarriesAtHoldPressure() {
        SizeLine band = line(Builds.demonstration(), "element-standing-first");
        assertThat(band.result()).isCloseTo(153.9, within(0.05));
        assertThat(band.verdict()).isEqualTo(SizeVerdict.TIGHT);
        assertThat(verdict("element-standing-first", "piston-area: 75 cm2", "piston-area: 40 cm2"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("element-driving-first", "piston-area: 75 cm2", "piston-area: 30 cm2"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    /** By hand: 0.9·750·9.80665·0.31/6.37 = 322.1 N·m. */
    @Test
    void shouldGiveTheMotorTorqueAtWhichTheTyresSlide() {
        assertThat(line(Builds.demonstration(), "tyre-first").result()).isCloseTo(322.1, within(0.1));
        assertThat(verdict(
                        "coupling-shear",
                        "teeth: 26",
                        "teeth: 4",
                        "allowable-shear: 140 MPa",
                        "allowable-shear: 20 MPa"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("coupling-bearing", "allowable-bearing: 70 MPa", "allowable-bearing: 20 MPa"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    /** By hand, mm: gap 72 − 34 − 35 − 0.75 = 2.25; play 4 − 0.45 = 3.55; 34 + 68 − 72 − 0.65 = 29.35; 31 − 0.70 = 30.30. */
    @ParameterizedTest
    @CsvSource({
        "fit-end-gap, 2.25",
        "fit-play, 3.55",
        "fit-engagement-motor, 29.35",
        "fit-engagement-transmission, 30.30"
    })
    void shouldFitTheShaftsWithEveryToleranceAtItsWorstEnd(String key, double mm) {
        SizeLine fit = line(Builds.demonstration(), key);
        assertThat(fit.result() * 1e3).isCloseTo(mm, within(1e-9));
        assertThat(fit.verdict()).isEqualTo(SizeVerdict.OK);
        assertThat(fit.resultText(linehold.simulator.build.UnitSystem.US))
                .contains(" mm (")
                .endsWith(" in)");
    }

    @Test
    void shouldFindShaftsThatTouchAndACouplingTooShort() {
        assertThat(verdict("fit-end-gap", "motor-shaft: 34.0 mm", "motor-shaft: 37.0 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("fit-end-gap", "motor-shaft: 34.0 mm", "motor-shaft: 35.0 mm"))
                .isEqualTo(SizeVerdict.TIGHT);
        assertThat(verdict("fit-play", "coupling-length: 68.0 mm", "coupling-length: 72.0 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(verdict("fit-engagement-motor", "coupling-length: 68.0 mm", "coupling-length: 55.0 mm"))
                .isEqualTo(SizeVerdict.NOT_ENOUGH);
    }

    @Test
    void shouldCountAResultThatIsNoNumberAsNotEnough() {
        assertThat(new SizeLine.Limit(1, 2, false).judge(Double.NaN)).isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(new SizeLine.Limit(2, 1, true).judge(Double.NaN)).isEqualTo(SizeVerdict.NOT_ENOUGH);
        assertThat(new SizeLine.Limit(2, 1, true).judge(1.5)).isEqualTo(SizeVerdict.TIGHT);
    }

    @Test
    void shouldSizeAnyBuildThatTheValidatorAccepts() {
        long seed = 20;
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 200; i++) {
            Build build = RandomBuilds.next(random);
            for (SizeLine line : Sizer.sheet(build).lines()) {
                assertThat(line.result())
                        .as("seed %d, build %d, %s", seed, i, line.key())
                        .isNotNaN();
            }
        }
    }
}

package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class VerdictTableTest {
    @ParameterizedTest
    @EnumSource(UnitSystem.class)
    void shouldFitAHundredColumns(UnitSystem units) {
        assertThat(lines(VerdictTable.of(Fixtures.large(), units, false))).allSatisfy(VerdictTableTest::fits);
        assertThat(lines(VerdictTable.of(Fixtures.empty(), units, false))).allSatisfy(VerdictTableTest::fits);
        assertThat(lines(VerdictTable.of(Fixtures.named("Ω".repeat(300)), units, false)))
                .allSatisfy(VerdictTableTest::fits);
    }

    @Test
    void shouldSetManyTemperaturesInTablesBelowEachOther() {
        List<RunVerdict> runs = new ArrayList<>();
        for (int oilC = -40; oilC <= 120; oilC += 8) {
            runs.add(Fixtures.run("a drive with a rather long name, longer than most", oilC, 60, false, false));
        }
        String table = VerdictTable.of(new Verdict(Fixtures.build("x"), runs, "none"), UnitSystem.METRIC, false);

        assertThat(lines(table)).allSatisfy(VerdictTableTest::fits);
        for (RunVerdict run : runs) {
            assertThat(table).contains(" " + (int) run.oilC() + " °C");
        }
    }

    @Test
    void shouldBeReadInTenSeconds() {
        // Two dozen lines: what stands on one screen without scrolling.
        assertThat(lines(VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false)))
                .hasSizeLessThan(36);
    }

    @Test
    void shouldShowTheLowestPressureOfEveryRunAndMarkTheLostOnesInWords() {
        String table = VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false);

        assertThat(table).contains("-20 °C", "120 °C", "bar");
        assertThat(row(table, "urban cycle"))
                .contains("6.46", "6.10", "5.74", "5.38", "5.20")
                .doesNotContain("LOST");
        assertThat(row(table, "panic stop, locked wheels, ice")).contains("5.74", "2.71 LOST", "2.61 LOST");
        assertThat(table).contains("Lost: panic stop, locked wheels, ice at 120 °C (worst of 2): line pressure fell");
    }

    @Test
    void shouldEndWithTheWeakestMomentAndTheVerdict() {
        List<String> lost = lines(VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false));
        assertThat(lost.get(lost.size() - 1)).isEqualTo("LOST: 4 of 60 runs lost (12 drives at 5 oil temperatures).");
        assertThat(String.join("\n", lost.subList(lost.size() - 5, lost.size() - 1)))
                .contains("Weakest moment: Panic stop");

        List<String> held = lines(VerdictTable.of(Fixtures.held(), UnitSystem.METRIC, false));
        assertThat(held.get(held.size() - 1)).isEqualTo("HELD: all 2 runs held (1 drive at 2 oil temperatures).");
    }

    /** 5.20 bar are 75.4 psi and 4 bar 58.0 psi (1 psi = 6894.757 Pa, NIST SP 811 appendix B.8). */
    @Test
    void shouldSpeakPsiAndFahrenheitInUsUnits() {
        String table = VerdictTable.of(Fixtures.large(), UnitSystem.US, false);
        assertThat(table).contains("psi", "58.0 psi", "-4 °F", "248 °F");
        assertThat(row(table, "urban cycle")).contains("75.4");
    }

    @Test
    void shouldSayWhereAGapEndedTheEvidence() {
        // The fixture's log was mended and ended early at 271.4 s, at each of its temperatures.
        String table = VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false);
        assertThat(table).containsOnlyOnce("is judged up to 271.4 s only");
    }

    @Test
    void shouldUseColourOnlyWhereItIsWanted() {
        assertThat(VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false)).doesNotContain("\u001b");
        String coloured = VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, true);
        assertThat(coloured).contains("\u001b[1;31m");
        assertThat(coloured.replaceAll("\u001b\\[[0-9;]*m", ""))
                .isEqualTo(VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false));
    }

    @Test
    void shouldNotLetANameReachTheTerminalsControls() {
        assertThat(VerdictTable.of(Fixtures.named("evil\u001b[2J\u0007\u009b31m"), UnitSystem.METRIC, false))
                .doesNotContain("\u001b", "\u0007", "\u009b");
    }

    @Test
    void shouldSayNoneWhereNothingWasEverEngaged() {
        assertThat(VerdictTable.of(Fixtures.empty(), UnitSystem.METRIC, false))
                .contains("none LOST", "the line was not primed: the electric pump")
                .doesNotContain("NaN", "Infinity", "∞");
    }

    @Test
    void shouldBeTheSameInAnyLocale() {
        String first = VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false);
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("tr-TR"));
            assertThat(VerdictTable.of(Fixtures.large(), UnitSystem.METRIC, false))
                    .isEqualTo(first);
        } finally {
            Locale.setDefault(before);
        }
    }

    private static void fits(String line) {
        assertThat(line.codePointCount(0, line.length())).as(line).isLessThanOrEqualTo(100);
    }

    private static List<String> lines(String text) {
        return text.lines().toList();
    }

    private static String row(String table, String drive) {
        return table.lines()
                .filter(line -> line.startsWith(drive + "  "))
                .findFirst()
                .orElseThrow();
    }
}

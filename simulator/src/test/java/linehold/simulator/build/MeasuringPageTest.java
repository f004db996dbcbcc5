package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import linehold.simulator.window.Tolerance;
import linehold.simulator.window.Tolerance.Answer;
import linehold.simulator.window.Tolerance.Weight;
import linehold.simulator.window.ToleranceFinder;
import linehold.simulator.window.Watch;
import linehold.simulator.window.Window;
import linehold.simulator.window.WindowFinder;
import org.junit.jupiter.api.Test;

/**
 * docs/measuring.md tells of every key of the build file how to measure it. Its usual ranges follow from the table of
 * keys, its ranking from the demonstration build. To rewrite both (the ranking takes a minute or two):
 *
 * <pre>mvn -q -pl simulator -am test -Dtest=MeasuringPageTest -Dlinehold.write=true
 * -Dsurefire.failIfNoSpecifiedTests=false</pre>
 */
class MeasuringPageTest {
    private static final Path PAGE =
            Path.of(System.getProperty("linehold.root", "..")).resolve("docs/measuring.md");
    private static final Pattern SECTION =
            Pattern.compile("### `([^`]+)`\n\n(?:Usual: ([^\n]*)\\.\n\n)?([^#]+?)\n(?=\n#)");
    private static final String BEGIN = "<!-- ranking: begin (generated; see MeasuringPageTest) -->\n";
    private static final String END = "<!-- ranking: end -->";
    /** Draws no share: the ranking alone is wanted. */
    private static final int ONE_CAR = 1;

    private static List<FileKey> keys() {
        return FileKeys.ALL.stream()
                .filter(key -> !key.section().equals(FileKeys.CALIBRATION))
                .toList();
    }

    private static String page() throws IOException {
        String page = Files.readString(PAGE, StandardCharsets.UTF_8);
        if (Boolean.getBoolean("linehold.write")) {
            page = withRanges(page);
            Files.writeString(PAGE, page);
        }
        return page;
    }

    private static String withRanges(String page) {
        Matcher section = SECTION.matcher(page);
        return section.replaceAll(match -> {
            FileKey key = keys().stream()
                    .filter(one -> one.path().equals(match.group(1)))
                    .findFirst()
                    .orElseThrow();
            String usual = key.usual() == null ? "" : "Usual: " + key.usual().text() + ".\n\n";
            return Matcher.quoteReplacement("### `" + key.path() + "`\n\n" + usual + match.group(3) + "\n");
        });
    }

    @Test
    void shouldTellOfEveryKeyHowToMeasureItInTheOrderOfTheKeys() throws IOException {
        List<String> told = new ArrayList<>();
        Matcher section = SECTION.matcher(page());
        while (section.find()) {
            told.add(section.group(1));
            assertThat(section.group(3).strip()).as(section.group(1)).isNotEmpty();
        }

        List<String> paths = new ArrayList<>();
        for (String part : sections()) {
            keys().stream().filter(key -> key.section().equals(part)).forEach(key -> paths.add(key.path()));
        }
        assertThat(told).isEqualTo(paths);
        for (BuildKey key : BuildKey.values()) {
            assertThat(told).contains(key.path());
        }
    }

    private static List<String> sections() {
        List<String> sections = new ArrayList<>(List.of(""));
        FileKeys.SECTIONS.forEach(section -> sections.add(section.path()));
        return sections;
    }

    @Test
    void shouldGiveTheUsualRangesOfTheTableOfKeys() throws IOException {
        Matcher section = SECTION.matcher(page());
        while (section.find()) {
            FileKey key = keys().stream()
                    .filter(one -> one.path().equals(section.group(1)))
                    .findFirst()
                    .orElseThrow();
            String usual = key.usual() == null ? null : key.usual().text();
            assertThat(section.group(2)).as(key.path()).isEqualTo(usual);
        }
    }

    @Test
    void shouldHaveTheCautionsBeforeAnyWayOfMeasuring() throws IOException {
        String page = page();
        assertThat(page.indexOf("**Cautions.**")).isPositive().isLessThan(page.indexOf("## "));
    }

    /** The figures themselves are those of the day they were written; computing them takes too long for a test. */
    @Test
    void shouldRankEverySpreadOfTheDemonstrationBuild() throws IOException {
        String page = page();
        if (Boolean.getBoolean("linehold.write")) {
            int begin = page.indexOf(BEGIN) + BEGIN.length();
            page = page.substring(0, begin) + ranking() + page.substring(page.indexOf(END));
            Files.writeString(PAGE, page);
        }
        List<String> ranked = new ArrayList<>();
        Matcher row = Pattern.compile("(?m)^\\| `([^`]+)` \\|").matcher(page);
        while (row.find()) {
            ranked.add(row.group(1));
        }
        assertThat(ranked)
                .containsExactlyInAnyOrderElementsOf(Builds.demonstration().spreads().all().stream()
                        .map(Spread::key)
                        .toList());
    }

    private static String ranking() {
        Build build = Builds.demonstration();
        Window window = new WindowFinder(build, build.limits().oilTemperaturesC(), Watch.NOBODY).find();
        Tolerance tolerance = new ToleranceFinder(window, ONE_CAR, 1, Watch.NOBODY).find();
        List<Spread> spreads = new ArrayList<>(tolerance.spreads());
        spreads.sort(Comparator.comparingDouble((Spread spread) -> tolerance.answers().stream()
                        .mapToDouble(answer -> weight(answer, spread).meanSize())
                        .max()
                        .orElseThrow())
                .reversed());
        StringBuilder table = new StringBuilder("\n| key | spread |");
        tolerance
                .answers()
                .forEach(answer ->
                        table.append(String.format(Locale.ROOT, " %s, %.0f °C |", answer.drive(), answer.oilC())));
        table.append("\n|---|---|").append("---|".repeat(tolerance.answers().size()));
        for (Spread spread : spreads) {
            String cells = tolerance.answers().stream()
                    .map(answer -> cell(weight(answer, spread)))
                    .collect(Collectors.joining(" | "));
            table.append("\n| `" + spread.key() + "` | " + spread.text() + " | " + cells + " |");
        }
        return table.append("\n\n").toString();
    }

    private static Weight weight(Answer answer, Spread spread) {
        return answer.ranking().stream()
                .filter(weight -> weight.spread().equals(spread))
                .findFirst()
                .orElseThrow();
    }

    private static String cell(Weight weight) {
        if (weight.meanSize() < 0.0005) {
            return "–";
        }
        String sign = Math.abs(weight.mean()) < 0.5 * weight.meanSize() ? "±" : weight.mean() < 0 ? "−" : "+";
        return sign + String.format(Locale.ROOT, "%.3f", weight.meanSize());
    }
}

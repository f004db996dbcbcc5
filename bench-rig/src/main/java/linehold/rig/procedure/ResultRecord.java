package linehold.rig.procedure;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import linehold.simulator.build.Build;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.JsonText;

/**
 * The dated record of one run of a procedure, for other programs and for people. docs/bench.md describes it.
 *
 * @param bench what was on the other side of the lines
 * @param started time of day
 */
public record ResultRecord(Result result, Bench promised, String bench, Instant started) {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private static final DateTimeFormatter FILE_TIME =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
    private static final int TITLE_WIDTH = 58;
    private static final int VALUE_WIDTH = 12;

    /**
     * Writes both files.
     *
     * @return the one for programs
     * @throws linehold.simulator.build.InputException where they cannot be written
     */
    public Path write(Path folder) {
        WholeFile.makeFolder(folder);
        String name = FILE_TIME.format(started) + "-" + result.procedure().key();
        // Two within one second: the second does not take the first one's place.
        for (int again = 2; Files.exists(folder.resolve(name + ".json")); again++) {
            name = FILE_TIME.format(started) + "-" + result.procedure().key() + "-" + again;
        }
        Path json = folder.resolve(name + ".json");
        WholeFile.writeText(folder.resolve(name + ".txt"), text());
        WholeFile.writeText(json, new String(json(), StandardCharsets.UTF_8));
        return json;
    }

    private String startedText() {
        return started.truncatedTo(ChronoUnit.SECONDS).toString();
    }

    byte[] json() {
        Build build = promised.build();
        return JsonText.bytes(json -> {
            json.startObject();
            json.count("format", FORMAT);
            json.text("procedure", result.procedure().key());
            json.text("title", result.procedure().title());
            json.text("outcome", result.outcome().word());
            json.text("sentence", result.sentence().isEmpty() ? null : result.sentence());
            json.text("started", startedText());
            json.number("duration_s", millis(result.durationS()));
            json.text("bench", bench);
            json.startObject("build");
            json.text("name", build.name());
            json.text("sha256", build.sha256());
            json.text(
                    "calibration_crc32",
                    String.format(Locale.ROOT, "%08x", build.calibration().checksum()));
            json.endObject();
            json.flag("cautions_confirmed", true);
            json.startObject("oil_temperature");
            quantity(json, "value", promised.display().temperatureScale(), result.oilC());
            json.text("unit", promised.display().temperatureScale().label());
            json.endObject();
            json.startArray("findings");
            result.findings().forEach(finding -> finding(json, finding));
            json.endArray();
            json.endObject();
        });
    }

    private static void finding(JsonText json, Finding finding) {
        json.startObject();
        json.text("key", finding.key());
        json.text("title", finding.title());
        quantity(json, "value", finding.scale(), finding.value());
        json.text("unit", finding.scale().label());
        quantity(json, "least", finding.scale(), finding.least());
        quantity(json, "most", finding.scale(), finding.most());
        json.text("verdict", !finding.limited() ? "information" : finding.passes() ? "pass" : "fail");
        json.endObject();
    }

    /** In the build's units, to more digits than any sensor has. */
    private static void quantity(JsonText json, String name, linehold.simulator.build.Display.Scale scale, double si) {
        double value = scale.value(si);
        json.number(name, Double.isFinite(value) ? Math.rint(value * 1e6) / 1e6 : value);
    }

    private static double millis(double seconds) {
        return Math.rint(seconds * 1e3) / 1e3;
    }

    /** The same for people. */
    public String text() {
        StringBuilder text = new StringBuilder();
        Build build = promised.build();
        line(text, result.procedure().title() + ": " + result.outcome().word());
        if (!result.sentence().isEmpty()) {
            line(text, result.sentence());
        }
        line(text, "");
        line(text, "started   " + startedText() + ", took " + promised.display().time(result.durationS()));
        line(text, "build     " + build.name() + ", sha256 " + build.sha256());
        line(text, "bench     " + bench);
        line(text, "oil       " + promised.display().temperature(result.oilC()));
        line(text, "");
        result.findings().forEach(finding -> line(text, line(finding)));
        return text.toString();
    }

    private static void line(StringBuilder text, String line) {
        text.append(line.stripTrailing()).append('\n');
    }

    /** One finding in a row: what, how much, limit, verdict. */
    public static String line(Finding finding) {
        String verdict = !finding.limited() ? "" : finding.passes() ? "ok" : "OUT";
        return String.format(
                Locale.ROOT,
                "  %-" + TITLE_WIDTH + "s %" + VALUE_WIDTH + "s  %-18s %s",
                finding.title(),
                finding.valueText(),
                finding.limitText(),
                verdict);
    }
}

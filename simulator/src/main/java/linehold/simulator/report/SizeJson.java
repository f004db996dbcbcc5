package linehold.simulator.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import linehold.simulator.build.InputException;
import linehold.simulator.output.WholeFile;
import linehold.simulator.size.SizeLine;
import linehold.simulator.size.SizeSheet;
import linehold.simulator.size.SizeVerdict;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * {@code size.json}: the sizing sheet for other programs, SI units, the same bytes on every machine; docs/size.md
 * describes every field. It is also what a later sheet is compared with.
 */
public final class SizeJson {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private static final long LARGEST_BYTES = 4 << 20;

    private SizeJson() {}

    /** Writes the file, replacing one that is there. */
    public static void write(SizeSheet sheet, Path file) {
        WholeFile.writeText(file, new String(toBytes(sheet), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(SizeSheet sheet) {
        return JsonText.bytes(json -> {
            json.startObject();
            json.count("format", FORMAT);
            json.text("verdict", sheet.enough() ? "enough" : "not enough");
            json.startObject("build");
            json.text("name", sheet.build().name());
            json.text("sha256", sheet.build().sha256());
            json.endObject();
            json.startArray("lines");
            sheet.lines().forEach(line -> line(json, line));
            json.endArray();
            json.endObject();
        });
    }

    private static void line(JsonText json, SizeLine line) {
        json.startObject();
        json.text("key", line.key());
        json.text("topic", line.topic().title());
        json.text("title", line.title());
        json.text("formula", line.formula());
        json.startArray("inputs");
        for (SizeLine.Input input : line.inputs()) {
            json.startObject();
            json.text("name", input.name());
            json.number("value", input.value());
            json.text("unit", input.measure().siUnit());
            json.endObject();
        }
        json.endArray();
        json.number("result", line.result());
        json.text("unit", line.measure().siUnit());
        if (line.limit() == null) {
            json.text("limit", null);
        } else {
            json.startObject("limit");
            json.text("good_side", line.limit().atLeast() ? "above" : "below");
            json.number("ok", line.limit().ok());
            json.number("must", line.limit().must());
            json.endObject();
        }
        json.text("verdict", line.verdict().text());
        json.text("source", line.source());
        json.text("note", line.note());
        json.texts("not_given", line.missing());
        json.endObject();
    }

    /**
     * Reads a sheet that {@link #write} wrote.
     *
     * @throws InputException where it is none
     */
    public static EarlierSheet read(Path file) {
        JsonNode root = tree(file);
        if (root.path("format").asInt(-1) != FORMAT) {
            throw new InputException(file + ": format: found "
                    + (root.has("format") ? root.get("format") : "nothing") + ", expected " + FORMAT
                    + ", a size.json that this version of linehold size wrote");
        }
        Map<String, EarlierSheet.Line> lines = new LinkedHashMap<>();
        for (JsonNode line : root.path("lines")) {
            String key = text(file, line, "key", "a line's key");
            JsonNode result = line.path("result");
            if (!result.isNull() && !result.isNumber()) {
                throw new InputException(
                        file + ": result of '" + key + "': found " + result + ", expected a number or null");
            }
            lines.put(
                    key,
                    new EarlierSheet.Line(
                            text(file, line, "title", "the title of '" + key + "'"),
                            result.isNull() ? Double.NaN : result.asDouble(),
                            verdict(file, key, line)));
        }
        return new EarlierSheet(root.path("build").path("name").asString("?"), lines);
    }

    private static JsonNode tree(Path file) {
        try {
            if (Files.size(file) > LARGEST_BYTES) {
                throw new InputException(file + ": found " + Files.size(file) + " bytes, expected a size.json");
            }
            return JsonMapper.builder().build().readTree(Files.readAllBytes(file));
        } catch (NoSuchFileException e) {
            throw new InputException(file + ": found no such file, expected a size.json of an earlier run", e);
        } catch (IOException e) {
            throw new InputException(file + ": found a file that cannot be read, expected a size.json", e);
        } catch (JacksonException e) {
            String where = e.getLocation() == null
                    ? ""
                    : e.getLocation().getLineNr() + ":" + e.getLocation().getColumnNr() + ": ";
            throw new InputException(
                    file + ":" + where + (where.isEmpty() ? " " : "")
                            + "found text that is not JSON, expected a size.json",
                    e);
        }
    }

    private static String text(Path file, JsonNode line, String name, String what) {
        JsonNode node = line.path(name);
        if (!node.isString()) {
            throw new InputException(file + ": " + what + ": found "
                    + (node.isMissingNode() ? "nothing" : node.toString()) + ", expected a text");
        }
        return node.asString();
    }

    private static SizeVerdict verdict(Path file, String key, JsonNode line) {
        String word = text(file, line, "verdict", "the verdict of '" + key + "'");
        for (SizeVerdict verdict : SizeVerdict.values()) {
            if (verdict.text().equals(word)) {
                return verdict;
            }
        }
        throw new InputException(file + ": the verdict of '" + key + "': found '" + word
                + "', expected ok, tight, not enough, for" + " information or not given");
    }
}

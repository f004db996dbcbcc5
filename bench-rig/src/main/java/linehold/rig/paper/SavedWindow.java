package linehold.rig.paper;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;
import linehold.simulator.output.WholeFile;
import linehold.simulator.prove.Verdict;
import linehold.simulator.report.VerdictJson;

/**
 * A build file with another window, and its proof beside it. Never over a file that is there.
 *
 * @param file the build file
 * @param proof the verdict on it
 * @param sha256 of the build file
 * @param calibrationChecksum CRC-32 of the calibration
 * @param held what the proof says
 */
public record SavedWindow(Path file, Path proof, String sha256, long calibrationChecksum, boolean held) {
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]{0,39}");

    /**
     * Writes both.
     *
     * @param source the text of the build file that the window was tried on
     * @param name what to call the new one, without ending
     * @throws InputException where the name is none or taken, the window is none, or nothing can be written
     */
    static SavedWindow write(WindowDesk desk, String source, TriedWindow tried, String name, Path folder) {
        if (!NAME.matcher(name).matches()) {
            throw new InputException("name: found '" + name
                    + "', expected up to 40 small letters, digits and hyphens, such as 'wider-window'");
        }
        if (BuildFile.SHIPPED.contains(name) || name.equals(desk.build().name())) {
            throw new InputException(
                    "name: found '" + name + "', expected a new one: the build '" + name + "' stays as it was proved");
        }
        if (tried.speedAlone()) {
            throw new InputException("by shaft speed alone is a test, not a calibration to drive with: switch it off"
                    + " and look at the verdict before saving");
        }
        Path file = folder.resolve(name + ".yaml");
        Path proof = folder.resolve(name + ".verdict.json");
        refuse(file);
        refuse(proof);
        byte[] bytes = text(source, tried, name).getBytes(StandardCharsets.UTF_8);
        Build saved = BuildFile.parse(file.toString(), bytes);
        Build proved = tried.of(desk.build());
        if (saved.calibration().checksum() != proved.calibration().checksum()) {
            throw new InputException(
                    file + ": found a calibration other than the one that was proved, expected the same;"
                            + " type the values into the build file by hand");
        }
        Verdict runs = desk.verdict(null, tried, saved.units());
        Verdict verdict = new Verdict(saved, runs.runs(), runs.weakest());
        WholeFile.makeFolder(folder);
        create(file, bytes);
        create(proof, VerdictJson.toBytes(verdict));
        return new SavedWindow(file, proof, saved.sha256(), saved.calibration().checksum(), verdict.held());
    }

    private static void refuse(Path file) {
        if (Files.exists(file)) {
            throw new InputException(file + ": found a file of that name, expected a new name; nothing is overwritten");
        }
    }

    private static void create(Path file, byte[] bytes) {
        try {
            Files.write(file, bytes, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        } catch (FileAlreadyExistsException e) {
            throw new InputException(
                    file + ": found a file of that name, expected a new name; nothing is overwritten", e);
        } catch (IOException e) {
            throw new InputException(file + ": found no way to write it, expected a folder that may be written", e);
        }
    }

    /** The source with the typed values in place; all else, comments too, as it was. */
    static String text(String source, TriedWindow tried, String name) {
        String text = line("name", false).matcher(source).replaceFirst("name: " + name);
        for (Key key : TriedWindow.KEYS) {
            String typed = tried.typed().get(key);
            if (typed != null) {
                text = with(text, key, typed.strip());
            }
        }
        return text;
    }

    private static String with(String text, Key key, String typed) {
        String value = Matcher.quoteReplacement(key.yamlName() + ": " + typed);
        Matcher there = line(key.yamlName(), true).matcher(text);
        if (there.find()) {
            return there.replaceFirst("$1" + value);
        }
        Matcher section = line("calibration", false).matcher(text);
        return section.find()
                ? section.replaceFirst("$0\n  " + value)
                : text + (text.endsWith("\n") ? "" : "\n") + "\ncalibration:\n  " + key.yamlName() + ": " + typed
                        + "\n";
    }

    /** A key with its value, up to a comment behind it. */
    private static Pattern line(String key, boolean indented) {
        return Pattern.compile(
                (indented ? "^([ \\t]+)" : "^") + Pattern.quote(key) + ":[^#\\r\\n]*", Pattern.MULTILINE);
    }
}

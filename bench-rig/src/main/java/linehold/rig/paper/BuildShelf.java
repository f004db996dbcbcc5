package linehold.rig.paper;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.InputException;

/** The builds that a run can be compared over: the page's own, those that ship, and the build files in one folder. */
public final class BuildShelf {
    private final Build own;
    private final Path folder;

    /** Those of them that are not the page's own; null until they are asked for. */
    private List<Entry> shipped;

    /** The build file read last, so that the next question does not read it again. */
    private Path lastFile;

    private String lastStamp;
    private Build lastBuild;

    /** @param name what {@link #find} takes @param file where it lies; null where it ships */
    public record Entry(String name, String file) {}

    public BuildShelf(Build own, Path folder) {
        this.own = own;
        this.folder = folder;
    }

    public Build own() {
        return own;
    }

    /** All but the page's own: as they ship, then the files by name. */
    public synchronized List<Entry> entries() {
        if (shipped == null) {
            // By content: a file that calls itself like one that ships is another build.
            shipped = BuildFile.SHIPPED.stream()
                    .filter(name -> !BuildFile.loadNamed(name).sha256().equals(own.sha256()))
                    .map(name -> new Entry(name, null))
                    .toList();
        }
        List<Entry> entries = new ArrayList<>(shipped);
        if (Files.isDirectory(folder)) {
            try (Stream<Path> files = Files.list(folder)) {
                files.filter(file -> file.toString().endsWith(".yaml")
                                && !file.toString().endsWith(".map.yaml"))
                        .filter(Files::isRegularFile)
                        .sorted()
                        .forEach(
                                file -> entries.add(new Entry(file.getFileName().toString(), file.toString())));
            } catch (IOException e) {
                throw new InputException(folder + ": found a folder that cannot be read, expected build files", e);
            }
        }
        return entries;
    }

    /**
     * @param name of an entry; null or empty for the page's own
     * @throws InputException where there is none of this name, or the file is no build file
     */
    public synchronized Build find(String name) {
        if (name == null || name.isEmpty()) {
            return own;
        }
        // Only what is listed: a name from the network leads to no other file.
        Entry entry = entries().stream()
                .filter(one -> one.name.equals(name))
                .findFirst()
                .orElseThrow(() -> new InputException("build: found no build '" + name
                        + "', expected one that ships or a build file in the folder '" + folder + "'"));
        return entry.file == null ? BuildFile.loadNamed(name) : read(Path.of(entry.file));
    }

    private Build read(Path file) {
        try {
            String stamp = Files.getLastModifiedTime(file) + " " + Files.size(file);
            if (!file.equals(lastFile) || !stamp.equals(lastStamp)) {
                lastBuild = BuildFile.load(file);
                lastFile = file;
                lastStamp = stamp;
            }
            return lastBuild;
        } catch (IOException e) {
            throw new InputException(file + ": found a file that cannot be read, expected a build file", e);
        }
    }
}

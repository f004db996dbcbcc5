package linehold.rig.paper;

import java.nio.file.Path;

/** Saves windows of one build in one folder, one at a time. */
public final class WindowSaver {
    private final WindowDesk desk;
    private final String source;
    private final Path folder;

    /** @param source the text of the build file */
    public WindowSaver(WindowDesk desk, String source, Path folder) {
        this.desk = desk;
        this.source = source;
        this.folder = folder;
    }

    /** @throws linehold.simulator.build.InputException as {@link SavedWindow#write} does */
    public synchronized SavedWindow save(TriedWindow tried, String name) {
        return SavedWindow.write(desk, source, tried, name, folder);
    }
}

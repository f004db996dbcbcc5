package linehold.rig.app;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import linehold.rig.adapter.system.RealTime;
import linehold.rig.adapter.web.BenchRoutes;
import linehold.rig.adapter.web.DriveRoutes;
import linehold.rig.adapter.web.FaultRoutes;
import linehold.rig.adapter.web.LiveFaultRoutes;
import linehold.rig.adapter.web.LogRoutes;
import linehold.rig.adapter.web.NoBenchRoutes;
import linehold.rig.adapter.web.PageServer;
import linehold.rig.adapter.web.TraceRoutes;
import linehold.rig.adapter.web.WindowRoutes;
import linehold.rig.paper.BuildShelf;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.FaultTable;
import linehold.rig.paper.OwnLogs;
import linehold.rig.paper.TraceBook;
import linehold.rig.paper.WindowDesk;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.run.Parallel;

/** What the page is made of, beside the live view that the server itself has. */
final class PageParts {
    /** Where what people save and give goes, and is found again. */
    private static final Path OUT = Path.of("out");

    private PageParts() {}

    /**
     * What is served where no rig runs.
     *
     * @param buildName as the build was loaded, to save others like it
     * @param recordings of rigs
     */
    static List<PageServer.Routes> alone(Build build, String buildName, Path recordings) {
        List<PageServer.Routes> parts = new ArrayList<>(paper(build, buildName, recordings, RealTime::modest));
        parts.add(new NoBenchRoutes(build, false));
        return parts;
    }

    /** The same beside a rig. @param faults what can be put into its car; null on a board */
    static List<PageServer.Routes> rig(Build build, String buildName, Path recordings, LiveFaults faults) {
        List<PageServer.Routes> parts = beside(build, buildName, recordings);
        parts.add(faults == null ? LiveFaultRoutes.board() : new LiveFaultRoutes(faults));
        parts.add(new NoBenchRoutes(build, true));
        return parts;
    }

    /** The same beside a bench. */
    static List<PageServer.Routes> bench(
            Build build, String buildName, Path recordings, BenchRoutes bench, boolean simulated) {
        List<PageServer.Routes> parts = beside(build, buildName, recordings);
        parts.add(simulated ? LiveFaultRoutes.bench() : LiveFaultRoutes.board());
        parts.add(bench);
        return parts;
    }

    /** Paper beside a control loop: a core belongs to that. No thread is modest there (decision 0069). */
    private static List<PageServer.Routes> beside(Build build, String buildName, Path recordings) {
        Parallel.keepFree(1);
        return new ArrayList<>(paper(build, buildName, recordings, () -> {}));
    }

    /** @param background what the threads do first that nobody waits for */
    private static List<PageServer.Routes> paper(Build build, String buildName, Path recordings, Runnable background) {
        String source = new String(BuildFile.bytesNamed(buildName), StandardCharsets.UTF_8);
        WindowDesk desk = new WindowDesk(build, new Worker("window", background), new Worker("window-verdict"));
        FaultTable table = new FaultTable(build, new Worker("fault-campaign", background), new Worker("fault-run"));
        DriveBook drives = new DriveBook(
                build,
                BuiltInDrives.all(build),
                new Worker("verdicts", background),
                new Worker("drive-reading", background));
        BuildShelf builds = new BuildShelf(build, OUT);
        // A run and the one over it are computed side by side.
        List<Worker> runners = List.of(new Worker("run-1"), new Worker("run-2"));
        return List.of(
                new DriveRoutes(drives),
                new LogRoutes(new OwnLogs(drives, OUT.resolve("logs"), new RigRecordings(recordings))),
                new TraceRoutes(builds, new TraceBook(drives, builds, runners, System::nanoTime)),
                new WindowRoutes(desk, source, OUT),
                new FaultRoutes(table));
    }
}

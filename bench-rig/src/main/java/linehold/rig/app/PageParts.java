package linehold.rig.app;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import linehold.rig.adapter.web.DriveRoutes;
import linehold.rig.adapter.web.FaultRoutes;
import linehold.rig.adapter.web.LiveFaultRoutes;
import linehold.rig.adapter.web.PageServer;
import linehold.rig.adapter.web.WindowRoutes;
import linehold.rig.paper.DriveBook;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.LiveFaults;

/** What the page is made of, beside the live view that the server itself has. */
final class PageParts {
    private PageParts() {}

    /** What needs no rig. @param buildName as the build was loaded, to save others like it */
    static List<PageServer.Routes> paper(Build build, String buildName) {
        String source = new String(BuildFile.bytesNamed(buildName), StandardCharsets.UTF_8);
        return List.of(
                new DriveRoutes(new DriveBook(build)),
                new WindowRoutes(build, source, Path.of("out")),
                new FaultRoutes(build));
    }

    /** The same beside a rig. @param faults what can be put into its car; null on a board */
    static List<PageServer.Routes> rig(Build build, String buildName, LiveFaults faults) {
        List<PageServer.Routes> parts = new ArrayList<>(paper(build, buildName));
        parts.add(new LiveFaultRoutes(faults));
        return parts;
    }
}

package linehold.rig.app;

import java.util.ArrayList;
import java.util.List;
import linehold.rig.adapter.web.FaultRoutes;
import linehold.rig.adapter.web.LiveFaultRoutes;
import linehold.rig.adapter.web.PageServer;
import linehold.simulator.build.Build;
import linehold.simulator.fault.LiveFaults;

/** What the page is made of, beside the live view that the server itself has. */
final class PageParts {
    private PageParts() {}

    /** What needs no rig. */
    static List<PageServer.Routes> paper(Build build) {
        return List.of(new FaultRoutes(build));
    }

    /** The same beside a rig. @param faults what can be put into its car; null on a board */
    static List<PageServer.Routes> rig(Build build, LiveFaults faults) {
        List<PageServer.Routes> parts = new ArrayList<>(paper(build));
        parts.add(new LiveFaultRoutes(faults));
        return parts;
    }
}

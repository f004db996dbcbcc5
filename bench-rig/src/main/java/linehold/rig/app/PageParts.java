package linehold.rig.app;

import java.util.List;
import linehold.rig.adapter.web.PageServer;
import linehold.simulator.build.Build;

/** What the page is made of, beside the live view that the server itself has. */
final class PageParts {
    private PageParts() {}

    /** What needs no rig. */
    static List<PageServer.Routes> paper(Build build) {
        return List.of();
    }
}

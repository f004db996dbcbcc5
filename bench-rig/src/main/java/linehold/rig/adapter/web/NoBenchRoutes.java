package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import java.util.Arrays;
import java.util.List;
import linehold.rig.procedure.Cautions;
import linehold.rig.procedure.Procedure;
import linehold.simulator.build.Build;

/** The procedures as reading matter, where no bench runs. Whatever would move a coil is refused. */
public final class NoBenchRoutes implements PageServer.Routes {
    private static final String VEHICLE =
            "This rig drives, and its relays belong to the controller: procedures are refused in vehicle mode.";
    private static final String PAPER = "No rig is running here, so there is nothing that a procedure could move.";

    private final BenchRoutes.About about;

    /** @param driving whether a rig runs in vehicle mode */
    public NoBenchRoutes(Build build, boolean driving) {
        about = new BenchRoutes.About(
                driving ? "vehicle" : "paper",
                false,
                Cautions.ALL,
                Cautions.MARK,
                Arrays.stream(Procedure.values())
                        .map(procedure -> BenchRoutes.known(procedure, build, List.of()))
                        .toList(),
                null,
                driving ? VEHICLE : PAPER);
    }

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/bench", request -> PageServer.json(request, about));
        config.routes.get("/api/bench/state", request -> BenchRoutes.problem(request, 409, about.refusal()));
        config.routes.post("/api/bench/{what}", request -> BenchRoutes.problem(request, 409, about.refusal()));
    }
}

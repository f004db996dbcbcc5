package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.List;
import linehold.simulator.build.InputException;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.faults.Claims;

/** Faults put into the running simulated car, and cleared. Beside a real board all of this is refused. */
public final class LiveFaultRoutes implements PageServer.Routes {
    private static final String NO_FAULTS = "A fault is only ever put into the simulated car; this rig drives a board.";
    /** Runs on paper take processor and memory, and a pause for either is a late tick. */
    private static final String NO_RUNS =
            "This rig drives a board, and its processor belongs to the ticks; run 'linehold page' elsewhere for this.";

    private final LiveFaults faults;

    /** @param faults null where the rig drives a board */
    public LiveFaultRoutes(LiveFaults faults) {
        this.faults = faults;
    }

    /** @param lastsS how long it lasts if it is not cleared, s; null if it stays */
    record Kind(String fault, String title, String size, String part, Double lastsS, String state) {}

    /** What is asked. */
    record Wish(String fault, boolean present) {}

    @Override
    public void addTo(JavalinConfig config) {
        if (faults == null) {
            config.routes.get("/api/live-faults", request -> refuse(request, NO_FAULTS));
            config.routes.post("/api/live-faults", request -> refuse(request, NO_FAULTS));
            config.routes.before("/api/faults/start", request -> refuse(request, NO_RUNS));
            config.routes.before("/api/faults/run", request -> refuse(request, NO_RUNS));
        } else {
            config.routes.get("/api/live-faults", request -> PageServer.json(request, kinds()));
            config.routes.post("/api/live-faults", this::wish);
        }
    }

    private static void refuse(Context request, String sentence) {
        request.status(409);
        PageServer.json(request, new PageServer.Problem(sentence));
        request.skipRemainingHandlers();
    }

    private void wish(Context request) {
        Wish wish = FaultRoutes.body(request, Wish.class);
        if (wish.fault == null) {
            throw new InputException("fault: expected the name of a fault");
        }
        FaultKind kind = Claims.kind(wish.fault, "fault: ");
        if (!faults.possible().contains(kind)) {
            throw new InputException("fault: found '" + wish.fault
                    + "', expected one of a part that this car has; the control unit's are not among them, for here it is"
                    + " the program itself");
        }
        if (wish.present) {
            faults.begin(kind);
        } else {
            faults.clear(kind);
        }
        PageServer.json(request, kinds());
    }

    private List<Kind> kinds() {
        return faults.possible().stream().map(this::kind).toList();
    }

    private Kind kind(FaultKind kind) {
        Double lastsS = Double.isInfinite(kind.usualDurationS()) ? null : kind.usualDurationS();
        String state = switch (faults.state(kind)) {
            case ABSENT -> "absent";
            case COMING -> "coming";
            case PRESENT -> "present";
            case GOING -> "going";
        };
        return new Kind(
                kind.key(), kind.title(), kind.usualSizeText(), kind.part().title(), lastsS, state);
    }
}

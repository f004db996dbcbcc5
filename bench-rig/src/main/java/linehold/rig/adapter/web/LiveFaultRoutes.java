package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.util.List;
import linehold.simulator.build.InputException;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.faults.Claims;

/** Faults put into the running simulated car, and cleared. Beside a board, or on a bench, all of this is refused. */
public final class LiveFaultRoutes implements PageServer.Routes {
    private static final String NO_FAULTS = "A fault is only ever put into the simulated car; this rig drives a board.";
    /** Runs on paper take processor and memory, and a pause for either is a late tick. */
    private static final String NO_RUNS =
            "This rig drives a board, and its processor belongs to the ticks; run 'linehold page' elsewhere for this.";

    /** A record of a procedure tells what was broken, and would not know of these. */
    private static final String NO_FAULTS_ON_BENCH =
            "A bench has its fault from the start, by --fault, so that its records tell of it; live faults are for a rig"
                    + " that drives.";

    private final LiveFaults faults;
    private final String refusal;
    private final boolean runs;

    /** For a simulated car. */
    public LiveFaultRoutes(LiveFaults faults) {
        this(faults, null, true);
    }

    private LiveFaultRoutes(LiveFaults faults, String refusal, boolean runs) {
        this.faults = faults;
        this.refusal = refusal;
        this.runs = runs;
    }

    /** Beside a board: neither live faults nor runs on paper. */
    public static LiveFaultRoutes board() {
        return new LiveFaultRoutes(null, NO_FAULTS, false);
    }

    /** Beside a simulated bench: no live faults. */
    public static LiveFaultRoutes bench() {
        return new LiveFaultRoutes(null, NO_FAULTS_ON_BENCH, true);
    }

    /** @param lastsS how long it lasts if it is not cleared, s; null if it stays */
    record Kind(String fault, String title, String size, String part, Double lastsS, String state) {}

    /** What is asked. */
    record Wish(String fault, boolean present) {}

    @Override
    public void addTo(JavalinConfig config) {
        if (!runs) {
            config.routes.before("/api/faults/start", request -> refuse(request, NO_RUNS));
            config.routes.before("/api/faults/run", request -> refuse(request, NO_RUNS));
        }
        if (faults == null) {
            config.routes.get("/api/live-faults", request -> refuse(request, refusal));
            config.routes.post("/api/live-faults", request -> refuse(request, refusal));
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
        Wish wish = PageServer.body(request, Wish.class);
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

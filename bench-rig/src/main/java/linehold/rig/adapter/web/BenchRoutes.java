package linehold.rig.adapter.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.BadRequestResponse;
import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import linehold.rig.procedure.BenchDesk;
import linehold.rig.procedure.Cautions;
import linehold.rig.procedure.Limits;
import linehold.rig.procedure.Procedure;
import linehold.rig.procedure.Step;
import linehold.simulator.build.Build;

/** Bench procedures from the page. Whoever moves a coil holds the bench key; whoever sees the page may watch and stop. */
public final class BenchRoutes implements PageServer.Routes {
    private static final String STOPPED = "Stopped from the page.";
    private static final String FOREIGN = "Only a browser on the bench's own machine may hold the bench key, unless the"
            + " bench was started with --bench-from-network; this one can watch and stop.";

    private final BenchDesk desk;
    private final boolean simulated;
    private final Predicate<Context> mayHold;

    /**
     * @param simulated whether nothing here is real
     * @param fromNetwork whether a browser on another machine may hold the key, too
     */
    public BenchRoutes(BenchDesk desk, boolean simulated, boolean fromNetwork) {
        this(desk, simulated, fromNetwork ? request -> true : OwnMachine::sent);
    }

    BenchRoutes(BenchDesk desk, boolean simulated, Predicate<Context> mayHold) {
        this.desk = desk;
        this.simulated = simulated;
        this.mayHold = mayHold;
    }

    /** What does not change. @param refusal why this browser cannot have the key; null where it can */
    record About(
            String mode,
            boolean simulated,
            List<String> cautions,
            String cautionsMark,
            List<Known> procedures,
            Limits limits,
            String refusal) {}

    /** @param fits whether the build has what it measures with */
    record Known(String key, String title, String purpose, boolean fits, List<Told> steps) {}

    record Told(String title, String instruction) {}

    record Taking(String cautions) {}

    record Taken(String secret) {}

    record Holding(String secret) {}

    record Starting(String secret, String procedure) {}

    /** Either yes or no, or what was typed. */
    record Answering(String secret, long question, Boolean yes, String typed) {}

    @Override
    public void addTo(JavalinConfig config) {
        config.routes.get("/api/bench", request -> PageServer.json(request, about(request)));
        config.routes.get("/api/bench/state", request -> PageServer.json(request, BenchState.of(desk)));
        config.routes.post("/api/bench/key", this::take);
        config.routes.post("/api/bench/beat", request -> {
            desk.beat(holding(request));
            PageServer.json(request, new Done());
        });
        config.routes.post("/api/bench/give-back", request -> {
            desk.giveBackKey(holding(request));
            PageServer.json(request, new Done());
        });
        config.routes.post("/api/bench/start", this::start);
        config.routes.post("/api/bench/answer", this::answer);
        config.routes.post("/api/bench/stop", request -> {
            desk.stop(STOPPED);
            PageServer.json(request, BenchState.of(desk));
        });
        config.routes.exception(
                BenchDesk.RefusedException.class, (refused, request) -> problem(request, 409, refused.getMessage()));
        config.routes.exception(
                BenchDesk.NotHeldException.class, (refused, request) -> problem(request, 403, refused.getMessage()));
    }

    record Done() {}

    static void problem(Context request, int status, String sentence) {
        request.status(status);
        PageServer.json(request, new PageServer.Problem(sentence));
    }

    private About about(Context request) {
        return new About(
                "bench",
                simulated,
                Cautions.ALL,
                Cautions.MARK,
                Arrays.stream(Procedure.values())
                        .map(procedure -> known(procedure, desk.bench().build(), procedure.steps(desk.bench())))
                        .toList(),
                desk.bench().limits(),
                mayHold.test(request) ? null : FOREIGN);
    }

    static Known known(Procedure procedure, Build build, List<Step> steps) {
        return new Known(
                procedure.key(),
                procedure.title(),
                procedure.purpose(),
                procedure.fits(build),
                steps.stream()
                        .map(step -> new Told(step.title(), step.instruction()))
                        .toList());
    }

    private void take(Context request) {
        Taking taking = PageServer.body(request, Taking.class);
        checkMayHold(request);
        PageServer.json(request, new Taken(desk.takeKey(request.req().getRemoteAddr(), taking.cautions)));
    }

    private String holding(Context request) {
        return PageServer.body(request, Holding.class).secret;
    }

    private void start(Context request) {
        Starting starting = PageServer.body(request, Starting.class);
        checkMayHold(request);
        desk.start(starting.secret, starting.procedure);
        PageServer.json(request, BenchState.of(desk));
    }

    private void answer(Context request) {
        Answering answering = PageServer.body(request, Answering.class);
        checkMayHold(request);
        if (answering.typed != null) {
            desk.answer(answering.secret, answering.question, answering.typed);
        } else if (answering.yes != null) {
            desk.answer(answering.secret, answering.question, answering.yes);
        } else {
            throw new BadRequestResponse("answer: found none, expected yes, no or a number");
        }
        PageServer.json(request, BenchState.of(desk));
    }

    /** The secret alone is not enough: it could have been carried to another machine. */
    private void checkMayHold(Context request) {
        if (!mayHold.test(request)) {
            throw new ForbiddenResponse(FOREIGN);
        }
    }
}

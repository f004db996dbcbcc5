package linehold.rig.paper;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.Campaign;
import linehold.simulator.faults.Claims;
import linehold.simulator.faults.FaultCampaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Phase;

/** The fault campaign of one build, made when it is first asked for and then kept; and any single run of it again. */
public final class FaultTable implements AutoCloseable {
    /** That of the command. */
    private static final long SEED = 1;

    private final Build build;
    private final List<FaultKind> kinds;
    private final List<Phase> phases;
    private final Map<UnitSystem, FaultCampaign> campaigns = new EnumMap<>(UnitSystem.class);
    private final AtomicLong done = new AtomicLong();
    private final Worker background;
    private final Worker runner;
    private boolean running;
    private Campaign campaign;
    private String problem;

    /**
     * @param state {@code idle}, {@code running}, {@code done} or {@code failed}
     * @param done runs made
     * @param steps runs to make
     * @param problem why it failed; else null
     */
    public record Progress(String state, long done, long steps, String problem) {}

    /**
     * One run, looked into.
     *
     * @param run what became of it
     * @param trace what it looked like
     */
    public record Story(FaultRun run, FaultTrace trace) {}

    /**
     * @param background makes the campaign
     * @param runner makes single runs while a person waits
     */
    public FaultTable(Build build, Worker background, Worker runner) {
        this(build, background, runner, List.of(FaultKind.values()), List.of(Phase.values()));
    }

    /** A part of it. */
    public FaultTable(Build build, Worker background, Worker runner, List<FaultKind> kinds, List<Phase> phases) {
        this.build = build;
        this.background = background;
        this.runner = runner;
        this.kinds = kinds;
        this.phases = phases;
    }

    /** Begins the campaign, unless it is under way or done. */
    public synchronized void start() {
        if (campaign != null || running) {
            return;
        }
        problem = null;
        done.set(0);
        running = true;
        background.execute(this::work);
    }

    private void work() {
        Campaign result = null;
        String failure = null;
        try {
            result = campaigns(build.units()).run(done::incrementAndGet);
        } catch (InputException e) {
            failure = e.getMessage();
        } catch (RuntimeException e) {
            failure = "the campaign has ended by a defect: " + e;
        }
        synchronized (this) {
            campaign = result;
            problem = failure;
            running = false;
        }
    }

    public synchronized Progress progress() {
        String state = campaign != null ? "done" : running ? "running" : problem != null ? "failed" : "idle";
        return new Progress(state, done.get(), campaigns(build.units()).steps(), problem);
    }

    /** Every single fault, in the order of the campaign; empty until it is done. */
    public synchronized List<FaultRun> runs() {
        return campaign == null ? List.of() : campaign.singles();
    }

    /**
     * Makes one run again.
     *
     * @param asker whose earlier run this one takes the place of; null where none is given up
     * @param fault as the command names it
     * @param phase likewise
     * @param oilC a corner of the build, °C
     * @param units of the sentences
     * @throws InputException where the campaign has no such run
     * @throws Worker.BusyException as {@link Worker#answer}
     * @throws java.util.concurrent.CancellationException likewise
     */
    public Story story(String asker, String fault, String phase, double oilC, UnitSystem units) {
        FaultCampaign faults = campaigns(units);
        FaultKind kind = Claims.kind(fault, "fault: ");
        Phase when = Claims.phase(phase, "phase: ");
        if (!kind.isIn(build)) {
            throw new InputException(build.name() + ": has not the part of the fault '" + fault + "'");
        }
        if (!faults.cornersC().contains(oilC)) {
            throw new InputException("oil: found " + oilC + " °C, expected one of " + faults.cornersC() + " °C");
        }
        return runner.answer(asker, () -> {
            FaultTrace.Recorder recorder = new FaultTrace.Recorder();
            FaultRun run = faults.run(kind, when, oilC, recorder);
            return new Story(run, recorder.trace());
        });
    }

    /** Made when first needed: a page whose build has a fault in its claims still opens. */
    private synchronized FaultCampaign campaigns(UnitSystem units) {
        return campaigns.computeIfAbsent(
                units, system -> new FaultCampaign(build.withUnits(system), SEED, kinds, phases));
    }

    @Override
    public void close() {
        background.close();
        runner.close();
    }
}

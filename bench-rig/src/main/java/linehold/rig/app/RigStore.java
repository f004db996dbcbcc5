package linehold.rig.app;

import linehold.controller.Controller;
import linehold.rig.adapter.store.CodeKeeper;
import linehold.rig.adapter.store.Recorder;
import linehold.rig.adapter.store.RecordingFacts;
import linehold.rig.loop.KeptCodes;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.simulator.build.Build;

/** What a running rig keeps on its medium: every tick, and the stored trouble codes. */
final class RigStore implements AutoCloseable {
    private static final String CODES = "trouble-codes.bin";

    private final Recorder recorder;
    private final CodeKeeper keeper;

    private RigStore(Recorder recorder, CodeKeeper keeper) {
        this.recorder = recorder;
        this.keeper = keeper;
    }

    /**
     * Gives the controller its stored codes back and begins to record.
     *
     * @param rig what it is, for people
     * @param controller has not stepped yet
     * @param ring has no ticks yet
     */
    static RigStore open(
            RecordingOptions options,
            Build build,
            String rig,
            Controller controller,
            KeptCodes codes,
            long rigNowNs,
            TickRing ring,
            RigFaults faults) {
        CodeKeeper keeper = new CodeKeeper(options.folder.resolve(CODES), faults);
        keeper.restore(controller.storedCodes(), rigNowNs);
        RecordingFacts facts = RecordingFacts.of(
                Main.RELEASE, build.name(), build.sha256(), rig, build.calibration(), controller.storedCodes());
        Recorder recorder = Recorder.open(options.folder, facts, ring.follow(), faults, options.limits());
        recorder.start();
        keeper.start(codes);
        return new RigStore(recorder, keeper);
    }

    /** Writes what is left. */
    @Override
    public void close() {
        recorder.close();
        keeper.close();
    }
}

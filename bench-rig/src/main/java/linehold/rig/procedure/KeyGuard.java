package linehold.rig.procedure;

import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.rig.loop.Decision;

/**
 * A procedure goes on only while the bench key is held. It is asked in the tick itself, so that a page, a network or a
 * server that hangs stops what runs.
 */
public final class KeyGuard implements Decision {
    private final BenchKey key;
    private final ProcedureEngine engine;
    private final Decision decision;

    /** @param decision steps the engine */
    public KeyGuard(BenchKey key, ProcedureEngine engine, Decision decision) {
        this.key = key;
        this.engine = engine;
        this.decision = decision;
    }

    @Override
    public void step(long nowNs, Inputs in, Outputs out) {
        if (!key.held()) {
            engine.stop(key.lostWhy());
        }
        decision.step(nowNs, in, out);
    }
}

package linehold.rig.adapter.simulated;

import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.rig.loop.Decision;
import linehold.rig.procedure.Answer;
import linehold.rig.procedure.Ask;
import linehold.rig.procedure.Helper;
import linehold.rig.procedure.ProcedureEngine;
import linehold.rig.procedure.View;
import linehold.simulator.run.Moment;

/** Stands at the simulated bench: reads the gauge, and answers where that is wanted. Steps the engine in between. */
public final class SimulatedPerson implements Decision, Helper {
    private final ProcedureEngine engine;
    private final SimulatedHand hand;
    private final boolean answers;
    private Runnable then = () -> {};
    private Moment moment;
    private long answered;
    private volatile double gaugePa;
    private volatile double oilC;

    /** @param answers whether every question is answered, or a person does that */
    public SimulatedPerson(ProcedureEngine engine, SimulatedHand hand, boolean answers) {
        this.engine = engine;
        this.hand = hand;
        this.answers = answers;
    }

    /** Looks at a bench from now on. */
    public void watch(SimulatedRig bench) {
        moment = bench.moment();
    }

    /** What else is done after each tick, on the loop's thread: only where time is virtual. */
    public void afterEachTick(Runnable what) {
        then = what;
    }

    @Override
    public void step(long nowNs, Inputs in, Outputs out) {
        // The line moves little from one tick to the next; a gauge shows less.
        gaugePa = moment.linePressurePa;
        oilC = moment.oilC;
        engine.step(nowNs, in, out);
        View view = engine.view();
        if (answers && view.question() > answered && handDone(view)) {
            answered = view.question();
            engine.answer(new Answer(answered, value(view.step().ask())));
        }
        then.run();
    }

    @Override
    public boolean handDone(View view) {
        return hand.done(view.step().shaft());
    }

    /** Whether questions are answered here. */
    public boolean answers() {
        return answers;
    }

    @Override
    public double value(Ask ask) {
        return switch (ask) {
            case GAUGE_PRESSURE -> gaugePa;
            case OIL_TEMPERATURE -> oilC;
            case CONFIRM, YES_NO, NOTHING -> 1;
        };
    }
}

package linehold.rig.app;

import java.util.Locale;
import linehold.controller.Controller;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.tick.TickField;
import linehold.rig.adapter.replay.ReplayedRun;
import linehold.rig.adapter.store.RecordedRows;
import linehold.rig.adapter.store.Recording;
import linehold.rig.adapter.store.RecordingFacts;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.InputException;

/**
 * A recorded run once more through the control loop and the controller of this release: do they decide, bit for bit, what
 * was recorded?
 */
final class Replay {
    private final Controller controller;
    private final RecordedRows rows;
    private ReplayedRun run;
    private ControlLoop loop;
    private long ticks;
    private long gap;
    private String difference;

    private Replay(Recording recording, RecordedRows rows) {
        this.rows = rows;
        RecordingFacts facts = recording.facts();
        controller = new Controller(facts.calibration());
        try {
            controller.storedCodes().importFrom(facts.codeLongs(), facts.codeDoubles());
        } catch (IllegalArgumentException e) {
            throw new InputException("the recording's first stored codes cannot be used: " + e.getMessage(), e);
        }
    }

    /**
     * What came of it.
     *
     * @param ticks that were compared and are identical
     * @param difference the first one, in words; null where there is none
     * @param gap ticks that are missing after those; what comes after them cannot be replayed
     */
    record Outcome(long ticks, String difference, long gap) {
        boolean identical() {
            return difference == null && gap == 0;
        }
    }

    /** @throws InputException where the recording cannot be replayed at all */
    static Outcome of(Recording recording) {
        if (!recording.hasFieldsOfThisRelease()) {
            throw new InputException("the recording's rows are not those of this release (" + recording.describe()
                    + "): replay it with the release that made it");
        }
        try (RecordedRows rows = recording.rows()) {
            Replay replay = new Replay(recording, rows);
            replay.go(recording.facts().calibration());
            return new Outcome(replay.ticks, replay.difference, replay.gap);
        }
    }

    private void go(Calibration calibration) {
        run = new ReplayedRun(this::nextRow);
        if (gap > 0) {
            throw new InputException("the first " + gap
                    + " ticks of the recording are not kept: a controller can only be replayed from its first step");
        }
        if (!run.hasNext()) {
            throw new InputException("the recording has no ticks, expected at least one");
        }
        loop = new ControlLoop(
                run,
                this::step,
                run,
                Watchdog.NONE,
                calibration.is(Key.NORMALLY_CLOSED_CONTACT),
                calibration.ns(Key.CONTROL_PERIOD),
                new RigFaults(),
                new TickRing(1));
        loop.run();
    }

    private boolean nextRow(double[] row) {
        if (gap > 0 || !rows.next(row)) {
            return false;
        }
        gap = rows.missedBefore();
        return gap == 0;
    }

    private void step(long nowNs, Inputs in, Outputs out) {
        controller.step(nowNs, in, out);
        if (difference != null) {
            return;
        }
        double[] row = run.row();
        for (TickField field : TickField.values()) {
            double recorded = row[TickRow.indexOf(field)];
            double replayed = field.get(in, out);
            if (Double.doubleToLongBits(recorded) != Double.doubleToLongBits(replayed)) {
                difference = String.format(
                        Locale.ROOT,
                        "tick %d: %s was recorded as %s, but is %s in the replay",
                        ticks,
                        field.columnName(),
                        field.text(recorded),
                        field.text(replayed));
                loop.stop();
                return;
            }
        }
        ticks++;
    }
}

package linehold.rig.adapter.store;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.controller.tick.TickField;
import linehold.rig.adapter.store.RecordedEvent.Kind;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;

/** Finds what changes from row to row; what is there at the first row counts as a change. */
final class EventFinder {
    /** Something that flickers at every tick must not fill the store twice. */
    private static final int MOST = 100;

    private static final PumpState[] STATES = PumpState.values();
    private static final SwitchReason[] REASONS = SwitchReason.values();
    private static final TroubleCode[] CODES = TroubleCode.values();
    private static final RigFault[] FAULTS = RigFault.values();

    private final List<RecordedEvent> found = new ArrayList<>();
    private double state = -1;
    private long codes;
    private long faults;
    private int more;

    void missed(long tick, double[] row, long count) {
        add(new RecordedEvent(tick, (long) row[TickRow.NOW_NS], Kind.MISSED, Long.toString(count)));
    }

    void see(long tick, double[] row) {
        double stateNow = row[TickRow.indexOf(TickField.STATE)];
        long codesNow = (long) row[TickRow.indexOf(TickField.ACTIVE_CODES)];
        long faultsNow = (long) row[TickRow.RIG_FAULTS];
        if (stateNow == state && codesNow == codes && faultsNow == faults) {
            return;
        }
        long nowNs = (long) row[TickRow.NOW_NS];
        if (stateNow != state) {
            int reason = (int) row[TickRow.indexOf(TickField.REASON)];
            add(new RecordedEvent(
                    tick, nowNs, Kind.STATE, STATES[(int) stateNow].name() + " " + REASONS[reason].name()));
        }
        for (TroubleCode code : CODES) {
            if (((codesNow ^ codes) & code.bit()) != 0) {
                Kind kind = (codesNow & code.bit()) != 0 ? Kind.CODE_RAISED : Kind.CODE_CLEARED;
                add(new RecordedEvent(tick, nowNs, kind, code.number()));
            }
        }
        for (RigFault fault : FAULTS) {
            if (((faultsNow ^ faults) & fault.bit()) != 0) {
                Kind kind = (faultsNow & fault.bit()) != 0 ? Kind.RIG_FAULT : Kind.RIG_FAULT_OVER;
                add(new RecordedEvent(tick, nowNs, kind, fault.name()));
            }
        }
        state = stateNow;
        codes = codesNow;
        faults = faultsNow;
    }

    private void add(RecordedEvent event) {
        if (found.size() < MOST) {
            found.add(event);
        } else {
            more++;
        }
    }

    /** What is there at the next row counts as a change again: what came before was not kept. */
    void restart() {
        found.clear();
        more = 0;
        state = -1;
        codes = 0;
        faults = 0;
    }

    /** The events since the last call. */
    List<RecordedEvent> take() {
        if (more > 0) {
            RecordedEvent last = found.get(found.size() - 1);
            found.add(new RecordedEvent(last.tick(), last.nowNs(), Kind.MORE, Integer.toString(more)));
            more = 0;
        }
        List<RecordedEvent> taken = List.copyOf(found);
        found.clear();
        return taken;
    }
}

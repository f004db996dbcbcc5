package linehold.rig.adapter.mqtt;

import java.time.Instant;
import linehold.controller.safety.TroubleCode;
import linehold.controller.tick.TickField;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRow;

/** Makes events, states and samples of rows. What is there at the first row counts as having just happened. */
final class RowWatcher {
    /** Five samples a second. */
    static final long SAMPLE_NS = 200_000_000;
    /** A fault of the rig that is there at every other tick is one fault. */
    private static final long FAULT_OVER_NS = 1_000_000_000;

    private static final TroubleCode[] CODES = TroubleCode.values();
    private static final RigFault[] FAULTS = RigFault.values();

    private final Payloads payloads;
    private final Outbox outbox;
    private final SampleWindow window = new SampleWindow();
    private final double[] last = new double[TickRow.LENGTH];
    private final long[] faultSeenNs = new long[FAULTS.length];
    private boolean any;
    private long firstNs;
    private long sampleNumber;
    private Moment lastMoment;
    private String pumpState;
    private String permission;
    private long codes;
    private long faults;
    private long seq;
    private boolean changed;

    RowWatcher(Payloads payloads, Outbox outbox) {
        this.payloads = payloads;
        this.outbox = outbox;
    }

    /** @param wallMinusRigNs what the wall clock is ahead of the rig's, ns */
    void see(double[] row, long wallMinusRigNs) {
        long nowNs = (long) row[TickRow.NOW_NS];
        boolean first = !any;
        if (first) {
            any = true;
            firstNs = nowNs;
        }
        long number = (nowNs - firstNs) / SAMPLE_NS;
        if (number != sampleNumber) {
            outbox.sample(payloads.sample(lastMoment, last, window));
            window.clear();
            sampleNumber = number;
        }
        window.add(row);
        System.arraycopy(row, 0, last, 0, row.length);
        lastMoment = moment(nowNs, wallMinusRigNs);
        if (first) {
            put(event("started"));
        }
        seePump(row);
        seePermission(row);
        seeCodes((long) Payloads.value(row, TickField.ACTIVE_CODES));
        seeFaults((long) row[TickRow.RIG_FAULTS], nowNs);
    }

    private Moment moment(long nowNs, long wallMinusRigNs) {
        long utcNs = nowNs + wallMinusRigNs;
        return new Moment(nowNs - firstNs, Instant.ofEpochSecond(0, utcNs));
    }

    private void seePump(double[] row) {
        String now = Payloads.pumpState(row);
        if (!now.equals(pumpState)) {
            put(event("pump_state")
                    .put("from", pumpState)
                    .put("to", now)
                    .put("reason", Payloads.reason(row))
                    .put("pump_wanted", Payloads.value(row, TickField.PUMP_WANTED) != 0));
            pumpState = now;
        }
    }

    private void seePermission(double[] row) {
        String now = Payloads.permission(row);
        if (!now.equals(permission)) {
            put(event("drive_permission")
                    .put("from", permission)
                    .put("to", now)
                    .number("torque_limit_nm", Payloads.value(row, TickField.TORQUE_LIMIT_NM), 10));
            permission = now;
        }
    }

    private void seeCodes(long now) {
        if (now == codes) {
            return;
        }
        for (TroubleCode code : CODES) {
            if (((now ^ codes) & code.bit()) != 0) {
                put(event((now & code.bit()) != 0 ? "code_raised" : "code_cleared")
                        .put("code", code.number())
                        .put("title", code.title())
                        .put("severity", Payloads.word(code.severity()))
                        .put("reaction", Payloads.word(code.reaction()))
                        .put("cause", code.cause()));
            }
        }
        codes = now;
    }

    private void seeFaults(long now, long nowNs) {
        if ((now | faults) == 0) {
            return;
        }
        for (RigFault fault : FAULTS) {
            boolean before = (faults & fault.bit()) != 0;
            if ((now & fault.bit()) != 0) {
                faultSeenNs[fault.ordinal()] = nowNs;
                if (!before) {
                    faults |= fault.bit();
                    putFault("rig_fault_raised", fault);
                }
            } else if (before && nowNs - faultSeenNs[fault.ordinal()] >= FAULT_OVER_NS) {
                faults &= ~fault.bit();
                putFault("rig_fault_cleared", fault);
            }
        }
    }

    private void putFault(String name, RigFault fault) {
        put(event(name).put("fault", Payloads.word(fault)).put("text", fault.text()));
    }

    /** Rows have been overwritten before they could be read; what happened within them is not known. */
    void missed(long ticks) {
        if (any) {
            put(event("ticks_missed").put("count", ticks));
        }
    }

    /** The loop has ended; nothing more comes. */
    void end() {
        if (any) {
            put(event("stopped"));
            tellState();
        }
    }

    /** Renews the state where something has happened since the last call. */
    void tellState() {
        if (changed) {
            outbox.state(payloads.state(seq - 1, lastMoment, last, faults, outbox.lostEvents()));
            changed = false;
        }
    }

    private Json event(String name) {
        return payloads.event(name, seq, lastMoment);
    }

    private void put(Json event) {
        outbox.event(seq, event.bytes());
        seq++;
        changed = true;
    }
}

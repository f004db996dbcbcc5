package linehold.simulator.fault;

/**
 * One fault in one run.
 *
 * @param kind what breaks
 * @param startS when, s
 * @param endS when it is gone again, s; infinite if it stays
 * @param size how bad, in the unit of its kind; ignored where the kind has none
 */
public record Fault(FaultKind kind, double startS, double endS, double size) {
    /** A fault of the kind's own size that lasts as long as is usual for it. */
    public static Fault usual(FaultKind kind, double startS) {
        return new Fault(kind, startS, startS + kind.usualDurationS(), kind.usualSize());
    }
}

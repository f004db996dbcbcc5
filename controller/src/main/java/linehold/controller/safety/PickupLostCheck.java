package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * LH-SP-3: the pickup gives no pulses although the shaft must be turning. Two signs: edges are missing that no stop could
 * suppress, or the line stays at a pressure that only the internal pump can make. A pickup that dies slowly at a low
 * regulator pressure shows neither; it looks like standstill, and the pump runs.
 */
public final class PickupLostCheck {
    /** Above the relief by this factor even a sender and a relief valve that err together do not reach; assumed. */
    private static final double BEYOND_RELIEF = 1.1;
    /** Edges before a returned pickup is believed: a turn of the shaft, and not fewer than this; assumed. */
    private static final int LEAST_EDGES_BACK = 4;
    /** With fewer pulses a turn than this the confirm time grows in proportion; assumed. */
    private static final double PATIENT_BELOW_PULSES = 4;

    private final double beyondReachPa;
    private final double edgesBack;
    private final Confirmation internalPumpAtWork;
    private boolean lost;
    private long edgesAtLoss;
    private long edgesBefore;

    public PickupLostCheck(Calibration calibration) {
        beyondReachPa = BEYOND_RELIEF * calibration.get(Key.ELECTRIC_PUMP_HIGHEST_PRESSURE);
        edgesBack = Math.max(LEAST_EDGES_BACK, calibration.get(Key.PULSES_PER_REVOLUTION));
        // In cold oil a creeping shaft of some 60 rpm holds a pressure beyond the electric pump's; a coarse pickup then
        // shows an edge a second, and must be given time for several.
        double patience = Math.max(1, PATIENT_BELOW_PULSES / calibration.get(Key.PULSES_PER_REVOLUTION));
        internalPumpAtWork = new Confirmation((long) (patience * calibration.ns(Key.PICKUP_LOST_CONFIRM_TIME)), 0);
    }

    /**
     * @param fellTooFast edges are missing that no stop could suppress
     * @param acceptedEdges edges accepted since power-up
     * @param pressurePa line pressure, Pa; NaN while unknown
     */
    public void update(long nowNs, boolean fellTooFast, long acceptedEdges, double pressurePa) {
        boolean contradicted = acceptedEdges == edgesBefore && pressurePa > beyondReachPa;
        edgesBefore = acceptedEdges;
        if (internalPumpAtWork.update(contradicted, nowNs) || fellTooFast) {
            lost = true;
            edgesAtLoss = acceptedEdges;
        } else if (lost && acceptedEdges - edgesAtLoss >= edgesBack) {
            lost = false;
        }
    }

    public boolean active() {
        return lost;
    }
}

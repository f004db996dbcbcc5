package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * LH-PR-2: pressure below hold pressure after PRIME. With the shaft turning it is lost after a short confirm time; at
 * standstill an element may be filling, so that drive is withheld at once and it is lost only after the engagement
 * allowance. Once lost it stays lost until pressure is back and the driver has let go.
 *
 * <p>Only its edges tell that a shaft turns. A hard stop with an element filling in its last moment must not look like
 * pressure lost at speed, so the confirm time with the shaft turning is counted up to the last edge.
 */
public final class PressureLossCheck {
    private final Calibration calibration;
    private final double holdPa;
    private final double zeroRequestNm;
    private final boolean requestFitted;
    private final long confirmNs;
    private final Confirmation back;
    private boolean lowTurning;
    private long lowTurningSinceNs;
    private boolean filling;
    private long fillingSinceNs;
    private boolean engaging;
    private boolean lostMoving;
    private boolean lostStanding;
    private boolean letGo;

    public PressureLossCheck(Calibration calibration) {
        this.calibration = calibration;
        holdPa = calibration.get(Key.HOLD_PRESSURE);
        zeroRequestNm = calibration.get(Key.ZERO_TORQUE_REQUEST);
        requestFitted = calibration.is(Key.TORQUE_REQUEST_FITTED);
        confirmNs = calibration.ns(Key.LOW_PRESSURE_CONFIRM_TIME);
        back = new Confirmation(calibration.ns(Key.PRESSURE_RETURN_TIME), 0);
    }

    /**
     * @param watching past PRIME and not off
     * @param pressurePa line pressure, Pa; NaN while unknown, which finds nothing and releases nothing
     * @param standing the shaft stands, or may have come to rest since its last edge
     * @param lastEdgeNs time of the last edge, ns
     * @param standstillConfirmed for the confirm time
     * @param requestNm the driver's torque request, N·m; NaN while unknown
     * @param oilTemperatureC °C; NaN while unknown
     */
    public void update(
            long nowNs,
            boolean watching,
            double pressurePa,
            boolean standing,
            long lastEdgeNs,
            boolean standstillConfirmed,
            double requestNm,
            double oilTemperatureC) {
        boolean low = watching && pressurePa < holdPa;
        lostMoving |= lowLongEnough(low && !standing, nowNs, lastEdgeNs);
        lostStanding |= fillsTooLong(low && standing, nowNs, oilTemperatureC);
        // Granted again only when pressure holds: a car that begins to roll has no more pressure for that.
        engaging = low && (standing || engaging);

        boolean requestKnown = requestFitted && !Double.isNaN(requestNm);
        letGo = requestKnown ? Math.abs(requestNm) <= zeroRequestNm : standstillConfirmed;
        if (back.update(pressurePa >= holdPa, nowNs) && letGo) {
            lostMoving = false;
            lostStanding = false;
        }
    }

    private boolean lowLongEnough(boolean low, long nowNs, long lastEdgeNs) {
        if (low && !lowTurning) {
            lowTurningSinceNs = nowNs;
        }
        lowTurning = low;
        return low && lastEdgeNs - lowTurningSinceNs >= confirmNs;
    }

    private boolean fillsTooLong(boolean nowFilling, long nowNs, double oilTemperatureC) {
        if (nowFilling && !filling) {
            fillingSinceNs = nowNs;
        }
        filling = nowFilling;
        return filling && nowNs - fillingSinceNs > 1e9 * calibration.at(Key.ENGAGEMENT_ALLOWANCE, oilTemperatureC);
    }

    /** The driver asks for no torque; standstill confirmed, where no request is known. */
    public boolean letGo() {
        return letGo;
    }

    /** Below hold pressure at standstill, and ever since: drive is withheld. */
    public boolean engaging() {
        return engaging;
    }

    /** Lost with the shaft turning. */
    public boolean lostMoving() {
        return lostMoving;
    }

    /** Lost at standstill: longer than an engagement may last. */
    public boolean lostStanding() {
        return lostStanding;
    }
}

package linehold.simulator.faults;

import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.Outputs;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.ElementCapacity;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/**
 * Judges a run with a fault tick by tick: what slipped, what was noticed, and what the controller did about it.
 *
 * <p>The torque that counts is the one still permitted: what the drive asks, limited by the drive permission of the same
 * tick. An element slips where that torque is above its capacity, once it has been engaged since it was commanded, or
 * where it is still engaging after the time limit of the build. The slip of an ordinary engagement is none.
 */
final class FaultJudge implements TickListener {
    /** A torque below this is no demand, N·m. */
    static final double NO_DEMAND_NM = 5;
    /** Slower than this with the key off, the car has stopped and nothing needs pressure any more, rad/s. */
    private static final double STOPPED_RAD_PER_S = 1;
    /** The state told is that of this time after the notice, s. */
    private static final double SETTLED_S = 1;

    private final Build build;
    private final ElementCapacity[] capacity = new ElementCapacity[Element.COUNT];
    private final double holdPa;
    private final List<DrivePermission> healthy;
    private final long healthyCodes;
    private final double faultS;
    private final double periodS;

    // The present engagement
    private Element element;
    private boolean carried;
    private boolean wasEngaged;

    // The whole run
    /** First code or restriction of drive that the healthy car does not have. */
    double noticedS = Double.NaN;
    /** First such code. */
    double codeS = Double.NaN;

    double slipS = Double.NaN;
    Element slipped;
    double slipTorqueNm;
    double lowestPressurePa = Double.POSITIVE_INFINITY;
    double lowestAtS = Double.NaN;
    double lowestMargin = Double.POSITIVE_INFINITY;
    double highestPressurePa;
    long codes;
    DrivePermission permission = DrivePermission.GRANTED;
    double permissionAtS = Double.NaN;
    double torqueLimitNm = Double.POSITIVE_INFINITY;
    PumpState state = PumpState.OFF;

    /**
     * @param healthy what is permitted with nothing broken at each place of the same drive at the same temperature
     * @param faultS when the fault begins, s; nothing before it is judged, but a code before it counts as its notice
     */
    FaultJudge(Build build, List<DrivePermission> healthy, long healthyCodes, double faultS) {
        this.build = build;
        this.healthy = healthy;
        this.healthyCodes = healthyCodes;
        this.faultS = faultS;
        for (int k = 0; k < Element.COUNT; k++) {
            capacity[k] = new ElementCapacity(build.elements().get(k));
        }
        holdPa = build.limits().holdPressurePa();
        periodS = build.calibration().get(Key.CONTROL_PERIOD);
    }

    @Override
    public boolean tick(Moment moment) {
        if (Thread.currentThread().isInterrupted()) {
            return false;
        }
        follow(moment);
        notice(moment);
        if (moment.timeS >= faultS) {
            judge(moment);
        }
        wasEngaged = moment.engagement == Engagement.ENGAGED;
        return true;
    }

    /** Whether an engaged element ever lost its hold pressure. */
    boolean pressureLost() {
        return lowestPressurePa < holdPa;
    }

    Outcome outcome() {
        return classify(slipS, noticedS, pressureLost());
    }

    /** The class of a run; times are NaN where it never happened. */
    static Outcome classify(double slipS, double noticedS, boolean pressureLost) {
        boolean noticed = !Double.isNaN(noticedS);
        if (Double.isNaN(slipS)) {
            return noticed ? Outcome.NOTICED_IN_TIME : pressureLost ? Outcome.NEVER_NOTICED : Outcome.HARMLESS;
        }
        if (!noticed) {
            return Outcome.NEVER_NOTICED;
        }
        return slipS < noticedS ? Outcome.SLIP_BEFORE_NOTICE : Outcome.SLIP_DESPITE_NOTICE;
    }

    /** Torque of the drive that the permission lets through, N·m, signed. */
    static double permittedNm(double torqueNm, Outputs outputs) {
        double limitNm = switch (outputs.permission) {
            case GRANTED -> Double.POSITIVE_INFINITY;
            case REDUCED -> outputs.torqueLimitNm;
            case WITHHELD -> 0;
        };
        return Math.copySign(Math.min(Math.abs(torqueNm), limitNm), torqueNm);
    }

    private void follow(Moment moment) {
        if (moment.element != element) {
            element = moment.element;
            carried = false;
        }
        carried |= moment.engagement == Engagement.ENGAGED;
        PumpState now = moment.outputs.state;
        double settledS = Math.max(faultS, Double.isNaN(noticedS) ? faultS : noticedS) + SETTLED_S;
        if (moment.timeS <= settledS) {
            state = now;
        }
    }

    private void judge(Moment moment) {
        highestPressurePa = Math.max(highestPressurePa, moment.linePressurePa);
        boolean driving = moment.keyOn || Math.abs(moment.shaftRadPerS) > STOPPED_RAD_PER_S;
        if (!driving) {
            return;
        }
        if (moment.engagement == Engagement.ENGAGED) {
            judgePressure(moment);
        }
        if (element != null) {
            judgeTorque(moment);
        }
    }

    /** A code, or a restriction of drive, that the healthy car does not have. */
    private void notice(Moment moment) {
        long news = moment.outputs.activeCodes & ~healthyCodes;
        codes |= news;
        boolean restricted = moment.timeS >= faultS
                && moment.keyOn
                && moment.outputs.permission.compareTo(healthyPermission(moment)) > 0;
        if (restricted) {
            restricted(moment);
        }
        if ((news != 0 || restricted) && Double.isNaN(noticedS)) {
            noticedS = moment.timeS;
        }
        if (news != 0 && Double.isNaN(codeS)) {
            codeS = moment.timeS;
        }
    }

    /** What the healthy car is permitted at the same place of the drive. */
    private DrivePermission healthyPermission(Moment moment) {
        int place = HealthyRun.place(moment, periodS);
        return place < healthy.size() ? healthy.get(place) : DrivePermission.WITHHELD;
    }

    private void restricted(Moment moment) {
        if (moment.outputs.permission.compareTo(permission) > 0) {
            permission = moment.outputs.permission;
        }
        if (Double.isNaN(permissionAtS)) {
            permissionAtS = moment.timeS;
        }
        torqueLimitNm = Math.min(torqueLimitNm, moment.outputs.torqueLimitNm);
    }

    private void judgePressure(Moment moment) {
        // The lowest since the tick before counts only if the element was engaged all that time.
        double lowestPa = wasEngaged ? moment.lowestPressurePa : moment.linePressurePa;
        if (lowestPa < lowestPressurePa) {
            lowestPressurePa = lowestPa;
            lowestAtS = moment.timeS;
        }
    }

    private void judgeTorque(Moment moment) {
        double torqueNm = permittedNm(moment.motorTorqueNm, moment.outputs);
        if (Math.abs(torqueNm) < NO_DEMAND_NM) {
            return;
        }
        boolean late = moment.engagingS > build.limits().engagementLimitS(moment.oilC);
        if (!carried && !late) {
            return;
        }
        double margin = capacity[element.ordinal()].margin(moment.elementPressurePa, torqueNm);
        lowestMargin = Math.min(lowestMargin, margin);
        if (margin < 1 && Double.isNaN(slipS)) {
            slipS = moment.timeS;
            slipped = element;
            slipTorqueNm = torqueNm;
        }
    }
}

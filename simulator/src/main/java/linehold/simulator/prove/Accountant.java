package linehold.simulator.prove;

import java.util.EnumMap;
import java.util.Map;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.ElementCapacity;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/** Judges a run tick by tick, from primed to key-off, and remembers its weakest moments. */
final class Accountant implements TickListener {
    /** A torque within this of zero is no demand, N·m. */
    private static final double NO_DEMAND_NM = 5;

    private final Build build;
    private final ElementCapacity[] capacity = new ElementCapacity[Element.COUNT];
    private final double holdPa;
    private final double safetyFactor;
    private final double switchOnRadPerS;
    private final double periodS;

    // The present key cycle
    private boolean keyWasOn;
    private double keyOnAtS;
    private boolean primed;
    private boolean wasEngaged;
    /** Since the last engagement the line pressure has stopped rising. */
    private boolean settled;

    private double pressureBeforePa;
    private double coilAtS = Double.NaN;
    private double contactAtS = Double.NaN;
    private double crossingAtS = Double.NaN;
    private PumpState stateBefore = PumpState.OFF;

    // The whole run
    double primedAtS = Double.NaN;
    double pressureMinPa = Double.POSITIVE_INFINITY;
    Snapshot pressureMin;
    double settledMinPa = Double.POSITIVE_INFINITY;
    Snapshot settledMin;
    double marginMin = Double.POSITIVE_INFINITY;
    Snapshot marginMinAt;
    long belowHoldTicks;
    double longestEngagementS;
    Snapshot longestEngagement;
    long refusedTicks;
    long handOvers;
    long codes;
    final Map<Criterion, Snapshot> firstLoss = new EnumMap<>(Criterion.class);

    Accountant(Build build) {
        this.build = build;
        for (int k = 0; k < Element.COUNT; k++) {
            capacity[k] = new ElementCapacity(build.elements().get(k));
        }
        holdPa = build.limits().holdPressurePa();
        safetyFactor = build.limits().safetyFactor();
        switchOnRadPerS = build.calibration().get(Key.SWITCH_ON_SPEED);
        periodS = build.calibration().get(Key.CONTROL_PERIOD);
    }

    double periodS() {
        return periodS;
    }

    @Override
    public boolean tick(Moment moment) {
        follow(moment);
        if (!moment.keyOn) {
            if (keyWasOn && !primed) {
                lose(Criterion.NEVER_PRIMED, moment);
            }
            primed = false;
        } else if (!primed) {
            primed = moment.linePressurePa >= holdPa && isPast(moment.outputs.state);
            if (primed && Double.isNaN(primedAtS)) {
                primedAtS = moment.timeS;
            }
            judgePrime(moment);
        }
        keyWasOn = moment.keyOn;
        if (primed) {
            judge(moment);
        }
        wasEngaged = moment.engagement == Engagement.ENGAGED;
        return true;
    }

    /** A drive that asks for torque long after key-on has been refused for want of pressure. */
    private void judgePrime(Moment moment) {
        if (!keyWasOn) {
            keyOnAtS = moment.timeS;
        }
        boolean late = moment.timeS - keyOnAtS > build.limits().engagementLimitS(moment.oilC);
        if (!primed && late && Math.abs(moment.motorTorqueNm) >= NO_DEMAND_NM) {
            lose(Criterion.NEVER_PRIMED, moment);
        }
    }

    /** The drive ended with the key on. */
    void end(Moment last) {
        if (keyWasOn && !primed) {
            lose(Criterion.NEVER_PRIMED, last);
        }
    }

    private static boolean isPast(PumpState state) {
        return state != PumpState.OFF && state != PumpState.PRIME;
    }

    private void follow(Moment moment) {
        coilAtS = since(coilAtS, moment.outputs.pumpWanted, moment.timeS);
        contactAtS = since(contactAtS, moment.contactClosed, moment.timeS);
        crossingAtS = since(crossingAtS, moment.shaftRadPerS < switchOnRadPerS, moment.timeS);
        PumpState state = moment.outputs.state;
        if (state == PumpState.INTERNAL && stateBefore != PumpState.INTERNAL) {
            handOvers++;
        }
        stateBefore = state;
        codes |= moment.outputs.activeCodes;
    }

    private static double since(double startS, boolean holds, double nowS) {
        return holds ? (Double.isNaN(startS) ? nowS : startS) : Double.NaN;
    }

    private void judge(Moment moment) {
        if (moment.engagement == Engagement.ENGAGED) {
            judgePressure(moment);
            judgeMargin(moment);
        } else if (moment.engagement == Engagement.ENGAGING) {
            judgeEngagement(moment);
        }
        boolean asked = Math.abs(moment.motorTorqueNm) >= NO_DEMAND_NM;
        if (asked && moment.outputs.permission != DrivePermission.GRANTED) {
            refusedTicks++;
            lose(Criterion.DRIVE_REFUSED, moment);
        }
    }

    private void judgePressure(Moment moment) {
        // The lowest since the tick before counts only if the element was engaged all that time.
        double lowestPa = wasEngaged ? moment.lowestPressurePa : moment.linePressurePa;
        if (lowestPa < pressureMinPa) {
            pressureMinPa = lowestPa;
            pressureMin = snapshot(moment);
        }
        settled = wasEngaged && (settled || moment.linePressurePa <= pressureBeforePa);
        pressureBeforePa = moment.linePressurePa;
        if (settled && lowestPa < settledMinPa) {
            settledMinPa = lowestPa;
            settledMin = snapshot(moment);
        }
        if (lowestPa < holdPa) {
            belowHoldTicks++;
            lose(Criterion.PRESSURE_LOST, moment);
        }
    }

    private void judgeMargin(Moment moment) {
        if (Math.abs(moment.motorTorqueNm) < NO_DEMAND_NM) {
            return;
        }
        double margin = capacity[moment.element.ordinal()].margin(moment.elementPressurePa, moment.motorTorqueNm);
        if (margin < marginMin) {
            marginMin = margin;
            marginMinAt = snapshot(moment);
        }
        if (margin < safetyFactor) {
            lose(Criterion.MARGIN_LOST, moment);
        }
    }

    private void judgeEngagement(Moment moment) {
        if (moment.engagingS > longestEngagementS) {
            longestEngagementS = moment.engagingS;
            longestEngagement = snapshot(moment);
        }
        if (moment.engagingS > build.limits().engagementLimitS(moment.oilC)) {
            lose(Criterion.ENGAGEMENT_LATE, moment);
        }
    }

    private void lose(Criterion criterion, Moment moment) {
        firstLoss.computeIfAbsent(criterion, first -> snapshot(moment));
    }

    private Snapshot snapshot(Moment moment) {
        return Snapshot.of(moment, coilAtS, contactAtS, crossingAtS);
    }
}

package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.run.ClosedLoop;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;
import linehold.simulator.window.Setting.Aid;

/**
 * Lowest line pressure in a stop, closed loop with the real controller, the worst over where the pickup's teeth stand: at
 * the place where the controller sees the crossing latest, and at places spread over a pitch for what the aids do.
 */
final class StopTrial {
    private static final double[] SPREAD = {0.05, 0.3, 0.8};
    /** The electric pump has taken over when its contact has been closed this long at standstill, s (assumed). */
    private static final double TAKEN_OVER_S = 0.3;

    /** Less below the hold pressure than this would read as the hold pressure itself, Pa. */
    private static final double VISIBLE_PA = 1e3;

    private final Build build;
    private final Setting setting;
    private final double oilC;
    private final LookAhead ahead;
    private final double handOverRadPerS;

    /** @param oilC oil temperature, °C */
    StopTrial(Build build, Setting setting, double oilC, LookAhead ahead) {
        this.build = build;
        this.setting = setting;
        this.oilC = oilC;
        this.ahead = ahead;
        handOverRadPerS = handOverRadPerS(build, oilC);
    }

    /** Lowest speed at which the internal pump alone makes the hand-over pressure, rad/s; NaN where none does. */
    static double handOverRadPerS(Build build, double oilC) {
        double handOverPa = build.calibration().get(Key.HAND_OVER_PRESSURE);
        return new SteadyState(build, oilC).carryRadPerS(Element.LOW_BAND, Range.DRIVE, handOverPa);
    }

    /** Whether the line keeps its hold pressure in first, top and reverse at every place of the teeth. */
    boolean holds(double rateRadPerS2, double onRadPerS) {
        double holdPa = build.limits().holdPressurePa();
        return lowestPa(rateRadPerS2, onRadPerS, holdPa) >= holdPa;
    }

    /** The lowest line pressure from the brakes' application to rest, Pa. */
    double lowestPa(double rateRadPerS2, double onRadPerS) {
        return lowestPa(rateRadPerS2, onRadPerS, 0);
    }

    /** Lowest line pressure of a stop in first that goes on into rolling back, Pa. */
    double rollingBackPa(double rateRadPerS2, double onRadPerS, double backwardRadPerS) {
        Build tuned = tuned(onRadPerS);
        Stop worst = stops(tuned, rateRadPerS2).get(0);
        return lowestPa(tuned, worst.rollingBack(rateRadPerS2, backwardRadPerS), 0);
    }

    /** The first stop of the trial that falls visibly below the hold pressure, as a drive; null where none does. */
    RowDrive lost(double rateRadPerS2, double onRadPerS, double offRadPerS) {
        Build tuned = Tuning.of(build, onRadPerS, offRadPerS, setting.aids(build), ahead);
        double lostPa = build.limits().holdPressurePa() - VISIBLE_PA;
        for (Stop stop : stops(tuned, rateRadPerS2)) {
            if (lowestPa(tuned, stop, lostPa) < lostPa) {
                return stop.drive();
            }
        }
        return null;
    }

    /** Ends early below {@code enoughPa}: the answer is then only known to be below it. */
    private double lowestPa(double rateRadPerS2, double onRadPerS, double enoughPa) {
        Build tuned = tuned(onRadPerS);
        double lowest = Double.POSITIVE_INFINITY;
        for (Stop stop : stops(tuned, rateRadPerS2)) {
            lowest = Math.min(lowest, lowestPa(tuned, stop, enoughPa));
            if (lowest < enoughPa) {
                break;
            }
        }
        return lowest;
    }

    private Build tuned(double onRadPerS) {
        double offRadPerS = Tuning.leastOffRadPerS(build.calibration(), onRadPerS);
        return Tuning.of(build, onRadPerS, offRadPerS, setting.aids(build), ahead);
    }

    /** The stop that is most likely to be lost comes first. */
    private List<Stop> stops(Build tuned, double rateRadPerS2) {
        double onRadPerS = tuned.calibration().get(Key.SWITCH_ON_SPEED);
        double pitch = 2 * Math.PI / tuned.calibration().get(Key.PULSES_PER_REVOLUTION);
        double latest = Stop.latestPhase(onRadPerS, rateRadPerS2, pitch);
        boolean braking = setting.aids(build).contains(Aid.BRAKE);
        List<Stop> stops = new ArrayList<>();
        stops.add(stop(tuned, Gear.FIRST, rateRadPerS2, latest, braking));
        stops.add(stop(tuned, Gear.TOP, rateRadPerS2, latest, braking));
        stops.add(stop(tuned, Gear.REVERSE, rateRadPerS2, latest, braking));
        for (double phase : SPREAD) {
            stops.add(stop(tuned, Gear.FIRST, rateRadPerS2, phase, braking));
        }
        return stops;
    }

    private Stop stop(Build tuned, Gear gear, double rateRadPerS2, double phase, boolean braking) {
        return Stop.of(rateRadPerS2, gear, tuned.calibration(), handOverRadPerS, phase, braking);
    }

    private double lowestPa(Build tuned, Stop stop, double enoughPa) {
        Lowest lowest = new Lowest(stop, enoughPa);
        new ClosedLoop(tuned, oilC, 1).run(stop.drive(), lowest);
        return lowest.pa;
    }

    /** Watches the stop alone, and no longer than it tells anything. */
    private static final class Lowest implements TickListener {
        private final Stop stop;
        private final double enoughPa;
        private double pa = Double.POSITIVE_INFINITY;
        private double closedAtS = Double.NaN;

        Lowest(Stop stop, double enoughPa) {
            this.stop = stop;
            this.enoughPa = enoughPa;
        }

        @Override
        public boolean tick(Moment moment) {
            if (moment.timeS < stop.startS()) {
                return true;
            }
            pa = Math.min(pa, moment.lowestPressurePa);
            closedAtS = moment.contactClosed ? (Double.isNaN(closedAtS) ? moment.timeS : closedAtS) : Double.NaN;
            boolean over = moment.timeS > stop.standS() + 0.1 && moment.timeS > closedAtS + TAKEN_OVER_S;
            return pa >= enoughPa && !over;
        }
    }
}

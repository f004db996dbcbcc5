package linehold.simulator.certify;

import java.util.function.DoubleUnaryOperator;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Slice;
import linehold.simulator.certificate.Certificate.Switching;
import linehold.simulator.certificate.Curve;
import linehold.simulator.certificate.Parameter;

/** Finds the curves of one slice of oil temperature: worst beginning, fall, end, recovery (docs/certificate.md). */
final class SliceProducer {
    /** Below an equilibrium by this share, so that the checker sees it without doubt. */
    private static final double BELOW = 1e-3;

    /** After shaft and contact are at rest, s. */
    private static final double LONGEST_S = 5;
    /** The end is near when line and pump move by less than this a second, relatively. */
    private static final double UNREST_PER_S = 0.01;
    /** Piston below line pressure at rest, Pa: then nothing flows back. */
    private static final double PISTON_BELOW_PA = 2;

    /** The last line of a fall is this long: short, so that it falls faster than anything in the car, s. */
    private static final double END_S = 1e-5;

    private static final int MOST_TRIES = 8;

    private final Basis basis;
    private final double alpha;
    private final double floor;
    private final double coldC;
    private final double hotC;
    private final double fineness;
    private final LowerSystem system;
    private final double touchPa;

    SliceProducer(Basis basis, double fallRadPerS2, double floorRadPerS, double coldC, double hotC, double fineness) {
        this.basis = basis;
        alpha = fallRadPerS2;
        floor = floorRadPerS;
        this.coldC = coldC;
        this.hotC = hotC;
        this.fineness = fineness;
        system = new LowerSystem(basis, coldC, hotC);
        touchPa = basis.range(Parameter.ELEMENT_TOUCH_PA).high();
    }

    /** t_d: pickup pulse, tick, relay, bounce, s; a hair more, so that rounding does not matter. */
    static double closedAfterS(Switching s) {
        double pulseS = s.pitchRad() / s.onRadPerS();
        return (pulseS + s.decisionTicks() * (s.periodS() + s.lateTickS()) + s.closeS() + s.bounceS()) * (1 + 1e-12);
    }

    /** Longest time over which a shown speed is a mean, s. */
    private static double windowS(Switching s) {
        double pulseS = s.pitchRad() / s.onRadPerS();
        double tickS = s.periodS() + s.lateTickS();
        return pulseS >= tickS * (1 + 1e-9) ? pulseS : pulseS + tickS;
    }

    /** Lowest shaft speed at the last edge that shows the switch-on speed, rad/s. */
    private double beginRadPerS() {
        return basis.switching().onRadPerS() - alpha * windowS(basis.switching()) / 2 * (1 + 1e-12);
    }

    SliceProof produce() {
        Switching s = basis.switching();
        double availableS = (s.confirmS() - s.pitchRad() / s.onRadPerS() - windowS(s)) * (1 - 1e-9);
        double startPa = restPa(0, Math.max(floor, beginRadPerS())) * (1 - BELOW);
        for (int i = 0; i < MOST_TRIES && startPa > touchPa && availableS > 0; i++) {
            Curve fall = fall(startPa);
            if (fall == null || fall.lowestPistonPa() < touchPa) {
                break;
            }
            LowerCurve back = new LowerCurve(
                    system,
                    t -> basis.switching().onRadPerS(),
                    fall.lowestLinePa(),
                    fall.lowestPistonPa(),
                    touchPa,
                    fineness);
            double wanted = startPa;
            boolean good = back.advance(
                    availableS, false, () -> back.linePa() >= wanted && back.pistonPa() >= wanted - PISTON_BELOW_PA);
            boolean reached = back.linePa() >= wanted && back.pistonPa() >= wanted - PISTON_BELOW_PA;
            if (good && reached && back.nowS() > 0) {
                return new SliceProof(coldC, hotC, new Slice(coldC, hotC, fall, back.curve()), limit(fall));
            }
            // The next fall may begin before the line is back: it then begins where the line has come to.
            startPa = Math.min(back.linePa(), back.pistonPa()) * (1 - BELOW);
        }
        return new SliceProof(coldC, hotC, null, Limit.NOTHING_HELD);
    }

    private Curve fall(double startPa) {
        double begin = beginRadPerS();
        DoubleUnaryOperator shaft = t -> Math.max(floor, begin - alpha * t);
        double closedS = closedAfterS(basis.switching());
        double standsS = Math.max(0, (begin - floor) / alpha) * (1 + 1e-12);
        LowerCurve curve = new LowerCurve(system, shaft, startPa, startPa - PISTON_BELOW_PA, touchPa, fineness);
        boolean good = curve.advance(Math.min(closedS, standsS), standsS > closedS && closedS == 0, () -> false)
                && curve.advance(Math.max(closedS, standsS), closedS < standsS, () -> false)
                && curve.advance(Math.max(closedS, standsS) + LONGEST_S, true, () -> curve.unrest(true) < UNREST_PER_S);
        if (!good || curve.pumpRadPerS() == 0) {
            return null;
        }
        double restPa = restPa(curve.pumpRadPerS(), floor);
        double endPa = Math.min(restPa, Math.min(curve.linePa(), curve.pistonPa())) * (1 - 0.2 * BELOW);
        if (!(endPa > touchPa)) {
            return null;
        }
        curve.fallTo(endPa, endPa - PISTON_BELOW_PA, END_S);
        return curve.curve();
    }

    /** Highest line pressure that lasts at a pump speed and a shaft speed, Pa; 0 where none does. */
    private double restPa(double pumpRadPerS, double shaftRadPerS) {
        double low = 0;
        double high = 1e8;
        while (high - low > 1e-7 * high) {
            double middle = 0.5 * (low + high);
            if (system.lineSlope(middle, PISTON_BELOW_PA, pumpRadPerS, shaftRadPerS) >= 0) {
                low = middle;
            } else {
                high = middle;
            }
            if (high < 1) {
                return 0;
            }
        }
        return low;
    }

    private static Limit limit(Curve fall) {
        double lowest = fall.lowestLinePa();
        int last = fall.points() - 1;
        if (fall.linePa()[0] <= lowest * 1.002) {
            return Limit.INTERNAL_PUMP;
        }
        return fall.linePa()[last] <= lowest * 1.002 ? Limit.STANDSTILL : Limit.TAKE_OVER;
    }
}

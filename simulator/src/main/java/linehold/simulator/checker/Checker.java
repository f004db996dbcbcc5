package linehold.simulator.checker;

import java.util.List;
import java.util.Locale;
import linehold.simulator.certificate.Certificate;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Claim;
import linehold.simulator.certificate.Certificate.Slice;
import linehold.simulator.certificate.Certificate.Switching;
import linehold.simulator.certificate.Curve;
import linehold.simulator.certificate.Parameter;

/**
 * Accepts a certificate or says what is wrong with it. docs/certificate.md gives the reason of each rule under the number
 * that stands here beside it.
 */
public final class Checker {
    private static final double PA_PER_BAR = 1e5;

    private final Certificate certificate;
    private final Basis basis;
    private final Claim claim;

    private Checker(Certificate certificate) {
        this.certificate = certificate;
        basis = certificate.basis();
        claim = certificate.claim();
    }

    /**
     * Checks the whole certificate.
     *
     * @param build what the build file says now, to hold the certificate's basis against
     * @throws Refusal with the first rule that is broken
     */
    public static void check(Certificate certificate, Basis build) throws Refusal {
        try {
            new Checker(certificate).all(build);
        } catch (ArithmeticException e) {
            throw new Refusal("its numbers make no sense: " + e.getMessage());
        }
    }

    private void all(Basis build) throws Refusal {
        sameBuild(build);
        claim();
        slicesMeet();
        for (Slice slice : certificate.slices()) {
            slice(slice);
        }
    }

    /** Rule 1: the certificate is about this build, and its ranges leave nothing out. */
    private void sameBuild(Basis build) throws Refusal {
        require(
                basis.sha256().equals(build.sha256()),
                "it is for another build file: hash " + shortened(basis.sha256()) + ", found "
                        + shortened(build.sha256()));
        for (Parameter parameter : Parameter.values()) {
            require(
                    basis.range(parameter).contains(build.range(parameter)),
                    "its range of " + parameter.key() + " leaves out values of the build");
        }
        Switching own = basis.switching();
        Switching asked = build.switching();
        boolean covered = own.onRadPerS() == asked.onRadPerS()
                && own.offRadPerS() == asked.offRadPerS()
                && own.pitchRad() >= asked.pitchRad()
                && own.periodS() >= asked.periodS()
                && own.lateTickS() >= 0
                && own.decisionTicks() >= asked.decisionTicks()
                && own.closeS() >= asked.closeS()
                && own.bounceS() >= asked.bounceS()
                && own.confirmS() <= asked.confirmS();
        require(covered, "its switch-over speeds or delays are not those of the build");
        require(
                basis.holdPa() >= build.holdPa(),
                "its hold pressure is " + bar(basis.holdPa()) + ", the build's is " + bar(build.holdPa()));
        require(
                basis.coldestC() <= build.coldestC() && basis.hottestC() >= build.hottestC(),
                "its oil temperatures leave out some of the build's");
    }

    /** Rule 2: the contact cannot be closed sooner than pickup, tick and relay allow; see {@link #closedAfter}. */
    private void claim() throws Refusal {
        require(basis.switching().decisionTicks() >= 1, "a decision takes one tick at least");
        require(claim.fallRadPerS2() > 0, "it bounds no fall of the shaft speed");
        require(
                claim.floorRadPerS() <= 0
                        && claim.floorRadPerS() > -basis.switching().onRadPerS(),
                "its lowest shaft speed is above rest, or so far backward that the pickup shows the switch-on speed");
        double leastS = closedAfter(basis.switching()).high();
        require(
                claim.closedAfterS() >= leastS,
                String.format(
                        Locale.ROOT,
                        "its contact closes %.4f ms after the last edge, but pickup, tick and relay may take %.4f ms",
                        1e3 * claim.closedAfterS(),
                        1e3 * leastS));
        require(
                claim.lowestPa() >= basis.holdPa(),
                "it claims " + bar(claim.lowestPa()) + ", less than the hold pressure " + bar(basis.holdPa()));
    }

    /** t_d = P + k·(T + late) + close + bounce,  P = pitch/n_on. */
    private static Interval closedAfter(Switching s) {
        return pulse(s).plus(tick(s).times(s.decisionTicks()))
                .plus(Interval.of(s.closeS()))
                .plus(Interval.of(s.bounceS()));
    }

    private static Interval pulse(Switching s) {
        return Interval.of(s.pitchRad()).over(Interval.of(s.onRadPerS()));
    }

    private static Interval tick(Switching s) {
        return Interval.of(s.periodS()).plus(Interval.of(s.lateTickS()));
    }

    /** Longest time over which a shown speed is a mean: a pulse, and a tick more where several edges come in a tick. */
    private static Interval window(Switching s) {
        Interval pulse = pulse(s);
        return pulse.low() >= tick(s).high() ? pulse : pulse.plus(tick(s));
    }

    /** Rule 3: no oil temperature is left out. */
    private void slicesMeet() throws Refusal {
        List<Slice> slices = certificate.slices();
        require(!slices.isEmpty(), "it has no slice of oil temperature");
        double reachedC = basis.coldestC();
        for (Slice slice : slices) {
            require(
                    slice.coldC() <= reachedC && slice.hotC() > slice.coldC(),
                    String.format(
                            Locale.ROOT,
                            "no slice covers the oil temperatures from %.2f to %.2f °C",
                            reachedC,
                            slice.coldC()));
            reachedC = Math.max(reachedC, slice.hotC());
        }
        require(
                reachedC >= basis.hottestC(),
                String.format(
                        Locale.ROOT,
                        "no slice covers the oil temperatures from %.2f to %.2f °C",
                        reachedC,
                        basis.hottestC()));
    }

    private void slice(Slice slice) throws Refusal {
        String where = String.format(Locale.ROOT, "oil from %.2f to %.2f °C: ", slice.coldC(), slice.hotC());
        Equations equations = new Equations(basis, OilRange.of(basis, slice.coldC(), slice.hotC()));
        fall(slice.fall(), new Proof(equations, where + "fall"));
        recovery(slice, new Proof(equations, where + "recovery"));
    }

    /** Rules 4 to 7. */
    private void fall(Curve fall, Proof proof) throws Refusal {
        double closedAfterS = claim.closedAfterS();
        Interval alpha = Interval.of(claim.fallRadPerS2());
        // n_s = n_on − α·W/2: no lower can the shaft be at the last edge that shows n_on over a window W.
        Interval begin = Interval.of(basis.switching().onRadPerS())
                .minus(alpha.times(window(basis.switching())).times(0.5));
        Proof.Shaft shaft = t -> Interval.of(Math.max(
                claim.floorRadPerS(), begin.minus(alpha.times(Interval.of(t))).low()));
        proof.shape(fall);
        proof.rests(fall, 0, shaft.leastUntil(0), false, "its beginning");
        proof.slopes(fall, shaft, closedAfterS);
        double endShaft = shaft.leastUntil(fall.endS()).low();
        require(
                endShaft <= claim.floorRadPerS() && fall.endS() >= closedAfterS,
                proof.where() + " ends before the shaft is at its lowest speed and the contact closed");
        proof.rests(fall, fall.points() - 1, Interval.of(claim.floorRadPerS()), true, "its end");
        double lowestPa = fall.lowestLinePa();
        require(
                lowestPa >= claim.lowestPa(),
                proof.where() + " goes down to " + bar(lowestPa) + ", but " + bar(claim.lowestPa()) + " is claimed");
        double touchPa = basis.range(Parameter.ELEMENT_TOUCH_PA).high();
        require(
                fall.lowestPistonPa() >= touchPa,
                proof.where() + " lets the piston go, where its equation holds no more");
    }

    /** Rule 8: a fall that ends early leaves the line able to recover before the next one counts. */
    private void recovery(Slice slice, Proof proof) throws Refusal {
        Curve fall = slice.fall();
        Curve back = slice.recovery();
        proof.shape(back);
        boolean below = back.linePa()[0] <= fall.lowestLinePa() && back.pistonPa()[0] <= fall.lowestPistonPa();
        require(below, proof.where() + " begins above the lowest point of the fall");
        for (double speed : back.pumpRadPerS()) {
            require(speed == 0, proof.where() + " counts on the electric pump");
        }
        Interval on = Interval.of(basis.switching().onRadPerS());
        proof.slopes(back, t -> on, Double.POSITIVE_INFINITY);
        int last = back.points() - 1;
        boolean reached = back.linePa()[last] >= fall.linePa()[0] && back.pistonPa()[last] >= fall.pistonPa()[0];
        require(reached, proof.where() + " does not reach the beginning of the fall");
        double availableS = recoveryTime(basis.switching()).low();
        require(
                back.endS() <= availableS,
                String.format(
                        Locale.ROOT,
                        "%s takes %.1f ms, but the pump may be off again %.1f ms after the switch-on speed",
                        proof.where(),
                        1e3 * back.endS(),
                        1e3 * availableS));
    }

    /** T_confirm − P − W: how long the shaft is above the switch-on speed at least between a fall that was seen and the next. */
    private static Interval recoveryTime(Switching s) {
        return Interval.of(s.confirmS()).minus(pulse(s)).minus(window(s));
    }

    private static void require(boolean holds, String otherwise) throws Refusal {
        if (!holds) {
            throw new Refusal(otherwise);
        }
    }

    private static String bar(double pa) {
        return String.format(Locale.ROOT, "%.4f bar", pa / PA_PER_BAR);
    }

    private static String shortened(String hash) {
        return hash.length() > 12 ? hash.substring(0, 12) + "…" : hash;
    }
}

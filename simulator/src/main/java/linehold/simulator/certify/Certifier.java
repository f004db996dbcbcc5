package linehold.simulator.certify;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.DoublePredicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.certificate.Certificate;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Claim;
import linehold.simulator.certificate.Certificate.Slice;
import linehold.simulator.certificate.Certificate.Switching;
import linehold.simulator.checker.Checker;
import linehold.simulator.checker.Refusal;
import linehold.simulator.run.Parallel;

/** Finds what can be guaranteed for a build. What it returns as certain has been accepted by the checker. */
public final class Certifier {
    private static final double RPM = Math.PI / 30;
    private static final double SLICE_K = 5;
    private static final double SLOWEST_FALL = 300 * RPM;
    private static final double FASTEST_FALL = 150_000 * RPM;
    private static final double FALL_STEP = 10 * RPM;
    private static final double ON_STEP = 5 * RPM;

    /** Where the checker refuses a curve it is built again with steps this much finer. */
    private static final double[] FINENESS = {1, 8};

    private final Build build;
    private final Basis basis;
    private final double floorRadPerS;

    /** @param floorRadPerS lowest shaft speed, rad/s: 0, or negative where the car may roll back */
    public Certifier(Build build, Basis basis, double floorRadPerS) {
        this.build = build;
        this.basis = basis;
        this.floorRadPerS = floorRadPerS;
    }

    /** Slices that are worked on, for a progress bar. */
    public int steps() {
        return slices(basis).size();
    }

    /** The bounds and the certificate without the searches for the limits of fall and switch-on speed, which are NaN. */
    public Certification quick(double fallRadPerS2, Runnable done) {
        List<SliceProof> proofs = proofs(fallRadPerS2, done);
        return new Certification(
                build,
                basis,
                claim(basis, fallRadPerS2, proofs),
                proofs,
                certificate(basis, fallRadPerS2, proofs),
                Double.NaN,
                Double.NaN);
    }

    private List<SliceProof> proofs(double fallRadPerS2, Runnable done) {
        List<Callable<SliceProof>> tasks = new ArrayList<>();
        for (double[] one : slices(basis)) {
            tasks.add(() -> proof(basis, fallRadPerS2, one));
        }
        return Parallel.all(tasks, done);
    }

    /**
     * @param fallRadPerS2 α, the fastest fall asked about, rad/s²
     * @param done called after each slice, from any thread
     */
    public Certification certify(double fallRadPerS2, Runnable done) {
        List<double[]> ends = slices(basis);
        List<SliceProof> proofs = proofs(fallRadPerS2, done);
        List<double[]> weakestFirst = IntStream.range(0, ends.size())
                .boxed()
                .sorted(Comparator.comparingDouble((Integer i) -> proofs.get(i).lowestPa())
                        .thenComparing(Comparator.reverseOrder()))
                .map(ends::get)
                .toList();
        double fall = overAll(weakestFirst, this::largestFall, (one, x) -> holds(basis, x * FALL_STEP, one), 0);
        return new Certification(
                build,
                basis,
                claim(basis, fallRadPerS2, proofs),
                proofs,
                certificate(basis, fallRadPerS2, proofs),
                fall > 0 ? fall * FALL_STEP : Double.NaN,
                lowestOn(weakestFirst, fallRadPerS2));
    }

    /** Lowest switch-on speed that is certain to keep the hold pressure, rad/s; NaN where none is. */
    public double lowestOnRadPerS(double fallRadPerS2) {
        List<double[]> hottestFirst = new ArrayList<>(slices(basis));
        Collections.reverse(hottestFirst);
        return lowestOn(hottestFirst, fallRadPerS2);
    }

    private double lowestOn(List<double[]> slices, double fallRadPerS2) {
        double on = overAll(
                slices,
                one -> lowestOnStep(fallRadPerS2, one),
                (one, x) -> holds(switchedOnAt(x * ON_STEP), fallRadPerS2, one),
                Double.POSITIVE_INFINITY);
        return Double.isFinite(on) ? on * ON_STEP : Double.NaN;
    }

    /** Whether a number of steps holds in a slice. */
    private interface Holds {
        boolean test(double[] ends, double steps);
    }

    /** What holds in every slice: found in the first, and only where another slice objects found anew there. */
    private static double overAll(List<double[]> slices, ToDoubleFunction<double[]> find, Holds holds, double none) {
        double found = find.applyAsDouble(slices.get(0));
        List<double[]> open = slices.subList(1, slices.size());
        while (found != none && !open.isEmpty()) {
            double asked = found;
            List<Callable<Boolean>> tasks = new ArrayList<>();
            for (double[] one : open) {
                tasks.add(() -> holds.test(one, asked));
            }
            int objects = Parallel.all(tasks, () -> {}).indexOf(false);
            if (objects < 0) {
                break;
            }
            found = find.applyAsDouble(open.get(objects));
            open = open.subList(objects + 1, open.size());
        }
        return found;
    }

    static List<double[]> slices(Basis basis) {
        List<double[]> ends = new ArrayList<>();
        double coldC = basis.coldestC();
        do {
            double hotC = Math.min(coldC + SLICE_K, basis.hottestC());
            ends.add(new double[] {coldC, Math.max(hotC, coldC + 0.01)});
            coldC = hotC;
        } while (coldC < basis.hottestC());
        return ends;
    }

    private SliceProof proof(Basis of, double fallRadPerS2, double[] ends) {
        for (double fineness : FINENESS) {
            SliceProof proof = new SliceProducer(of, fallRadPerS2, floorRadPerS, ends[0], ends[1], fineness).produce();
            if (proof.slice() == null || accepted(of, fallRadPerS2, proof)) {
                return proof;
            }
        }
        return new SliceProof(ends[0], ends[1], null, Limit.NOTHING_HELD);
    }

    /** Whether the checker accepts a slice for the pressure that it reaches, whatever the hold pressure. */
    private boolean accepted(Basis of, double fallRadPerS2, SliceProof proof) {
        Basis one = new Basis(
                of.build(),
                of.sha256(),
                of.spreads(),
                of.ranges(),
                of.switching(),
                Math.min(of.holdPa(), proof.lowestPa()),
                proof.coldC(),
                proof.hotC());
        Claim claim = claim(proof.lowestPa(), of, fallRadPerS2, floorRadPerS);
        try {
            Checker.check(new Certificate(one, claim, List.of(proof.slice())), one);
            return true;
        } catch (Refusal e) {
            return false;
        }
    }

    private static Claim claim(double lowestPa, Basis of, double fall, double floor) {
        return new Claim(fall, floor, SliceProducer.closedAfterS(of.switching()), lowestPa);
    }

    private Claim claim(Basis of, double fallRadPerS2, List<SliceProof> proofs) {
        double lowestPa =
                proofs.stream().mapToDouble(SliceProof::lowestPa).min().orElseThrow();
        return claim(lowestPa, of, fallRadPerS2, floorRadPerS);
    }

    /** The certificate, accepted by the checker; null where the hold pressure is not certain. */
    private Certificate certificate(Basis of, double fallRadPerS2, List<SliceProof> proofs) {
        Claim claim = claim(of, fallRadPerS2, proofs);
        if (claim.lowestPa() < of.holdPa()) {
            return null;
        }
        List<Slice> slices = proofs.stream().map(SliceProof::slice).toList();
        Certificate certificate = new Certificate(of, claim, slices);
        try {
            Checker.check(certificate, of);
            return certificate;
        } catch (Refusal e) {
            throw new IllegalStateException("the checker refuses what was produced: " + e.getMessage(), e);
        }
    }

    private boolean holds(Basis of, double fallRadPerS2, double[] ends) {
        return proof(of, fallRadPerS2, ends).lowestPa() >= of.holdPa();
    }

    private double largestFall(double[] ends) {
        int low = (int) Math.ceil(SLOWEST_FALL / FALL_STEP - 1e-9);
        int high = (int) Math.round(FASTEST_FALL / FALL_STEP);
        return bisect(low, high, true, steps -> holds(basis, steps * FALL_STEP, ends));
    }

    private double lowestOnStep(double fallRadPerS2, double[] ends) {
        int low = (int) Math.ceil(build.calibration().get(Key.STANDSTILL_SPEED) / ON_STEP - 1e-9);
        int high = (int) Math.floor(Key.SWITCH_ON_SPEED.most() / ON_STEP + 1e-9);
        return bisect(low, high, false, steps -> holds(switchedOnAt(steps * ON_STEP), fallRadPerS2, ends));
    }

    /**
     * The last whole number that holds, counted from the end that is easier.
     *
     * @param rising whether larger is harder
     * @return 0 where rising and none holds; infinite where falling and none holds
     */
    private static double bisect(int low, int high, boolean rising, DoublePredicate holds) {
        int good = rising ? low : high;
        int bad = rising ? high + 1 : low - 1;
        if (!holds.test(good)) {
            return rising ? 0 : Double.POSITIVE_INFINITY;
        }
        while (Math.abs(good - bad) > 1) {
            int middle = good + (bad - good) / 2;
            // Far apart, the geometric mean is nearer to most answers.
            if (Math.max(good, bad) > 4 * Math.min(good, bad) && Math.min(good, bad) > 0) {
                middle = (int) Math.round(Math.sqrt((double) good * bad));
            }
            if (holds.test(middle)) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        return good;
    }

    /** The same build with another switch-on speed, and a switch-off speed that keeps its distance. */
    private Basis switchedOnAt(double onRadPerS) {
        Switching s = basis.switching();
        Switching other = new Switching(
                onRadPerS,
                Math.max(s.offRadPerS(), onRadPerS + (s.offRadPerS() - s.onRadPerS())),
                s.pitchRad(),
                s.periodS(),
                s.lateTickS(),
                s.decisionTicks(),
                s.closeS(),
                s.bounceS(),
                s.confirmS());
        return new Basis(
                basis.build(),
                basis.sha256(),
                basis.spreads(),
                basis.ranges(),
                other,
                basis.holdPa(),
                basis.coldestC(),
                basis.hottestC());
    }
}

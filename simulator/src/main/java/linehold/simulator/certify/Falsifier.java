package linehold.simulator.certify;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.stream.DoubleStream;
import linehold.simulator.build.Build;
import linehold.simulator.run.ClosedLoop;
import linehold.simulator.run.Parallel;

/**
 * Looks for the lowest line pressure that an admissible drive can bring about, closed loop with the real controller: a
 * seeded search over drives, oil temperature within a slice and, where they are meant, cars within the spreads. The number
 * of runs is given, so that the result does not depend on the clock or on the number of cores.
 */
public final class Falsifier {
    private static final int BROOD = 16;

    private final Build build;
    private final Certification certification;
    private final int generations;
    private final long seed;

    /** @param runs closed-loop runs in each slice; rounded to whole generations of {@value #BROOD} */
    public Falsifier(Certification certification, int runs, long seed) {
        this.build = certification.build();
        this.certification = certification;
        generations = Math.max(1, runs / BROOD);
        this.seed = seed;
    }

    /** Closed-loop runs of one search. */
    public int runs() {
        return generations * BROOD;
    }

    /** @param lowestPa lowest line pressure, Pa */
    private record Tried(double[] choice, double lowestPa) {}

    /** @param done called after each run, from any thread */
    public Counterexample search(SliceProof slice, Runnable done) {
        SplittableRandom random = new SplittableRandom(seed);
        int choices = 1
                + HardDrive.CHOICES
                + (certification.basis().spreads() ? build.spreads().all().size() : 0);
        Tried best = null;
        for (int g = 0; g < generations; g++) {
            List<Callable<Tried>> tasks = new ArrayList<>();
            for (int i = 0; i < BROOD; i++) {
                double[] choice = best == null || random.nextInt(8) == 0
                        ? drawn(random, choices)
                        : changed(best.choice, random, g);
                tasks.add(() -> new Tried(choice, lowest(choice, slice, null)));
            }
            for (Tried tried : Parallel.all(tasks, done)) {
                if (best == null || tried.lowestPa < best.lowestPa) {
                    best = tried;
                }
            }
        }
        return counterexample(best, slice);
    }

    /** Hot oil and a straight fall as often as not: that is where most builds are weakest. */
    private static double[] drawn(SplittableRandom random, int choices) {
        double[] choice = random.doubles(choices).toArray();
        if (random.nextBoolean()) {
            choice[0] = 1;
            choice[2] = 0.1 * choice[2];
        }
        for (int i = 1 + HardDrive.CHOICES; i < choices; i++) {
            choice[i] = Math.round(choice[i]);
        }
        return choice;
    }

    private static double[] changed(double[] from, SplittableRandom random, int generation) {
        double[] choice = from.clone();
        double width = 0.5 / (1 + 0.15 * generation);
        int changes = 1 + random.nextInt(3);
        for (int c = 0; c < changes; c++) {
            int i = random.nextInt(choice.length);
            if (i > HardDrive.CHOICES) {
                choice[i] = 1 - choice[i];
            } else if (random.nextInt(4) == 0) {
                choice[i] = random.nextDouble();
            } else {
                choice[i] = Math.min(1, Math.max(0, choice[i] + width * random.nextGaussian()));
            }
        }
        return choice;
    }

    private Build car(double[] choice) {
        if (!certification.basis().spreads()) {
            return build;
        }
        double[] si = new double[build.spreads().all().size()];
        for (int i = 0; i < si.length; i++) {
            si[i] = build.spreads().all().get(i).at(choice[1 + HardDrive.CHOICES + i]);
        }
        return build.car(si);
    }

    private static double oilC(double[] choice, SliceProof slice) {
        return slice.coldC() + (slice.hotC() - slice.coldC()) * choice[0];
    }

    private HardDrive drive(double[] choice, SliceProof slice) {
        double[] driving = java.util.Arrays.copyOfRange(choice, 1, 1 + HardDrive.CHOICES);
        double recoveryS = Double.isNaN(slice.recoveryS()) ? 0.1 : slice.recoveryS();
        return HardDrive.of(
                driving,
                build,
                certification.claim().fallRadPerS2(),
                certification.claim().floorRadPerS(),
                recoveryS,
                oilC(choice, slice));
    }

    /** Lowest line pressure of one drive; into a trace, where one is wanted, Pa. */
    private double lowest(double[] choice, SliceProof slice, List<double[]> trace) {
        HardDrive hard = drive(choice, slice);
        double[] lowest = {Double.POSITIVE_INFINITY};
        new ClosedLoop(car(choice), oilC(choice, slice), seed).run(hard.drive(), moment -> {
            if (moment.timeS >= hard.judgedFromS()) {
                lowest[0] = Math.min(lowest[0], moment.lowestPressurePa);
                if (trace != null) {
                    trace.add(new double[] {moment.timeS, moment.lowestPressurePa, moment.shaftRadPerS});
                }
            }
            return true;
        });
        return lowest[0];
    }

    private Counterexample counterexample(Tried best, SliceProof slice) {
        List<double[]> trace = new ArrayList<>();
        lowest(best.choice, slice, trace);
        HardDrive hard = drive(best.choice, slice);
        return new Counterexample(
                slice.coldC(),
                slice.hotC(),
                oilC(best.choice, slice),
                slice.lowestPa(),
                best.lowestPa,
                hard.drive(),
                column(trace, 0).toArray(),
                column(trace, 1).toArray(),
                column(trace, 2).toArray(),
                hard.lastFallS());
    }

    private static DoubleStream column(List<double[]> trace, int i) {
        return trace.stream().mapToDouble(row -> row[i]);
    }
}

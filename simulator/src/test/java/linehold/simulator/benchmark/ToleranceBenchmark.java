package linehold.simulator.benchmark;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Spread;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.numeric.LatinHypercube;
import linehold.simulator.prove.Prover;
import linehold.simulator.run.Parallel;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Ten thousand cars of a Latin hypercube through the hot panic stop that is hardest on the demonstration build, on all
 * cores. Required is under 30 s on two. Run by {@code mvn -q test-compile -Dbenchmark=simulator}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 0)
@Measurement(iterations = 2)
public class ToleranceBenchmark {
    private static final int CARS = 10_000;
    private static final double OIL_C = 120;
    private static final String DRIVE = "panic-stop-ice-slow";

    @Benchmark
    public long tenThousandCars() {
        Build build = Builds.demonstration();
        List<Spread> spreads = build.spreads().all();
        double[][] points = LatinHypercube.points(CARS, spreads.size(), new Random(1));
        List<Callable<Boolean>> tasks = new ArrayList<>();
        for (double[] point : points) {
            double[] si = new double[point.length];
            for (int i = 0; i < si.length; i++) {
                si[i] = spreads.get(i).at(point[i]);
            }
            tasks.add(() -> held(build.car(si)));
        }
        return Parallel.all(tasks, () -> {}).stream().filter(held -> held).count();
    }

    private static boolean held(Build car) {
        Drive drive = BuiltInDrives.all(car).stream()
                .filter(one -> one.name().equals(DRIVE))
                .findFirst()
                .orElseThrow();
        return new Prover(car, 1).reserve(drive, OIL_C).held();
    }
}

package linehold.simulator.benchmark;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Plant;
import linehold.simulator.electrics.Relay;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One hour of invented stop and go through the circuit alone: a shaft speed every second, the relay asked by a fixed
 * window of 700/900 rpm with bounce, a shift at 2500 rpm, pressure and its lowest read every 5 ms. Run by
 * {@code mvn -q test-compile -Dbenchmark=simulator}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class PlantBenchmark {
    private static final int SECONDS = 3600;
    private static final int TICKS_PER_SECOND = 200;
    private static final double RAD_PER_S_PER_RPM = Math.PI / 30;

    @Param({"20", "120"})
    private double oilC;

    private Build build;
    private final double[] rpm = new double[SECONDS + 1];

    @Setup
    public void invent() {
        build = Builds.demonstration();
        SplittableRandom random = new SplittableRandom(1);
        double speed = 0;
        double target = 0;
        for (int s = 0; s <= SECONDS; s++) {
            if (random.nextInt(12) == 0) {
                target = random.nextInt(3) == 0 ? 0 : 3500 * random.nextDouble();
            }
            speed += Math.max(-700, Math.min(400, target - speed));
            rpm[s] = speed;
        }
    }

    @Benchmark
    public double driveOneHour() {
        Plant plant = new Plant(build, oilC, true, false);
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        boolean pump = false;
        boolean top = false;
        double sum = 0;
        for (int s = 0; s < SECONDS; s++) {
            double slope = (rpm[s + 1] - rpm[s]) * RAD_PER_S_PER_RPM;
            plant.setShaft(rpm[s] * RAD_PER_S_PER_RPM, slope);
            boolean wantsTop = rpm[s] > (top ? 1500 : 2500);
            if (wantsTop != top) {
                top = wantsTop;
                plant.command(Element.LOW_BAND, !top);
                plant.command(Element.HIGH_CLUTCH, top);
            }
            for (int tick = 1; tick <= TICKS_PER_SECOND; tick++) {
                plant.advance(s + tick / (double) TICKS_PER_SECOND, s + 1.0);
                double now = plant.shaftRadPerS() / RAD_PER_S_PER_RPM;
                pump = now < (pump ? 900 : 700);
                plant.ask(Relay.MAIN, pump);
                sum += plant.linePressurePa() + plant.takeLowestPressurePa();
            }
        }
        return sum;
    }
}

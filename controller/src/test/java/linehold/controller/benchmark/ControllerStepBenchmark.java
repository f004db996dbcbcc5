package linehold.controller.benchmark;

import java.util.concurrent.TimeUnit;
import linehold.controller.Controller;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.TestCar;
import linehold.controller.calibration.Calibration;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Time and allocation of one controller step along a recorded minute of stop and go. Run by {@code mvn -q
 * test-compile -Dbenchmark=controller}; required are under 200 ns and 0 bytes per step.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ControllerStepBenchmark {
    private static final int TICKS = 12_000;

    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();
    private final long[] edgeCounts = new long[TICKS];
    private final long[] edgeAgesNs = new long[TICKS];
    private final double[] contactVolts = new double[TICKS];
    private Controller controller;
    private long nowNs;
    private long edgesBefore;
    private int tick;

    @Setup
    public void record() {
        TestCar car = TestCar.standard();
        for (int i = 0; i < TICKS; i++) {
            // Ten seconds up to 3,000 rpm and down to standstill again.
            double phase = i % 2000 / 1000.0;
            double before = car.rpm;
            car.rpm = 3000 * (phase < 1 ? phase : 2 - phase);
            car.in.brakeApplied = phase >= 1;
            contactVolts[i] = car.in.mainContactVolts;
            car.tick(before, TestCar.PERIOD_NS);
            edgeCounts[i] = car.in.pickupEdgeCount;
            edgeAgesNs[i] = car.nowNs - car.in.pickupLastEdgeNs;
        }
        controller = new Controller(Calibration.builder().build());
        in.keyOn = true;
        in.busVolts = TestCar.BUS_VOLTS;
        in.pressureSenderSupplyVolts = 5;
        in.pressureSenderVolts = 2.1;
        in.oilTemperatureC = 90;
        in.torqueRequestNm = 20;
    }

    @Benchmark
    public boolean step() {
        nowNs += TestCar.PERIOD_NS;
        in.pickupEdgeCount = edgesBefore + edgeCounts[tick];
        in.pickupLastEdgeNs = nowNs - edgeAgesNs[tick];
        in.mainContactVolts = contactVolts[tick];
        in.brakeApplied = tick % 2000 >= 1000;
        if (++tick == TICKS) {
            tick = 0;
            edgesBefore += edgeCounts[TICKS - 1];
        }
        controller.step(nowNs, in, out);
        return out.pumpWanted;
    }
}

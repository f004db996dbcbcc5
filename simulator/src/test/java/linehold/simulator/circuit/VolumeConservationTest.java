package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import linehold.controller.Range;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.LineSpec;
import linehold.simulator.circuit.Condition.Valve;
import linehold.simulator.electrics.Relay;
import org.junit.jupiter.api.Test;

/**
 * Pumps delivered + air drawn + stored at first = leaked + returned + exhausted + stored, to far below 1e-6 of the
 * throughput of a drive (docs/numerics.md gives the measured figures).
 */
class VolumeConservationTest {
    private static final double BOUND = 1e-10;
    private static final double RPM = Math.PI / 30;

    /** Half an hour of stop and go, with everything that opens, clamps, bounces or runs dry. */
    private static VolumeBalance drive(Plant plant, SplittableRandom random, boolean rough) {
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        double nowS = 0;
        double rpm = 0;
        while (nowS < 1800) {
            double lengthS = 0.3 + 3 * random.nextDouble();
            double thenRpm = random.nextInt(3) == 0 ? 0 : -150 + 2500 * random.nextDouble();
            plant.setShaft(rpm * RPM, (thenRpm - rpm) * RPM / lengthS);
            plant.ask(Relay.MAIN, Math.min(rpm, thenRpm) < 500 && random.nextInt(4) > 0);
            boolean top = rpm > 1500;
            plant.command(Element.LOW_BAND, !top);
            plant.command(Element.HIGH_CLUTCH, top);
            if (rough) {
                plant.command(Element.REVERSE_CLUTCH, random.nextBoolean());
                plant.condition().checkValve = Valve.values()[random.nextInt(3)];
                plant.conditionChanged();
            }
            double endS = nowS + lengthS;
            for (double tickS = nowS; tickS < endS; tickS += 0.005) {
                plant.advance(tickS, endS);
            }
            plant.advance(endS, endS);
            nowS = endS;
            rpm = thenRpm;
        }
        return plant.balance();
    }

    private static void check(Build build, double oilC, boolean rough) {
        Plant plant = new Plant(build, oilC, true, false);
        VolumeBalance balance = drive(plant, new SplittableRandom(7), rough);
        double throughput = balance.internalM3() + balance.electricM3();
        assertThat(throughput).as("oil moved, m³").isGreaterThan(0.05);
        assertThat(balance.airDrawnM3()).as("the line ran dry").isPositive();
        assertThat(balance.exhaustedM3()).as("elements were released").isPositive();
        double error = balance.errorM3(0) / throughput;
        System.out.printf(java.util.Locale.ROOT, "unexplained volume %.1e of the throughput%n", error);
        assertThat(Math.abs(error)).isLessThan(BOUND);
    }

    @Test
    void shouldLoseNoOilInHalfAnHourOfStopAndGo() {
        check(TestBuilds.demonstration(), 100, false);
    }

    @Test
    void shouldLoseNoOilWhenValvesFailAndElementsFight() {
        check(TestBuilds.demonstration(), 60, true);
    }

    @Test
    void shouldLoseNoOilWithAnAccumulatorInColdOil() {
        Build build = TestBuilds.demonstrationWith(parts -> parts.line =
                new LineSpec(0.6e-3, 4e-12, 6e-13, 0.5e-6, 5e3, new LineSpec.AccumulatorSpec(3e5, 0.1e-3)));
        check(build, -20, true);
    }
}

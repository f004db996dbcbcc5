package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import linehold.controller.Range;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.RandomBuilds;
import linehold.simulator.electrics.Relay;
import linehold.simulator.electrics.RelayContact;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * What must hold for any build the validator accepts and any drive: random builds under random conditions. A failure
 * names the seed; {@code mvn test -pl simulator -am -Dtest=PlantPropertiesTest -Dlinehold.seed=N
 * -Dsurefire.failIfNoSpecifiedTests=false} repeats that one alone.
 */
class PlantPropertiesTest {
    private static final int CASES = 120;
    private static final int EVENTS = 40;
    /** Steps tried per second of drive and per event: far above what any case needs that does not hang. */
    private static final long MOST_ATTEMPTS = 400_000;

    @TestFactory
    List<DynamicTest> shouldHoldForAnyBuildAndAnyDrive() {
        Long only = Long.getLong("linehold.seed");
        int cases = Integer.getInteger("linehold.cases", CASES);
        List<DynamicTest> tests = new ArrayList<>();
        for (long seed = 0; seed < (only == null ? cases : 1); seed++) {
            long used = only == null ? seed : only;
            tests.add(DynamicTest.dynamicTest("seed " + used, () -> check(used)));
        }
        return tests;
    }

    private static void check(long seed) {
        String repeat = "repeat with -Dtest=PlantPropertiesTest -Dlinehold.seed=" + seed;
        Outcome coarse = run(seed, 5, repeat);
        Outcome again = run(seed, 5, repeat);
        assertThat(again.pressuresPa).as("bit-identical; " + repeat).isEqualTo(coarse.pressuresPa);
        Outcome fine = run(seed, 1, repeat);
        assertThat(fine.pressuresPa).as("reading more often; " + repeat).isEqualTo(coarse.pressuresPa);
    }

    private record Outcome(List<Double> pressuresPa) {}

    private static Outcome run(long seed, int tickMs, String repeat) {
        SplittableRandom random = new SplittableRandom(seed);
        Build build = RandomBuilds.next(random);
        double oilC = -30 + 160 * random.nextDouble();
        Plant plant = new Plant(build, oilC, random.nextBoolean(), random.nextBoolean());
        Conditions conditions = new Conditions(random, build, oilC);
        double storedAtFirst = plant.balance().storedM3();
        List<Double> pressures = new ArrayList<>();
        double throughput = 0;
        long nowMs = 0;
        for (int event = 0; event < EVENTS; event++) {
            int lengthMs = 5 * (1 + random.nextInt(random.nextInt(4) == 0 ? 1000 : 40));
            conditions.change(plant, lengthMs * 1e-3);
            for (long end = nowMs + lengthMs; nowMs < end; ) {
                nowMs += tickMs;
                plant.advance(nowMs * 1e-3, end * 1e-3);
                checkState(plant, repeat);
                if (nowMs % 5 == 0) {
                    pressures.add(plant.linePressurePa());
                }
            }
            throughput += lengthMs
                    * 1e-3
                    * (Math.abs(plant.internalFlowM3PerS()) + Math.abs(plant.electricFlowM3PerS()) + 1e-9);
        }
        double error = plant.balance().errorM3(storedAtFirst);
        assertThat(Math.abs(error))
                .as("volume the balance cannot explain, m³, of about %s; %s", throughput, repeat)
                .isLessThan(1e-9 * throughput + 1e-14);
        assertThat(plant.attempts()).as("steps tried; " + repeat).isLessThan(MOST_ATTEMPTS);
        return new Outcome(pressures);
    }

    private static void checkState(Plant plant, String repeat) {
        double[] values = {
            plant.linePressurePa(), plant.takeLowestPressurePa(), plant.pumpRadPerS(), plant.pumpCurrentAmps()
        };
        for (double value : values) {
            if (!(value >= 0 && value < 1e12)) {
                throw new AssertionError(value + " at " + plant.nowS() + " s; " + repeat);
            }
        }
        for (Element element : Element.values()) {
            double volume = plant.elementVolumeM3(element);
            if (!(volume >= 0 && volume < 1)) {
                throw new AssertionError(element + " holds " + volume + " m³ at " + plant.nowS() + " s; " + repeat);
            }
        }
    }

    /** Conditions of a random drive; a ramp ends where the next event begins. */
    private static final class Conditions {
        private final SplittableRandom random;
        private final Build build;
        double shaftRadPerS;
        double busVolts;
        double oilC;

        Conditions(SplittableRandom random, Build build, double oilC) {
            this.random = random;
            this.build = build;
            this.oilC = oilC;
            busVolts = build.supply().openVolts();
        }

        void change(Plant plant, double lengthS) {
            double shaftThen = shaftRadPerS;
            double busThen = busVolts;
            double oilThen = oilC;
            switch (random.nextInt(10)) {
                case 0, 1, 2 -> {
                    double target = random.nextInt(3) == 0 ? 0 : 900 * random.nextDouble() - 150;
                    shaftThen = target;
                    shaftRadPerS = random.nextBoolean() ? target : shaftRadPerS;
                }
                case 3, 4 -> plant.ask(Relay.MAIN, random.nextBoolean());
                case 5, 6 -> plant.command(Element.values()[random.nextInt(Element.COUNT)], random.nextBoolean());
                case 7 -> plant.setRange(Range.values()[random.nextInt(Range.values().length)]);
                case 8 -> oilThen = -40 + 190 * random.nextDouble();
                default -> busThen = fault(plant);
            }
            plant.setShaft(shaftRadPerS, (shaftThen - shaftRadPerS) / lengthS);
            plant.setBus(busVolts, (busThen - busVolts) / lengthS);
            plant.setOil(oilC, (oilThen - oilC) / lengthS);
            shaftRadPerS = shaftThen;
            busVolts = busThen;
            oilC = oilThen;
        }

        private void wear(Plant plant) {
            Condition condition = plant.condition();
            Condition.Valve[] valves = Condition.Valve.values();
            boolean broken = random.nextBoolean();
            switch (random.nextInt(11)) {
                case 0 -> condition.checkValve = valves[random.nextInt(valves.length)];
                case 1 -> condition.regulator = valves[random.nextInt(valves.length)];
                case 2 -> condition.electricSlipFactor = broken ? 8 : 1;
                case 3 -> condition.electricDelivery = broken ? random.nextInt(3) / 4.0 : 1;
                case 4 -> condition.internalSlipFactor = broken ? 8 : 1;
                case 5 -> condition.airFactor = broken ? 5 : 1;
                case 6 -> condition.lineLeakM2 = broken ? 2e-6 : 0;
                case 7 -> condition.sealLeakM2[random.nextInt(Element.COUNT)] = broken ? 1e-6 : 0;
                case 8 -> condition.fuseBlown = broken;
                case 9 -> condition.motorOpen = broken;
                default -> condition.motorStalled = broken;
            }
            plant.conditionChanged();
        }

        /** A fault, or another bus voltage, which is returned. */
        private double fault(Plant plant) {
            RelayContact.Failure[] failures = RelayContact.Failure.values();
            switch (random.nextInt(4)) {
                case 0 -> wear(plant);
                case 1 -> plant.setRelayFailure(Relay.MAIN, failures[random.nextInt(failures.length)]);
                case 2 ->
                    plant.setContactResistance(
                            Relay.MAIN, build.relay().contactResistanceOhm() + 0.5 * random.nextDouble());
                default -> {
                    return 6 + 10 * random.nextDouble();
                }
            }
            return busVolts;
        }
    }
}

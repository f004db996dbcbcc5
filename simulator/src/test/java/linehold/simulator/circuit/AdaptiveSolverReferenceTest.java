package linehold.simulator.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import linehold.controller.Range;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.electrics.Relay;
import org.junit.jupiter.api.Test;

/**
 * The plant against {@link SecondCircuit}: another formulation, solved by a general-purpose library at 1e-9. Bounds:
 * line pressure 0.5 kPa + 0.1 %, event times 0.2 ms (docs/numerics.md).
 */
class AdaptiveSolverReferenceTest {
    private static final double RPM = Math.PI / 30;
    private static final double[] EMPTY = {0, 0, 0};

    private Plant plant;
    private SecondCircuit second;
    private int touchesSeen;
    private double worst;
    private double nowS;

    private void begin(Build build, double oilC, Range range, double pressurePa, double... volumesM3) {
        plant = new Plant(build, oilC, true, false);
        second = new SecondCircuit(build, oilC);
        plant.start(pressurePa, 0, volumesM3);
        second.start(pressurePa, 0, volumesM3);
        plant.setRange(range);
        second.setRange(range);
    }

    private void range(Range range) {
        plant.setRange(range);
        second.setRange(range);
    }

    private void command(Element element, boolean on) {
        plant.command(element, on);
        second.command(element, on);
    }

    private void shaft(double rpm, double thenRpm, double inS) {
        plant.setShaft(rpm * RPM, (thenRpm - rpm) * RPM / inS);
        second.setShaft(rpm * RPM, (thenRpm - rpm) * RPM / inS);
    }

    /** Coil on; the contact's timeline is written out by hand: 12 ms pull-in, then 2 ms of half-millisecond bounce. */
    private void coilOnUntil(double endS) {
        double coilS = nowS;
        plant.ask(Relay.MAIN, true);
        double[] changes = {0.012, 0.0125, 0.013, 0.0135, 0.014};
        for (int i = 0; i < changes.length; i++) {
            both(coilS + changes[i], endS);
            second.setContact(i % 2 == 0);
        }
        both(endS, endS);
    }

    private void coilOffUntil(double endS) {
        double coilS = nowS;
        plant.ask(Relay.MAIN, false);
        both(coilS + 0.008, endS);
        second.setContact(false);
        both(endS, endS);
    }

    private void until(double endS) {
        both(endS, endS);
    }

    /** Moves both on in steps of 0.1 ms, compares every 5 ms and at each touch. */
    private void both(double toS, double horizonS) {
        long tick = (long) Math.floor(nowS / 1e-4 + 1e-6);
        while (nowS < toS - 1e-12) {
            tick++;
            double nextS = Math.min(toS, tick * 1e-4);
            boolean[] before = touched();
            plant.advance(nextS, horizonS);
            nowS = nextS;
            boolean[] after = touched();
            if (tick % 50 == 0 || nowS == toS || !java.util.Arrays.equals(before, after)) {
                compare(before, after);
            }
        }
    }

    private boolean[] touched() {
        boolean[] touched = new boolean[Element.COUNT];
        for (Element element : Element.values()) {
            touched[element.ordinal()] = plant.touched(element);
        }
        return touched;
    }

    private void compare(boolean[] before, boolean[] after) {
        second.advance(nowS);
        String at = " at " + nowS + " s";
        double bound = 500 + 1e-3 * second.linePressurePa();
        worst = Math.max(worst, Math.abs(plant.linePressurePa() - second.linePressurePa()) / bound);
        assertThat(plant.linePressurePa())
                .as("line pressure, Pa" + at)
                .isCloseTo(second.linePressurePa(), within(bound));
        assertThat(plant.pumpRadPerS()).as("pump speed, rad/s" + at).isCloseTo(second.pumpRadPerS(), within(0.3));
        for (Element element : Element.values()) {
            assertThat(plant.elementVolumeM3(element))
                    .as(element + " volume, m³" + at)
                    .isCloseTo(second.elementVolumeM3(element), within(4e-8));
            if (after[element.ordinal()] && !before[element.ordinal()]) {
                touch(element);
            }
        }
    }

    /** The plant's touch lies within the last 0.1 ms; the other one's may be just ahead. */
    private void touch(Element element) {
        List<SecondCircuit.Touch> all = second.touches;
        if (all.size() == touchesSeen) {
            second.advance(nowS + 2e-4);
        }
        assertThat(all).as(element + " touches in both, at " + nowS + " s").hasSize(touchesSeen + 1);
        SecondCircuit.Touch touch = all.get(touchesSeen++);
        assertThat(touch.element()).isEqualTo(element);
        assertThat(nowS - 0.5e-4).as(element + " touches, s").isCloseTo(touch.timeS(), within(2.5e-4));
    }

    private void finish(int touches) {
        assertThat(touchesSeen).as("touches").isEqualTo(touches);
        System.out.printf(java.util.Locale.ROOT, "worst pressure deviation %.3f of the bound%n", worst);
    }

    private void prime(double oilC, double endS) {
        begin(TestBuilds.demonstration(), oilC, Range.DRIVE, 0, EMPTY);
        command(Element.LOW_BAND, true);
        until(0.02);
        coilOnUntil(endS);
        finish(1);
    }

    @Test
    void shouldPrimeHotOilLikeTheReference() {
        prime(120, 2.5);
    }

    @Test
    void shouldPrimeColdOilLikeTheReference() {
        prime(-20, 3);
    }

    @Test
    void shouldRunDryRollingBackAndFillAgainLikeTheReference() {
        begin(TestBuilds.demonstration(), 100, Range.DRIVE, 9e5, 3.58e-5, 0, 0);
        command(Element.LOW_BAND, true);
        shaft(400, -150, 0.4);
        until(0.4);
        shaft(-150, -150, 1);
        until(1.6);
        shaft(-150, 0, 0.3);
        coilOnUntil(1.9);
        shaft(0, 0, 1);
        until(3.2);
        assertThat(plant.airDrawnM3()).isPositive();
        finish(1);
    }

    @Test
    void shouldPassTheLineToThePumpInAPanicStopLikeTheReference() {
        begin(TestBuilds.demonstration(), 110, Range.DRIVE, 10e5, 3.59e-5, 0, 0);
        command(Element.LOW_BAND, true);
        shaft(1500, 1500, 1);
        until(0.2);
        shaft(1500, 0, 0.075);
        until(0.255);
        coilOnUntil(0.275);
        shaft(0, 0, 1);
        until(1);
        coilOffUntil(2.5);
        finish(0);
    }

    @Test
    void shouldChargeAndEmptyAnAccumulatorLikeTheReference() {
        Build build = TestBuilds.demonstrationWith(
                parts -> parts.line = withAccumulator(parts.line, new LineSpec.AccumulatorSpec(3e5, 0.2e-3)));
        begin(build, 90, Range.DRIVE, 0, EMPTY);
        command(Element.LOW_BAND, true);
        shaft(0, 900, 0.5);
        until(0.5);
        shaft(900, 900, 1);
        until(2);
        shaft(900, 0, 0.1);
        until(2.1);
        shaft(0, 0, 1);
        coilOnUntil(3);
        coilOffUntil(6);
        finish(1);
    }

    private static LineSpec withAccumulator(LineSpec line, LineSpec.AccumulatorSpec accumulator) {
        return new LineSpec(
                line.volumeM3(),
                line.structureComplianceM3PerPa(),
                line.laminarLeakM3(),
                line.orificeLeakM2(),
                line.linearBelowPa(),
                accumulator);
    }

    @Test
    void shouldFollowTheRangesAndTheReverseClutchLikeTheReference() {
        begin(TestBuilds.demonstration(), 60, Range.PARK, 6.1e5, EMPTY);
        shaft(800, 800, 1);
        until(0.3);
        range(Range.REVERSE);
        command(Element.REVERSE_CLUTCH, true);
        until(1.3);
        range(Range.NEUTRAL);
        command(Element.REVERSE_CLUTCH, false);
        until(1.8);
        range(Range.DRIVE);
        command(Element.LOW_BAND, true);
        until(2.6);
        command(Element.LOW_BAND, false);
        command(Element.HIGH_CLUTCH, true);
        until(3.4);
        finish(3);
    }

    @Test
    void shouldLeakBackThroughAFailedCheckValveLikeTheReference() {
        begin(TestBuilds.demonstration(), 80, Range.DRIVE, 9e5, 3.58e-5, 0, 0);
        plant.condition().checkValve = Condition.Valve.STUCK_OPEN;
        plant.conditionChanged();
        second.setValveFailedOpen(true);
        command(Element.LOW_BAND, true);
        shaft(300, 300, 1);
        until(0.5);
        coilOnUntil(1.5);
        shaft(300, 0, 0.4);
        coilOffUntil(1.9);
        shaft(0, 0, 1);
        until(3);
        finish(0);
    }

    @Test
    void shouldSagWithTheBusAndAWornContactLikeTheReference() {
        begin(TestBuilds.demonstration(), 100, Range.DRIVE, 7e5, 3.56e-5, 0, 0);
        command(Element.LOW_BAND, true);
        coilOnUntil(0.5);
        bus(13.2, 6.5, 0.5);
        until(1);
        bus(6.5, 6.5, 1);
        until(1.3);
        bus(15, 13.2, 0.4);
        plant.setContactResistance(Relay.MAIN, 0.2);
        second.setContactOhm(0.2);
        until(1.7);
        bus(13.2, 13.2, 1);
        until(2.2);
        finish(0);
    }

    private void bus(double volts, double thenVolts, double inS) {
        plant.setBus(volts, (thenVolts - volts) / inS);
        second.setBus(volts, (thenVolts - volts) / inS);
    }

    @Test
    void shouldFollowWarmingOilLikeTheReference() {
        begin(TestBuilds.demonstration(), 20, Range.DRIVE, 8e5, 3.57e-5, 0, 0);
        command(Element.LOW_BAND, true);
        plant.setOil(20, 20);
        second.setOil(20, 20);
        coilOnUntil(5);
        plant.setOil(120, 0);
        second.setOil(120, 0);
        until(6);
        finish(0);
    }

    @Test
    void shouldStarveAboveTheFillLimitLikeTheReference() {
        Build build = TestBuilds.demonstrationWith(parts -> parts.internalPump =
                new InternalPumpSpec(parts.internalPump.displacementM3PerRev(), parts.internalPump.slipM3(), 20));
        begin(build, 120, Range.DRIVE, 9e5, 3.58e-5, 0, 0);
        command(Element.LOW_BAND, true);
        shaft(600, 5000, 0.5);
        until(0.5);
        shaft(5000, 0, 0.3);
        until(0.8);
        shaft(0, 0, 1);
        until(2);
        finish(0);
    }
}

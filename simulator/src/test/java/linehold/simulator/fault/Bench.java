package linehold.simulator.fault;

import linehold.controller.Inputs;
import linehold.controller.Range;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Plant;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.electrics.Relay;
import linehold.simulator.sensor.Sensors;

/** A car on the bench without a controller: in first at 110 °C, where leaks tell, the pump running, settled. */
final class Bench {
    static final double TICK_S = 0.005;
    private static final double OIL_C = 110;

    final Build build = TestBuilds.demonstration();
    final Plant plant = new Plant(build, OIL_C, true, false);
    final Sensors sensors = new Sensors(build.sensors(), TICK_S, 1);
    final UnitFaults unit = new UnitFaults();
    final Inputs in = new Inputs();
    private final FaultTargets targets = new FaultTargets(plant, sensors.faults(), unit);
    private final DriveSample row = new DriveSample();
    private double shaftRadPerS;
    private double nowS;

    Bench() {
        plant.setRange(Range.DRIVE);
        plant.command(Element.LOW_BAND, true);
        plant.ask(Relay.MAIN, true);
        run(3);
    }

    void begin(FaultKind kind) {
        kind.begin(targets, kind.usualSize());
    }

    void end(FaultKind kind) {
        kind.end(targets);
    }

    Bench coil(Relay relay, boolean on) {
        plant.ask(relay, on);
        return this;
    }

    Bench shaftRpm(double rpm) {
        shaftRadPerS = rpm * Math.PI / 30;
        plant.setShaft(shaftRadPerS, 0);
        return this;
    }

    Bench run(double seconds) {
        long ticks = Math.round(seconds / TICK_S);
        for (long i = 0; i < ticks; i++) {
            plant.advance(nowS + TICK_S, nowS + TICK_S);
            sensors.pickup().turn(nowS, TICK_S, shaftRadPerS, 0);
            nowS += TICK_S;
            sensors.read(nowS, plant, row, OIL_C, 0, in);
        }
        return this;
    }

    /** Runs on, and counts how often the contact is seen open or closed anew every 0.1 ms. */
    int contactMoves(double seconds) {
        int moves = 0;
        boolean before = plant.contactClosed();
        double endS = nowS + seconds;
        for (; nowS < endS; nowS += 1e-4) {
            plant.advance(nowS, nowS);
            moves += plant.contactClosed() != before ? 1 : 0;
            before = plant.contactClosed();
        }
        return moves;
    }
}

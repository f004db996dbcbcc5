package linehold.simulator.sensor;

import java.util.SplittableRandom;
import linehold.controller.Inputs;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.drive.DriveSample;

/** Turns the true state of the car into what the controller can see of it, and nothing else. */
public final class Sensors {
    private final SensorsSpec spec;
    private final double periodS;
    private final SpeedPickup pickup;
    private final PressureSender sender;
    private final SensorFaults faults = new SensorFaults();
    private final SplittableRandom edgeNoise;

    private long seenEdges;
    private long countedEdges;
    private double lastEdgeS;
    private double extraDue;
    private double stuckVolts = Double.NaN;

    /** @param periodS time between two readings, s */
    public Sensors(SensorsSpec spec, double periodS, long seed) {
        this.spec = spec;
        this.periodS = periodS;
        SplittableRandom random = new SplittableRandom(seed);
        pickup = new SpeedPickup(spec.pulsesPerRev());
        sender = new PressureSender(spec, periodS, random);
        edgeNoise = new SplittableRandom(~seed);
    }

    public SpeedPickup pickup() {
        return pickup;
    }

    /** What is broken; may be changed between two readings. */
    public SensorFaults faults() {
        return faults;
    }

    /**
     * Fills the controller's inputs.
     *
     * @param nowS the present, s
     * @param oilC true oil temperature, °C
     * @param torqueNm torque asked for now, N·m
     */
    public void read(double nowS, Plant plant, DriveSample row, double oilC, double torqueNm, Inputs in) {
        countEdges(nowS);
        in.pickupEdgeCount = countedEdges;
        in.pickupLastEdgeNs = Math.round(lastEdgeS * 1e9);
        in.pressureSenderVolts = senderVolts(plant.linePressurePa());
        in.pressureSenderSupplyVolts = spec.senderSupplyVolts();
        double pumpWireVolts = plant.voltsBehindContacts();
        in.mainContactVolts = faults.mainReadbackBroken ? 0 : pumpWireVolts;
        in.standbyContactVolts = faults.standbyReadbackBroken ? 0 : pumpWireVolts;
        in.pumpCurrentAmps = currentAmps(plant);
        in.busVolts = plant.busVolts();
        in.oilTemperatureC = spec.oilTemperatureFitted() ? oilC : Double.NaN;
        in.keyOn = row.keyOn;
        in.selectedRange = row.range;
        in.brakeApplied = spec.brakeFitted() && row.brakeApplied;
        in.torqueRequestNm = spec.torqueRequestFitted() ? torqueNm : Double.NaN;
    }

    private void countEdges(double nowS) {
        pickup.setToothMissing(faults.toothMissing);
        long newEdges = pickup.edgeCount() - seenEdges;
        seenEdges = pickup.edgeCount();
        if (newEdges > 0 && !faults.pickupDead) {
            countedEdges += newEdges;
            lastEdgeS = pickup.lastEdgeS();
        }
        if (faults.extraEdgesPerS > 0) {
            // On the average as many as asked for, at random times within the period.
            extraDue += 2 * edgeNoise.nextDouble() * faults.extraEdgesPerS * periodS;
            long extra = (long) extraDue;
            extraDue -= extra;
            if (extra > 0) {
                countedEdges += extra;
                lastEdgeS = Math.max(lastEdgeS, Math.max(0, nowS - edgeNoise.nextDouble() * periodS));
            }
        }
    }

    private double senderVolts(double linePa) {
        sender.setLagFactor(faults.senderLagFactor);
        faults.senderOffsetPa += faults.senderDriftPaPerS * periodS;
        double volts = sender.readVolts(linePa, faults.senderOffsetPa);
        if (faults.sender != SensorFaults.Sender.STUCK || Double.isNaN(stuckVolts)) {
            stuckVolts = volts;
        }
        return switch (faults.sender) {
            case HEALTHY -> volts;
            case OPEN -> 0;
            case SHORTED -> spec.senderSupplyVolts();
            case STUCK -> stuckVolts;
        };
    }

    private double currentAmps(Plant plant) {
        if (!spec.pumpCurrentFitted()) {
            return Double.NaN;
        }
        return faults.currentSensorDead ? 0 : plant.pumpCurrentAmps();
    }
}

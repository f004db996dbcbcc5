package linehold.simulator.sensor;

import java.util.SplittableRandom;
import linehold.controller.Inputs;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.drive.DriveSample;

/** Turns the true state of the car into what the controller can see of it, and nothing else. */
public final class Sensors {
    private final SensorsSpec spec;
    private final SpeedPickup pickup;
    private final PressureSender sender;

    /** @param periodS time between two readings, s */
    public Sensors(SensorsSpec spec, double periodS, long seed) {
        this.spec = spec;
        pickup = new SpeedPickup(spec.pulsesPerRev());
        sender = new PressureSender(spec, periodS, new SplittableRandom(seed));
    }

    public SpeedPickup pickup() {
        return pickup;
    }

    /**
     * Fills the controller's inputs.
     *
     * @param oilC true oil temperature, °C
     * @param torqueNm torque asked for now, N·m
     */
    public void read(Plant plant, DriveSample row, double oilC, double torqueNm, Inputs in) {
        in.pickupEdgeCount = pickup.edgeCount();
        in.pickupLastEdgeNs = Math.round(pickup.lastEdgeS() * 1e9);
        in.pressureSenderVolts = sender.readVolts(plant.linePressurePa());
        in.pressureSenderSupplyVolts = spec.senderSupplyVolts();
        in.mainContactVolts = plant.voltsBehindContact();
        in.pumpCurrentAmps = spec.pumpCurrentFitted() ? plant.pumpCurrentAmps() : Double.NaN;
        in.busVolts = plant.busVolts();
        in.oilTemperatureC = spec.oilTemperatureFitted() ? oilC : Double.NaN;
        in.keyOn = row.keyOn;
        in.selectedRange = row.range;
        in.brakeApplied = spec.brakeFitted() && row.brakeApplied;
        in.torqueRequestNm = spec.torqueRequestFitted() ? torqueNm : Double.NaN;
    }
}

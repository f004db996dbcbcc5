package linehold.rig.adapter.simulated;

import java.util.List;
import linehold.rig.port.Car;
import linehold.rig.port.InputPorts;
import linehold.rig.port.OutputPorts;
import linehold.simulator.build.Build;
import linehold.simulator.drive.Drive;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.fault.UnitFaults;
import linehold.simulator.run.Moment;
import linehold.simulator.run.SimulatedCar;

/** The car on paper behind the ports: what a rig without hardware drives. It lives by the rig's clock. */
public final class SimulatedRig implements Car {
    private final SimulatedCar car;
    private final LiveFaults liveFaults;
    private final Moment moment;
    private final InputPorts inputs;
    private final OutputPorts outputs;
    private long startNs;
    private boolean begun;

    /**
     * @param oilC oil temperature where the drive does not say, °C
     * @param seed of the sensors' noise
     */
    public SimulatedRig(Build build, Drive drive, double oilC, long seed, List<Fault> faults) {
        liveFaults = new LiveFaults(build);
        car = new SimulatedCar(build, drive, oilC, seed, faults, new UnitFaults()).withLiveFaults(liveFaults);
        moment = car.moment();
        inputs = new InputPorts(
                into -> {
                    into.count = moment.inputs.pickupEdgeCount;
                    into.lastEdgeNs = startNs + moment.inputs.pickupLastEdgeNs;
                },
                () -> moment.inputs.pressureSenderVolts,
                () -> moment.inputs.pressureSenderSupplyVolts,
                () -> moment.inputs.mainContactVolts,
                () -> moment.inputs.standbyContactVolts,
                () -> moment.inputs.pumpCurrentAmps,
                () -> moment.inputs.busVolts,
                () -> moment.inputs.oilTemperatureC,
                () -> moment.inputs.keyOn,
                () -> moment.inputs.brakeApplied,
                () -> moment.inputs.selectedRange,
                () -> moment.inputs.torqueRequestNm);
        outputs = new OutputPorts(
                on -> moment.outputs.mainRelayCoil = on,
                on -> moment.outputs.standbyRelayCoil = on,
                (permission, torqueLimitNm) -> {
                    moment.outputs.permission = permission;
                    moment.outputs.torqueLimitNm = torqueLimitNm;
                },
                on -> moment.outputs.warningLamp = on,
                on -> moment.outputs.buzzer = on);
    }

    @Override
    public InputPorts inputs() {
        return inputs;
    }

    @Override
    public OutputPorts outputs() {
        return outputs;
    }

    @Override
    public boolean alive() {
        return true;
    }

    @Override
    public boolean begin(long nowNs) {
        if (!begun) {
            startNs = nowNs;
            begun = true;
        }
        return car.see(nowNs - startNs);
    }

    @Override
    public void end() {
        car.obey();
    }

    /** Faults that any thread may ask for while the rig runs. */
    public LiveFaults liveFaults() {
        return liveFaults;
    }

    /** The truth behind the ports, for a bench that checks itself. For the loop's thread. */
    public Moment moment() {
        return moment;
    }

    @Override
    public void close() {
        car.close();
    }
}

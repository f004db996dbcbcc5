package linehold.rig.loop;

import linehold.controller.Inputs;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.InputPorts;
import linehold.rig.port.PortException;
import linehold.rig.port.PulseInput.Pulses;

/** Fills the controller's frame from the ports. What cannot be read is absent, or what is safe. */
final class PortReader {
    private final InputPorts ports;
    private final RigFaults faults;
    private final Pulses pulses = new Pulses();
    private long lostBefore;
    private boolean keyKnown;

    PortReader(InputPorts ports, RigFaults faults) {
        this.ports = ports;
        this.faults = faults;
    }

    void read(Inputs in) {
        readPickup(in);
        in.pressureSenderVolts = read(ports.pressureSender(), RigFault.PRESSURE_SENDER_FAILED);
        in.pressureSenderSupplyVolts = read(ports.pressureSenderSupply(), RigFault.SENDER_SUPPLY_FAILED);
        in.mainContactVolts = read(ports.mainContact(), RigFault.MAIN_CONTACT_FAILED);
        in.standbyContactVolts = read(ports.standbyContact(), RigFault.STANDBY_CONTACT_FAILED);
        in.pumpCurrentAmps = read(ports.pumpCurrent(), RigFault.PUMP_CURRENT_FAILED);
        in.busVolts = read(ports.bus(), RigFault.BUS_FAILED);
        in.oilTemperatureC = read(ports.oilTemperature(), RigFault.OIL_TEMPERATURE_FAILED);
        in.torqueRequestNm = read(ports.torqueRequest(), RigFault.TORQUE_REQUEST_FAILED);
        readKey(in);
        readBrake(in);
        readRange(in);
    }

    /** Without an answer no edge is counted; a car that moves is then noticed by its pressure (LH-SP-3). */
    private void readPickup(Inputs in) {
        try {
            ports.pickup().read(pulses);
            faults.set(RigFault.PICKUP_FAILED, false);
        } catch (PortException e) {
            faults.set(RigFault.PICKUP_FAILED, true);
        }
        in.pickupEdgeCount = pulses.count;
        in.pickupLastEdgeNs = pulses.lastEdgeNs;
        faults.set(RigFault.EDGES_LOST, pulses.lost > lostBefore);
        lostBefore = pulses.lost;
    }

    private double read(AnalogInput port, RigFault fault) {
        try {
            double value = port.read();
            faults.set(fault, false);
            return value;
        } catch (PortException e) {
            faults.set(fault, true);
            return Double.NaN;
        }
    }

    /** A key that cannot be read stays where it was; at first it counts as on, so that the pump runs. */
    private void readKey(Inputs in) {
        try {
            in.keyOn = ports.key().read();
            faults.set(RigFault.KEY_FAILED, false);
        } catch (PortException e) {
            in.keyOn |= !keyKnown;
            faults.set(RigFault.KEY_FAILED, true);
        }
        keyKnown = true;
    }

    /** A brake that is not known to be applied must not help. */
    private void readBrake(Inputs in) {
        try {
            in.brakeApplied = ports.brake().read();
            faults.set(RigFault.BRAKE_FAILED, false);
        } catch (PortException e) {
            in.brakeApplied = false;
            faults.set(RigFault.BRAKE_FAILED, true);
        }
    }

    private void readRange(Inputs in) {
        try {
            in.selectedRange = ports.range().read();
            faults.set(RigFault.RANGE_FAILED, false);
        } catch (PortException e) {
            in.selectedRange = null;
            faults.set(RigFault.RANGE_FAILED, true);
        }
    }
}

package linehold.rig.loop;

import linehold.controller.DrivePermission;
import linehold.controller.Range;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.Car;
import linehold.rig.port.InputPorts;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PortException;
import linehold.rig.port.PulseInput.Pulses;

/** A car whose wires a test pulls and reads. */
final class FakeCar implements Car {
    final Pulses pulses = new Pulses();
    double pressureSenderVolts = 1.5;
    boolean key = true;
    boolean brake;
    Range range = Range.DRIVE;
    /** Whatever is read or set now fails. */
    RigFault broken;

    boolean alive = true;
    int ticksLeft = Integer.MAX_VALUE;
    boolean mainCoil;
    boolean standbyCoil;
    DrivePermission permission;
    double torqueLimitNm;
    boolean lamp;
    boolean buzzer;
    boolean closed;

    @Override
    public InputPorts inputs() {
        return new InputPorts(
                into -> {
                    failIf(RigFault.PICKUP_FAILED);
                    into.count = pulses.count;
                    into.lastEdgeNs = pulses.lastEdgeNs;
                    into.lost = pulses.lost;
                },
                input(RigFault.PRESSURE_SENDER_FAILED, () -> pressureSenderVolts),
                input(RigFault.SENDER_SUPPLY_FAILED, () -> 5),
                input(RigFault.MAIN_CONTACT_FAILED, () -> 13),
                input(RigFault.STANDBY_CONTACT_FAILED, () -> 13),
                input(RigFault.PUMP_CURRENT_FAILED, () -> 10),
                input(RigFault.BUS_FAILED, () -> 13),
                input(RigFault.OIL_TEMPERATURE_FAILED, () -> 60),
                () -> {
                    failIf(RigFault.KEY_FAILED);
                    return key;
                },
                () -> {
                    failIf(RigFault.BRAKE_FAILED);
                    return brake;
                },
                () -> {
                    failIf(RigFault.RANGE_FAILED);
                    return range;
                },
                input(RigFault.TORQUE_REQUEST_FAILED, () -> 50));
    }

    private AnalogInput input(RigFault fault, AnalogInput port) {
        return () -> {
            failIf(fault);
            return port.read();
        };
    }

    private void failIf(RigFault fault) throws PortException {
        if (broken == fault) {
            throw new PortException("pulled");
        }
    }

    @Override
    public OutputPorts outputs() {
        return new OutputPorts(
                on -> {
                    failIf(RigFault.MAIN_COIL_FAILED);
                    mainCoil = on;
                },
                on -> {
                    failIf(RigFault.STANDBY_COIL_FAILED);
                    standbyCoil = on;
                },
                (allowed, limitNm) -> {
                    failIf(RigFault.PERMISSION_FAILED);
                    permission = allowed;
                    torqueLimitNm = limitNm;
                },
                on -> {
                    failIf(RigFault.LAMP_FAILED);
                    lamp = on;
                },
                on -> {
                    failIf(RigFault.BUZZER_FAILED);
                    buzzer = on;
                });
    }

    @Override
    public boolean alive() {
        return alive;
    }

    @Override
    public boolean begin(long nowNs) {
        return ticksLeft-- > 0;
    }

    @Override
    public void close() {
        closed = true;
    }
}

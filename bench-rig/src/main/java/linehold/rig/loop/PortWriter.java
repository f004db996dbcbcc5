package linehold.rig.loop;

import linehold.controller.DrivePermission;
import linehold.controller.Outputs;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PermissionOutput;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchOutput;

/** Sets the ports to what was decided. A port that fails is tried again at the next tick, and the others are still set. */
final class PortWriter {
    private final OutputPorts ports;
    private final RigFaults faults;
    private final boolean normallyClosed;

    PortWriter(OutputPorts ports, RigFaults faults, boolean normallyClosed) {
        this.ports = ports;
        this.faults = faults;
        this.normallyClosed = normallyClosed;
    }

    void write(Outputs out) {
        set(ports.mainCoil(), out.mainRelayCoil, RigFault.MAIN_COIL_FAILED);
        set(ports.standbyCoil(), out.standbyRelayCoil, RigFault.STANDBY_COIL_FAILED);
        permit(ports.permission(), out.permission, out.torqueLimitNm);
        set(ports.lamp(), out.warningLamp, RigFault.LAMP_FAILED);
        set(ports.buzzer(), out.buzzer, RigFault.BUZZER_FAILED);
    }

    /** The pump runs, drive is withheld, the lamp says so (LH-RL-6). */
    void safe() {
        set(ports.mainCoil(), !normallyClosed, RigFault.MAIN_COIL_FAILED);
        set(ports.standbyCoil(), false, RigFault.STANDBY_COIL_FAILED);
        permit(ports.permission(), DrivePermission.WITHHELD, 0);
        set(ports.lamp(), true, RigFault.LAMP_FAILED);
        set(ports.buzzer(), false, RigFault.BUZZER_FAILED);
    }

    private void set(SwitchOutput port, boolean on, RigFault fault) {
        try {
            port.set(on);
            faults.set(fault, false);
        } catch (PortException e) {
            faults.set(fault, true);
        }
    }

    private void permit(PermissionOutput port, DrivePermission permission, double torqueLimitNm) {
        try {
            port.set(permission, torqueLimitNm);
            faults.set(RigFault.PERMISSION_FAILED, false);
        } catch (PortException e) {
            faults.set(RigFault.PERMISSION_FAILED, true);
        }
    }
}

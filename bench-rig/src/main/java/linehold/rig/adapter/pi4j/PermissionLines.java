package linehold.rig.adapter.pi4j;

import linehold.controller.DrivePermission;
import linehold.rig.port.PermissionOutput;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchOutput;

/**
 * Drive permission on two lines, of which at most one is on; a broken wire withholds. A line cannot carry the limit in
 * N·m: what "reduced" allows is set in the motor controller.
 */
final class PermissionLines implements PermissionOutput {
    private final SwitchOutput granted;
    private final SwitchOutput reduced;

    PermissionLines(SwitchOutput granted, SwitchOutput reduced) {
        this.granted = granted;
        this.reduced = reduced;
    }

    /** The line that goes off is set first, so that both are never on; where one fails the other is still set. */
    @Override
    public void set(DrivePermission permission, double torqueLimitNm) throws PortException {
        boolean full = permission == DrivePermission.GRANTED;
        SwitchOutput off = full ? reduced : granted;
        SwitchOutput other = full ? granted : reduced;
        try {
            off.set(false);
        } finally {
            other.set(permission != DrivePermission.WITHHELD);
        }
    }
}

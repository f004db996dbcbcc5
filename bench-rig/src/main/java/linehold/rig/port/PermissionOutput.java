package linehold.rig.port;

import linehold.controller.DrivePermission;

/** What the motor may do. */
public interface PermissionOutput {
    /** Nothing listens. */
    PermissionOutput ABSENT = (permission, torqueLimitNm) -> {};

    /**
     * Called at every tick, also without a change.
     *
     * @param torqueLimitNm largest motor torque, N·m; infinite while granted, 0 while withheld
     * @throws PortException where the line has failed
     */
    void set(DrivePermission permission, double torqueLimitNm) throws PortException;
}

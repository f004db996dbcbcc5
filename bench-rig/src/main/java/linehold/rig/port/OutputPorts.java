package linehold.rig.port;

/** Where the controller's outputs go. */
public record OutputPorts(
        SwitchOutput mainCoil,
        SwitchOutput standbyCoil,
        PermissionOutput permission,
        SwitchOutput lamp,
        SwitchOutput buzzer) {}

package linehold.controller.switching;

/** Why the pump state changed; never blank. */
public enum SwitchReason {
    POWER_UP
}

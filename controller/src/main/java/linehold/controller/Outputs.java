package linehold.controller;

import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;

/**
 * Everything the controller decides at one tick (LH-TK-3). The caller owns one frame; each {@link Controller#step}
 * overwrites every field.
 */
public final class Outputs {
    /** Energise the coil of the main pump relay. What that does to the pump is a matter of polarity (LH-RL-6). */
    public boolean mainRelayCoil;
    /** Energise the coil of the standby pump relay. */
    public boolean standbyRelayCoil;

    public DrivePermission permission = DrivePermission.WITHHELD;
    /** Largest motor torque allowed, N·m; positive infinity while granted, 0 while withheld. */
    public double torqueLimitNm;

    public boolean warningLamp;
    public boolean buzzer;

    public PumpState state = PumpState.OFF;
    /** Why the pump is in {@link #state}: the reason of the last transition. */
    public SwitchReason reason = SwitchReason.POWER_UP;

    /** Active trouble codes, bit {@code TroubleCode.ordinal()}. */
    public long activeCodes;
    /** Stored trouble codes (active or past), bit {@code TroubleCode.ordinal()}. */
    public long storedCodes;

    /** Shaft speed as the controller sees it, rad/s, never negative: the pickup has no direction. */
    public double shaftSpeedRadPerS;
    /** Line pressure as the controller sees it, Pa gauge; NaN while no usable sender signal exists. */
    public double linePressurePa = Double.NaN;
    /** The controller wants the electric pump to run, whatever the wiring makes of the coil. */
    public boolean pumpWanted;
}

package linehold.controller;

import linehold.controller.safety.SelfTestState;
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

    /** Active trouble codes, bits of {@link linehold.controller.safety.TroubleCode}. */
    public long activeCodes;
    /** Stored trouble codes (active now or before), bits of {@link linehold.controller.safety.TroubleCode}. */
    public long storedCodes;

    /** Shaft speed as the controller sees it, rad/s, never negative: the pickup has no direction. */
    public double shaftSpeedRadPerS;
    /** Line pressure as the controller sees it, Pa gauge; NaN while no usable sender signal exists. */
    public double linePressurePa = Double.NaN;
    /**
     * A relay shall feed the electric pump, whatever the wiring makes of its coil. False also in the moments of PRIME in
     * which the relays are tested (LH-RL-5), and while a stalled pump rests (LH-RL-4).
     */
    public boolean pumpWanted;
    /** How far the key-on test of the relays is (LH-RL-5). Not done: the lamp stays on until the next key-on. */
    public SelfTestState selfTest = SelfTestState.NOT_DONE;

    /** Inputs that the calibration says this car lacks, bits of {@link OptionalInput} (LH-TK-2). */
    public int absentInputs;
    /** Steps that came later than two control periods since power-up (LH-TK-4). */
    public long lateTicks;
    /** Steps refused since power-up because time ran backward (LH-TK-4). */
    public long refusedTicks;
    /** Pickup edges rejected since power-up (LH-SP-2). */
    public long rejectedEdges;
    /** How often too many relay operations kept the pump on since power-up (LH-SW-8). */
    public long coolDowns;

    /** Overwrites this frame with another. */
    void copyFrom(Outputs other) {
        mainRelayCoil = other.mainRelayCoil;
        standbyRelayCoil = other.standbyRelayCoil;
        permission = other.permission;
        torqueLimitNm = other.torqueLimitNm;
        warningLamp = other.warningLamp;
        buzzer = other.buzzer;
        state = other.state;
        reason = other.reason;
        activeCodes = other.activeCodes;
        storedCodes = other.storedCodes;
        shaftSpeedRadPerS = other.shaftSpeedRadPerS;
        linePressurePa = other.linePressurePa;
        pumpWanted = other.pumpWanted;
        selfTest = other.selfTest;
        absentInputs = other.absentInputs;
        lateTicks = other.lateTicks;
        refusedTicks = other.refusedTicks;
        rejectedEdges = other.rejectedEdges;
        coolDowns = other.coolDowns;
    }
}

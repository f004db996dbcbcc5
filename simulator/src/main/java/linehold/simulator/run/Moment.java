package linehold.simulator.run;

import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;

/**
 * The true state of a run at one tick, after the controller has stepped, beside what the controller saw and decided. One
 * object per run, overwritten at every tick.
 */
public final class Moment {
    public double timeS;
    /** How long the drive has waited at standstill for drive to be granted, s in all; the drive is this much late. */
    public double waitedS;

    public double linePressurePa;
    /** Lowest line pressure since the tick before, Pa. */
    public double lowestPressurePa;
    /** Signed. */
    public double shaftRadPerS;
    /** Signed, rad/s². */
    public double shaftSlopeRadPerS2;

    public double motorTorqueNm;
    public double oilC;
    public boolean keyOn;
    public Gear gear = Gear.NEUTRAL;
    /** Commanded element; null if none. */
    public Element element;

    public Engagement engagement = Engagement.NONE;
    /** Time since the element was commanded, s; 0 if none is or it is engaged. */
    public double engagingS;
    /** Piston pressure of the commanded element, Pa; NaN if none. */
    public double elementPressurePa = Double.NaN;

    public double pumpRadPerS;
    public boolean contactClosed;

    public final Inputs inputs = new Inputs();
    public final Outputs outputs = new Outputs();
}

package linehold.rig.procedure;

import linehold.simulator.build.Display;

/**
 * One measured value, held against its limits.
 *
 * @param key stays the same from run to run
 * @param title what was measured
 * @param value SI (°C for a temperature); NaN where it could not be measured, which never passes
 * @param scale how it is shown, in the build's unit system
 * @param least lowest allowed; negative infinity for no limit
 * @param most highest allowed; positive infinity for no limit
 * @param sentence what the value means where it is out of its limits
 */
public record Finding(
        String key, String title, double value, Display.Scale scale, double least, double most, String sentence) {
    public boolean passes() {
        return !limited() || value >= least && value <= most;
    }

    public boolean limited() {
        return least > Double.NEGATIVE_INFINITY || most < Double.POSITIVE_INFINITY;
    }

    /** The value with its unit. */
    public String valueText() {
        return scale.text(value).strip();
    }

    /** The limits in words; empty for none. */
    public String limitText() {
        boolean low = least > Double.NEGATIVE_INFINITY;
        boolean high = most < Double.POSITIVE_INFINITY;
        if (low && high) {
            return (scale.number(least) + " to " + scale.text(most)).strip();
        }
        return (low ? "≥ " + scale.text(least) : high ? "≤ " + scale.text(most) : "").strip();
    }
}

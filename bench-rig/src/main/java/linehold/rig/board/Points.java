package linehold.rig.board;

/**
 * Straight lines between points.
 *
 * @param volts rising, V; at least two
 * @param values as many, SI (°C for a temperature)
 * @param goesOn whether the last lines go on beyond the ends; else what lies outside has no value
 */
public record Points(double[] volts, double[] values, boolean goesOn) implements Conversion {
    /** A little noise at an end is no broken wire: this share of the whole span is still taken, assumed. */
    private static final double SLACK = 0.01;

    @Override
    public double at(double at, double supplyVolts) {
        int last = volts.length - 1;
        double slack = SLACK * (volts[last] - volts[0]);
        if (!goesOn && !(at >= volts[0] - slack && at <= volts[last] + slack)) {
            return Double.NaN;
        }
        int right = 1;
        while (right < last && at > volts[right]) {
            right++;
        }
        int left = right - 1;
        double share = (at - volts[left]) / (volts[right] - volts[left]);
        return values[left] + share * (values[right] - values[left]);
    }
}

package linehold.rig.board;

/**
 * A resistor that falls with temperature, from the wire to ground, behind a pull-up to the senders' supply.
 *
 * <p>R = R_pull·V/(V_supply − V). Between two points ln R is a straight line over 1/T, which is the B-parameter equation
 * R = R₀·exp(B·(1/T − 1/T₀)) with the B that fits them (IEC 60539-1 defines B so).
 *
 * @param pullUpOhm Ω
 * @param oilC rising, °C; at least two
 * @param ohm falling, Ω; as many
 */
public record Thermistor(double pullUpOhm, double[] oilC, double[] ohm) implements Conversion {
    private static final double ZERO_C_IN_K = 273.15;
    /** How far beyond its last points a sender is still believed, as a factor of resistance; assumed. */
    private static final double BEYOND = 2;

    /** NaN also where the wire is open or shorted: its resistance then lies far outside the points. */
    @Override
    public double at(double volts, double supplyVolts) {
        double resistance = pullUpOhm * volts / (supplyVolts - volts);
        int last = ohm.length - 1;
        if (!(resistance <= ohm[0] * BEYOND && resistance >= ohm[last] / BEYOND)) {
            return Double.NaN;
        }
        int right = 1;
        while (right < last && resistance < ohm[right]) {
            right++;
        }
        int left = right - 1;
        double perLeft = 1 / (oilC[left] + ZERO_C_IN_K);
        double perRight = 1 / (oilC[right] + ZERO_C_IN_K);
        double share = Math.log(resistance / ohm[left]) / Math.log(ohm[right] / ohm[left]);
        return 1 / (perLeft + share * (perRight - perLeft)) - ZERO_C_IN_K;
    }
}

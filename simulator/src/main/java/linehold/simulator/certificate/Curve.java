package linehold.simulator.certificate;

/**
 * A curve of straight lines between points.
 *
 * @param timeS rising, s
 * @param linePa line pressure, Pa
 * @param pistonPa piston pressure of the engaged element, Pa
 * @param pumpRadPerS speed of the electric pump, rad/s
 */
public record Curve(double[] timeS, double[] linePa, double[] pistonPa, double[] pumpRadPerS) {
    public Curve {
        boolean sameLength =
                linePa.length == timeS.length && pistonPa.length == timeS.length && pumpRadPerS.length == timeS.length;
        if (!sameLength) {
            throw new IllegalArgumentException("a curve needs as many pressures and speeds as times");
        }
    }

    public int points() {
        return timeS.length;
    }

    public double endS() {
        return timeS[points() - 1];
    }

    /** Lowest line pressure, Pa; of straight lines it is that of a point. */
    public double lowestLinePa() {
        return lowest(linePa);
    }

    /** Lowest piston pressure, Pa. */
    public double lowestPistonPa() {
        return lowest(pistonPa);
    }

    private static double lowest(double[] values) {
        double least = Double.POSITIVE_INFINITY;
        for (double value : values) {
            least = Math.min(least, value);
        }
        return least;
    }
}

package linehold.simulator.build;

/**
 * How far a value of the build file may lie off from car to car, or off what was measured.
 *
 * @param key path of the key: {@code line.volume}
 * @param quantity what it measures
 * @param text as it stands in the file: {@code 0.60 L ± 10 %}
 * @param nominal the value itself, SI
 * @param low lowest value, SI
 * @param high highest value, SI
 */
public record Spread(String key, Quantity quantity, String text, double nominal, double low, double high) {
    public Spread {
        if (!(low < high && low <= nominal && nominal <= high)) {
            throw new IllegalArgumentException(key + " cannot lie between " + low + " and " + high);
        }
    }

    /** The value at a place between the ends: 0 is the low one, 1 the high one. */
    public double at(double place) {
        return low + (high - low) * place;
    }
}

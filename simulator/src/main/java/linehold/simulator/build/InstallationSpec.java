package linehold.simulator.build;

import java.util.Map;

/**
 * The parts around the electric pump as they are bought and fitted, as far as the build file gives them.
 *
 * @param values every quantity given or with a default, SI (a temperature in °C)
 * @param fuseType family of the fuse
 */
public record InstallationSpec(Map<InstallationKey, Double> values, FuseType fuseType) {

    /** Families of fuses, told apart because they open at different speeds. */
    public enum FuseType {
        /** Blade fuse of ordinary and small size. */
        BLADE,
        /** Large blade fuse, which opens more slowly. */
        HIGH_CURRENT_BLADE
    }

    public InstallationSpec {
        values = Map.copyOf(values);
    }

    public boolean has(InstallationKey key) {
        return values.containsKey(key);
    }

    /**
     * The value in SI.
     *
     * @throws IllegalStateException where the build file does not give it
     */
    public double si(InstallationKey key) {
        Double value = values.get(key);
        if (value == null) {
            throw new IllegalStateException(key.path() + " is not given");
        }
        return value;
    }
}

package linehold.simulator.build;

import java.util.List;

/** The spreads of a build, and the cars that lie within them. */
public final class Spreads {
    /** Of a build without spreads. */
    static final Spreads NONE = new Spreads(List.of(), null);

    private final List<Spread> all;
    private final BuildValues values;

    /**
     * @param all in the order of the keys
     * @param values what the file says
     */
    Spreads(List<Spread> all, BuildValues values) {
        this.all = List.copyOf(all);
        this.values = values;
    }

    public List<Spread> all() {
        return all;
    }

    /**
     * The car whose values are these instead of the nominal ones. Its control unit does not know of it: the calibration is
     * the one of the nominal build, also where it follows from the car, such as the sender's range or torque per pressure.
     */
    Build car(Build nominal, double[] si) {
        if (si.length != all.size()) {
            throw new IllegalArgumentException("found " + si.length + " values, expected " + all.size());
        }
        if (values == null) {
            return nominal;
        }
        BuildValues own = values.copy();
        for (int i = 0; i < si.length; i++) {
            own.replace(all.get(i).key(), si[i]);
        }
        return new BuildAssembly(own).car(nominal);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Spreads spreads && all.equals(spreads.all);
    }

    @Override
    public int hashCode() {
        return all.hashCode();
    }

    @Override
    public String toString() {
        return all.toString();
    }
}

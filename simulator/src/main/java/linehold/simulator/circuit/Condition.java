package linehold.simulator.circuit;

import linehold.simulator.build.Element;

/**
 * What is worn or broken in the circuit, beside the relays. Everything is healthy at first. Whoever changes a field of a
 * plant's condition says so with {@link Plant#conditionChanged}.
 */
public final class Condition {
    /** A valve that no longer does what the pressure asks of it. */
    public enum Valve {
        HEALTHY,
        STUCK_OPEN,
        STUCK_SHUT
    }

    public Valve checkValve = Valve.HEALTHY;
    public Valve regulator = Valve.HEALTHY;

    /** Slip of the electric pump over that of a new one. */
    public double electricSlipFactor = 1;
    /** Share of its displacement that the electric pump delivers: below 1 with a blocked suction, 0 when dry. */
    public double electricDelivery = 1;
    /** Slip of the internal pump over that of a new one. */
    public double internalSlipFactor = 1;
    /** Entrained air over that of the build file. */
    public double airFactor = 1;
    /** Leak of the line to the outside, Cd·A, m². */
    public double lineLeakM2;
    /** Leak of an apply element's seal, Cd·A, m², by {@link Element#ordinal}. */
    public final double[] sealLeakM2 = new double[Element.COUNT];

    /** The fuse of the pump's supply, upstream of both relays. */
    public boolean fuseBlown;
    /** A broken wire or brush between relay and pump motor. */
    public boolean motorOpen;
    /** The pump cannot turn. */
    public boolean motorStalled;
}

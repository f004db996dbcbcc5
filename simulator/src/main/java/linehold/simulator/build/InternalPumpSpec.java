package linehold.simulator.build;

/**
 * The transmission's own pump on the motor shaft.
 *
 * @param displacementM3PerRev displacement, m³/rev
 * @param slipM3 laminar slip coefficient S: Q = S·p/μ, m³
 * @param fillLimitRevPerS speed above which the pump no longer fills, rev/s; positive infinity for none
 */
public record InternalPumpSpec(double displacementM3PerRev, double slipM3, double fillLimitRevPerS) {}

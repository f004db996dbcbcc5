package linehold.simulator.window;

/**
 * How slow the shaft may turn with the internal pump alone, at one oil temperature. A speed is NaN where not even the
 * highest shaft speed makes the pressure.
 *
 * @param oilC oil temperature, °C
 * @param holdRadPerS lowest speed that keeps the hold pressure, rad/s
 * @param forwardRadPerS lowest speed that keeps the pressure for the largest torque forward, rad/s
 * @param reverseRadPerS the same in reverse, rad/s
 * @param handOverRadPerS lowest speed that makes the hand-over pressure, rad/s
 */
public record CarryPoint(
        double oilC, double holdRadPerS, double forwardRadPerS, double reverseRadPerS, double handOverRadPerS) {}

package linehold.simulator.window;

/**
 * From the shaft falling below the switch-on speed to the electric pump carrying the line, part by part, s. A part that
 * never ends (a pump that cannot make the flow) is positive infinity.
 *
 * @param oilC oil temperature, °C
 * @param busVolts open-circuit bus voltage, V
 * @param pickupS until the pickup's pulses can show it, teeth at their worst place
 * @param periodS until the controller's next tick
 * @param relayS until the contact closes
 * @param bounceS what bouncing adds
 * @param spinUpS until the pump, against the hold pressure, would deliver what leaks away at it without hose
 * @param hoseS what hose and check valve's resistance adds
 */
public record LeadTime(
        double oilC,
        double busVolts,
        double pickupS,
        double periodS,
        double relayS,
        double bounceS,
        double spinUpS,
        double hoseS) {
    /** From the command on: without pickup and tick. */
    public double afterCommandS() {
        return relayS + bounceS + spinUpS + hoseS;
    }

    public double totalS() {
        return pickupS + periodS + afterCommandS();
    }
}

package linehold.simulator.build;

/**
 * The pump relay.
 *
 * @param pullInS coil on to contact closed, s (a normally closed contact: coil off to contact closed)
 * @param dropOutS coil off to contact open, s
 * @param bounceS time after closing during which the contact bounces, s
 * @param contactResistanceOhm closed contact, Ω
 */
public record RelaySpec(double pullInS, double dropOutS, double bounceS, double contactResistanceOhm) {}

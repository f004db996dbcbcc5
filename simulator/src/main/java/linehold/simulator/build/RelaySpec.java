package linehold.simulator.build;

/**
 * The pump relay.
 *
 * @param pullInS coil energised to armature moved, s
 * @param dropOutS coil released to armature moved, s
 * @param bounceS time after closing during which the contact bounces, s
 * @param contactResistanceOhm closed contact, Ω
 */
public record RelaySpec(double pullInS, double dropOutS, double bounceS, double contactResistanceOhm) {
    /** The same relay seen from its normally closed contact: it closes when the coil is released. */
    public RelaySpec seenFromNormallyClosedContact() {
        return new RelaySpec(dropOutS, pullInS, bounceS, contactResistanceOhm);
    }
}

package linehold.simulator.size;

import linehold.simulator.build.Build;
import linehold.simulator.build.InstallationKey;
import linehold.simulator.build.InstallationSpec;

/**
 * How often the contact of the pump's relay can close. Up to its motor rating a contact lasts as often as its maker says
 * for the resistive rating; beyond it wear grows with the energy in the arc, L·i²/2.
 *
 * <pre>N·min(1, (0.2·I_contact/i)²)</pre>
 */
public final class ContactLife {
    /** Motor rating over resistive rating, the cautious end of 20 to 50 % (from memory, common practice). */
    static final double MOTOR_SHARE = 0.2;
    /** The other end: no motor should run at more. */
    static final double LARGEST_MOTOR_SHARE = 0.5;

    private ContactLife() {}

    /** Closings at the build's largest running current; NaN where the build file does not give the contact's rating. */
    public static double closings(Build build) {
        InstallationSpec installation = build.installation();
        if (!installation.has(InstallationKey.RELAY_CONTACT_RATING)) {
            return Double.NaN;
        }
        return closings(
                installation.si(InstallationKey.RELAY_RATED_OPERATIONS),
                installation.si(InstallationKey.RELAY_CONTACT_RATING),
                new Standing(build).largestRunningAmps());
    }

    static double closings(double ratedClosings, double contactAmps, double runningAmps) {
        double part = MOTOR_SHARE * contactAmps / runningAmps;
        return ratedClosings * Math.min(1, part * part);
    }
}

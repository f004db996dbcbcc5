package linehold.rig.adapter.mqtt;

/**
 * What runs here, for those who listen.
 *
 * @param release of this program
 * @param rig board or simulated drive, for people
 * @param buildName the build's
 * @param buildSha256 of the build file
 * @param calibrationChecksum of the controller's calibration
 * @param controlPeriodNs ns
 */
public record RigIdentity(
        String release,
        String rig,
        String buildName,
        String buildSha256,
        long calibrationChecksum,
        long controlPeriodNs) {}

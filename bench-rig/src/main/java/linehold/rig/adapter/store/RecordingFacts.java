package linehold.rig.adapter.store;

import linehold.controller.calibration.Calibration;
import linehold.controller.safety.StoredCodes;

/**
 * What a recording tells about itself, so that a replay needs nothing else.
 *
 * @param release of this program
 * @param buildName the build's
 * @param buildSha256 of the build file
 * @param rig board or simulated drive, for people
 * @param calibration the controller's, complete
 * @param codeLongs the controller's stored codes before its first step, as {@link StoredCodes#exportTo} gives them
 * @param codeDoubles the same
 */
public record RecordingFacts(
        String release,
        String buildName,
        String buildSha256,
        String rig,
        Calibration calibration,
        long[] codeLongs,
        double[] codeDoubles) {

    /** @param codes of a controller that has not stepped yet, after they were restored */
    public static RecordingFacts of(
            String release,
            String buildName,
            String buildSha256,
            String rig,
            Calibration calibration,
            StoredCodes codes) {
        long[] longs = new long[codes.exportedLongs()];
        double[] doubles = new double[codes.exportedDoubles()];
        codes.exportTo(longs, doubles);
        return new RecordingFacts(release, buildName, buildSha256, rig, calibration, longs, doubles);
    }
}

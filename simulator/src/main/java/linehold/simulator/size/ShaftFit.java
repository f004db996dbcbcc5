package linehold.simulator.size;

import linehold.simulator.build.InstallationKey;

/**
 * Two shafts that meet in one splined coupling between facing flanges; the coupling may slide until it meets a flange.
 *
 * <pre>end gap      g = S − a − b           S flange spacing, a and b how far the shafts stand out
 * play         c = S − L               L length of the coupling
 * engagement   e_a = min(a, a + L − S) coupling slid fully away from shaft a's flange; e_b likewise</pre>
 *
 * <p>Least values with every tolerance at its worst end: arithmetic, no statistics.
 */
final class ShaftFit {
    private final double spacing;
    private final double spacingTolerance;
    private final double motor;
    private final double motorTolerance;
    private final double transmission;
    private final double transmissionTolerance;
    private final double coupling;
    private final double couplingTolerance;

    /**
     * Takes its numbers from the build file.
     *
     * @param asInputs whether the line names them among its inputs; what is missing it names in any case
     */
    ShaftFit(Draft draft, boolean asInputs) {
        Reader reader = asInputs ? (key, name) -> draft.take(key, name, Measure.FIT) : (key, name) -> draft.need(key);
        spacing = reader.si(InstallationKey.FLANGE_SPACING, "S");
        spacingTolerance = reader.si(InstallationKey.FLANGE_TOLERANCE, "± S");
        motor = reader.si(InstallationKey.MOTOR_SHAFT, "a");
        motorTolerance = reader.si(InstallationKey.MOTOR_SHAFT_TOLERANCE, "± a");
        transmission = reader.si(InstallationKey.TRANSMISSION_SHAFT, "b");
        transmissionTolerance = reader.si(InstallationKey.TRANSMISSION_SHAFT_TOLERANCE, "± b");
        coupling = reader.si(InstallationKey.COUPLING_LENGTH, "L");
        couplingTolerance = reader.si(InstallationKey.COUPLING_LENGTH_TOLERANCE, "± L");
    }

    private interface Reader {
        double si(InstallationKey key, String name);
    }

    double endGapM() {
        return spacing - motor - transmission;
    }

    double leastEndGapM() {
        return endGapM() - spacingTolerance - motorTolerance - transmissionTolerance;
    }

    double playM() {
        return spacing - coupling;
    }

    double leastPlayM() {
        return playM() - spacingTolerance - couplingTolerance;
    }

    double leastMotorEngagementM() {
        return engagement(motor - motorTolerance);
    }

    double leastTransmissionEngagementM() {
        return engagement(transmission - transmissionTolerance);
    }

    /** Of the shaft that has less. */
    double leastEngagementM() {
        return Math.min(leastMotorEngagementM(), leastTransmissionEngagementM());
    }

    private double engagement(double leastShaftM) {
        double slidAway = leastShaftM + coupling - couplingTolerance - spacing - spacingTolerance;
        return Math.max(0, Math.min(leastShaftM, slidAway));
    }
}

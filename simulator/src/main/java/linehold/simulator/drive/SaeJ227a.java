package linehold.simulator.drive;

import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;

/**
 * Schedules of SAE J227a, Electric Vehicle Test Procedure (1976): accelerate, cruise, coast, brake, idle. The standard
 * gives the top speed and the five times; how the speed falls while coasting is the car's own. All figures from memory of
 * the standard.
 *
 * @param name short name of the drive
 * @param source where it comes from
 * @param topSpeedMPerS speed of the cruise
 * @param accelerateS time to reach it, s
 * @param cruiseS time at it, s
 * @param coastS time of coasting, s
 * @param brakeS time from the end of coasting to standstill, s
 * @param idleS time at standstill, s
 */
record SaeJ227a(
        String name,
        String source,
        double topSpeedMPerS,
        double accelerateS,
        double cruiseS,
        double coastS,
        double brakeS,
        double idleS) {
    /** How often a schedule is driven in a row (our choice; the standard repeats it until the battery is empty). */
    static final int REPEATS = 3;

    private static final double MPH_IN_M_PER_S = 0.44704;

    /** Schedule C: 30 mph (48 km/h), 80 s. */
    static final SaeJ227a C =
            new SaeJ227a("sae-j227a-c", "SAE J227a schedule C, three times", 30 * MPH_IN_M_PER_S, 18, 20, 8, 9, 25);
    /** Schedule D: 45 mph (72 km/h), 122 s. */
    static final SaeJ227a D =
            new SaeJ227a("sae-j227a-d", "SAE J227a schedule D, three times", 45 * MPH_IN_M_PER_S, 28, 50, 10, 9, 25);

    double cycleS() {
        return accelerateS + cruiseS + coastS + brakeS + idleS;
    }

    /** The drive of a car that follows the schedule three times, after the usual start. */
    RowDrive driveBy(CarSpec car, GearsSpec gears) {
        TripBuilder trip = TripBuilder.started(car, gears);
        for (int i = 0; i < REPEATS; i++) {
            trip.reach(topSpeedMPerS, accelerateS)
                    .cruise(cruiseS)
                    .coast(coastS)
                    .reach(0, brakeS)
                    .stand(idleS);
        }
        return trip.finish(name, source);
    }
}

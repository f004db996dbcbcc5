package linehold.simulator.drive;

import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;

/** Car and gears of the demonstration build, for tests that need no build file. */
public final class DemonstrationCar {
    public static final double RPM = 2 * Math.PI / 60;
    public static final CarSpec CAR = new CarSpec(1350, 0.31, 0.75, 0.012, 1.2, 260, 90, 40);
    public static final GearsSpec GEARS = new GearsSpec(1.82, 1.00, 1.82, 3.5, 2500 * RPM, 1100 * RPM, 0.4);

    private DemonstrationCar() {}
}

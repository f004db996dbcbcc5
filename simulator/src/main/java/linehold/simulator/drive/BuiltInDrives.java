package linehold.simulator.drive;

import java.util.ArrayList;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;

/** The drives that come with the program: published schedules, then invented manoeuvres. */
public final class BuiltInDrives {
    private BuiltInDrives() {}

    /** All of them for a build's car, in a fixed order. */
    public static List<RowDrive> all(Build build) {
        return all(build.car(), build.gears());
    }

    /** All of them for a car, in a fixed order. */
    public static List<RowDrive> all(CarSpec car, GearsSpec gears) {
        List<RowDrive> drives = new ArrayList<>();
        drives.add(EceR83.cycle().driveBy(car, gears));
        drives.add(SaeJ227a.C.driveBy(car, gears));
        drives.add(SaeJ227a.D.driveBy(car, gears));
        drives.addAll(new Manoeuvres(car, gears).all());
        return List.copyOf(drives);
    }
}

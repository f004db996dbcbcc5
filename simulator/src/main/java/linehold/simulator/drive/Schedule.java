package linehold.simulator.drive;

import java.util.List;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.GearsSpec;

/**
 * A published driving schedule: road speed by time, straight between its points.
 *
 * @param name short name of the drive
 * @param source the standard and where in it
 * @param points points in order of time, the first at 0 s; first and last at rest
 */
record Schedule(String name, String source, List<Point> points) {
    /** Road speed at a time: seconds since the start of the schedule, km/h. */
    record Point(double timeS, double speedKmH) {}

    private static final double M_PER_S_IN_KM_H = 1 / 3.6;

    Schedule {
        points = List.copyOf(points);
    }

    double durationS() {
        return points.get(points.size() - 1).timeS();
    }

    double distanceM() {
        double sum = 0;
        for (int i = 1; i < points.size(); i++) {
            Point a = points.get(i - 1);
            Point b = points.get(i);
            sum += (b.timeS() - a.timeS()) * (a.speedKmH() + b.speedKmH()) / 2 * M_PER_S_IN_KM_H;
        }
        return sum;
    }

    /** The drive of a car that follows the schedule, after the usual start (key on, drive selected, 10 s in all). */
    RowDrive driveBy(CarSpec car, GearsSpec gears) {
        TripBuilder trip = TripBuilder.started(car, gears);
        for (int i = 1; i < points.size(); i++) {
            trip.reach(
                    points.get(i).speedKmH() * M_PER_S_IN_KM_H,
                    points.get(i).timeS() - points.get(i - 1).timeS());
        }
        return trip.finish(name, source);
    }
}

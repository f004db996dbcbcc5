package linehold.simulator.drive;

import static linehold.simulator.drive.DemonstrationCar.CAR;
import static linehold.simulator.drive.DemonstrationCar.GEARS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import linehold.simulator.build.Gear;
import linehold.simulator.drivetrain.Kinematics;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Two dynamometer schedules of the US EPA (40 CFR part 86 appendix I), read as logs, where their tables are at hand.
 * Published: UDDS 1369 s and 7.4504 mi, HWFET 765 s and 10.2567 mi.
 */
class PublishedLogReferenceTest {
    private static final double MILE_M = 1609.344;

    @TempDir
    Path folder;

    @Test
    void shouldCoverThePublishedDistanceOfUdds() throws IOException {
        check("udds.csv", 1369, 7.4504);
    }

    @Test
    void shouldCoverThePublishedDistanceOfHwfet() throws IOException {
        check("hwfet.csv", 765, 10.2567);
    }

    private void check(String name, double seconds, double miles) throws IOException {
        Path root = Path.of(System.getProperty("linehold.root", ".."));
        Path table = root.resolve("../shared/drives").resolve(name);
        Assumptions.assumeTrue(Files.exists(table), "the table " + name + " of the US EPA is not at hand");
        Path log = Files.copy(table, folder.resolve(name));
        Files.writeString(
                LogMappingReader.besideLog(log),
                "columns: {time: time_s, road-speed: {column: speed_mph, unit: mph}}\nmax-gap: 1.5 s\n");

        LogDrive drive = LogDrive.of(log, CAR, GEARS);
        List<DriveSample> rows = DriveRows.of(drive);
        assertThat(rows.get(rows.size() - 1).timeS).isEqualTo(LogReader.START_S + seconds);
        Kinematics kinematics = new Kinematics(CAR, GEARS);
        double distanceM = 0;
        for (int i = 1; i < rows.size(); i++) {
            DriveSample a = rows.get(i - 1);
            DriveSample b = rows.get(i);
            // A gear change bends the shaft speed, not the road speed: take the gear that is in at both ends.
            double va = roadSpeed(kinematics, a, i > 1 ? rows.get(i - 2).gear : a.gear);
            double vb = roadSpeed(kinematics, b, a.gear);
            distanceM += (va + vb) / 2 * (b.timeS - a.timeS);
        }
        assertThat(distanceM / MILE_M).isCloseTo(miles, within(1e-3 * miles));
        assertThat(rows).anyMatch(r -> r.gear == Gear.TOP);
    }

    /** At the row where a change starts the shaft still turns as the gear before wants it. */
    private static double roadSpeed(Kinematics kinematics, DriveSample row, Gear gearBefore) {
        return kinematics.roadSpeedMPerS(row.shaftSpeedRadPerS, gearBefore);
    }
}

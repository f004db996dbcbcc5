package linehold.simulator.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class DrivesCommandTest {
    @TempDir
    Path folder;

    private final StringWriter printed = new StringWriter();

    private int run(String... args) {
        return new CommandLine(new DrivesCommand())
                .setOut(new PrintWriter(printed, true))
                .execute(args);
    }

    @Test
    void shouldListEveryDriveWithDurationDistanceTopSpeedAndSource() {
        assertThat(run()).isZero();
        assertThat(printed.toString().lines()).hasSize(12);
        // 1180 s of schedule, 10 s before and 4 s after; 11.028 km as the corner points integrate
        assertThat(printed.toString())
                .containsPattern("ece-r83 +1194\\.0 +11\\.028 +3594  UN ECE R83 annex 4a")
                .containsPattern("panic-stop-ice-slow +\\d");
    }

    @Test
    void shouldListMilesWhereAsked() {
        assertThat(run("--units", "us")).isZero();
        assertThat(printed.toString()).containsPattern("ece-r83 +1194\\.0 +6\\.853 ");
    }

    @Test
    void shouldExportADrive() throws IOException {
        Path file = folder.resolve("parking.csv");
        assertThat(run("--export", "parking", file.toString())).isZero();
        assertThat(Files.readAllLines(file))
                .startsWith(
                        "time_s,motor_speed_rpm,motor_torque_nm,range,gear,brake,key,oil_c,bus_v",
                        "0.0,0.0,0.0,P,N,1,1,,");
        assertThat(printed.toString()).startsWith("written: ").endsWith(" rows" + System.lineSeparator());
    }
}

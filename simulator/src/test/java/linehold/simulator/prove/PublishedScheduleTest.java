package linehold.simulator.prove;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.LogDrive;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The US EPA dynamometer schedules (40 CFR part 86, appendix I) as road-speed logs: ordinary driving, in which both
 * shipped builds must hold at every temperature, and in which no check may cry wolf. Cold creeping once did: 60 rpm hold
 * 10 bar in oil of −20 °C, which looked like an internal pump at work without pulses.
 */
class PublishedScheduleTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"udds", "hwfet"})
    void shouldHoldInOrdinaryDrivingWithoutATroubleCode(String name) throws IOException {
        Path table = Path.of(System.getProperty("linehold.root", "..")).resolve("../shared/drives/" + name + ".csv");
        assumeTrue(Files.exists(table), () -> "skipped: the schedule " + name + ".csv is not beside this checkout");
        Path log = folder.resolve(name + ".csv");
        Files.copy(table, log);
        Files.writeString(
                folder.resolve(name + ".map.yaml"),
                "columns:\n  time: {column: time_s, unit: s}\n  road-speed: {column: speed_mps, unit: m/s}\n");
        for (String shipped : List.of("demonstration", "rule-of-thumb")) {
            Build build = BuildFile.loadNamed(shipped);
            Verdict verdict = new Prover(build, 1)
                    .prove(
                            Prover.grid(
                                    List.of(LogDrive.of(log, build)),
                                    build.limits().oilTemperaturesC()),
                            () -> {});
            assertThat(verdict.runs()).allSatisfy(run -> {
                assertThat(run.losses()).as("%s, %s °C", shipped, run.oilC()).isEmpty();
                assertThat(run.codes()).as("%s, %s °C", shipped, run.oilC()).isEmpty();
            });
        }
    }
}

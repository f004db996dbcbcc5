package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.data.Percentage.withPercentage;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.List;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.rig.adapter.store.Recorder;
import linehold.rig.adapter.store.Recording;
import linehold.rig.adapter.store.RecordingLimits;
import linehold.rig.adapter.store.Recordings;
import linehold.rig.adapter.store.TestRig;
import linehold.simulator.build.Builds;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.Drives;
import linehold.simulator.drive.LogDrive;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReplayTest {
    @TempDir
    private Path folder;

    private void record(TestRig rig, String drive, List<Fault> faults, long mostTicks) {
        try (Recorder recorder =
                Recorder.open(folder, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT)) {
            recorder.start();
            rig.drive(drive, faults, mostTicks);
        }
    }

    private Replay.Outcome replay(long id) {
        try (Recording recording = new Recordings(folder).open(id)) {
            return Replay.of(recording);
        }
    }

    private void change(long id, String... statements) throws Exception {
        Path file = folder.resolve(String.format("%06d.lhrec", id));
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement()) {
            for (String sql : statements) {
                statement.execute(sql);
            }
        }
    }

    @Test
    void shouldDecideBitForBitWhatWasRecorded() {
        record(new TestRig(), "stop-and-go", List.of(), 8000);
        Replay.Outcome outcome = replay(1);
        assertThat(outcome.difference()).isNull();
        assertThat(outcome.ticks()).isEqualTo(8000);
        assertThat(outcome.identical()).isTrue();
    }

    @Test
    void shouldDecideTheSameWithFaultsAndWithCodesFromBefore() {
        TestRig first = new TestRig();
        record(first, "stop-and-go", List.of(Fault.usual(FaultKind.SENDER_OPEN, 20)), 8000);
        assertThat(first.controller.storedCodes().stored() & TroubleCode.SENDER_LOST.bit())
                .isNotZero();
        assertThat(replay(1).identical()).isTrue();

        TestRig second = new TestRig();
        long[] longs = new long[first.controller.storedCodes().exportedLongs()];
        double[] doubles = new double[first.controller.storedCodes().exportedDoubles()];
        first.controller.storedCodes().exportTo(longs, doubles);
        second.controller.storedCodes().importFrom(longs, doubles);
        record(second, "parking", List.of(), 3000);
        assertThat(replay(2).identical()).as(replay(2).difference()).isTrue();
    }

    @Test
    void shouldTellTheFirstTickThatDiffers() throws Exception {
        record(new TestRig(), "stop-and-go", List.of(), 8000);
        change(
                1,
                "UPDATE calibration SET value = value * 1.2 WHERE key = 'switch-off-speed'",
                "UPDATE fact SET value = 'x' WHERE name = 'calibration_checksum'");
        assertThatThrownBy(() -> replay(1)).isInstanceOf(InputException.class);

        var changed = Builds.demonstration().calibration().toBuilder()
                .set(Key.SWITCH_OFF_SPEED, Builds.demonstration().calibration().get(Key.SWITCH_OFF_SPEED) * 1.2)
                .build();
        change(1, "UPDATE fact SET value = '" + changed.checksum() + "' WHERE name = 'calibration_checksum'");
        Replay.Outcome outcome = replay(1);
        assertThat(outcome.identical()).isFalse();
        assertThat(outcome.ticks()).isBetween(1L, 7999L);
        assertThat(outcome.difference())
                .startsWith("tick " + outcome.ticks() + ": ")
                .contains("was recorded as");
    }

    @Test
    void shouldNotReplayAcrossAGapNorWithoutTheBeginning() throws Exception {
        record(new TestRig(), "parking", List.of(), 2000);
        change(1, "DELETE FROM block WHERE first_tick BETWEEN 500 AND 1000");
        Replay.Outcome outcome = replay(1);
        assertThat(outcome.identical()).isFalse();
        assertThat(outcome.difference()).isNull();
        assertThat(outcome.ticks()).isBetween(400L, 700L);
        assertThat(outcome.gap()).isPositive();

        change(1, "DELETE FROM block WHERE first_tick = 0");
        assertThatThrownBy(() -> replay(1)).isInstanceOf(InputException.class).hasMessageContaining("are not kept");
        change(1, "DELETE FROM block");
        assertThatThrownBy(() -> replay(1)).isInstanceOf(InputException.class).hasMessageContaining("no ticks");
    }

    @Test
    void shouldRefuseToReplayRowsOfAnotherRelease() throws Exception {
        record(new TestRig(), "parking", List.of(), 400);
        change(1, "UPDATE field SET choices = 'OFF PRIME RUN' WHERE name = 'state'");
        assertThatThrownBy(() -> replay(1))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("replay it with the release that made it");
    }

    @Test
    void shouldExportADriveThatReadsBackAsItWas() {
        TestRig rig = new TestRig();
        record(rig, "stop-and-go", List.of(), 8000);
        Path csv = folder.resolve("drive.csv");
        try (Recording recording = new Recordings(folder).open(1)) {
            assertThat(RecordingCsv.writeDrive(recording, csv)).isEqualTo(8000);
        }
        DriveSample logged = new DriveSample();
        DriveSample driven = new DriveSample();
        DriveSample next = new DriveSample();
        try (DriveReader log = LogDrive.of(csv, rig.build).open();
                DriveReader drive = Drives.resolve("stop-and-go", rig.build).open()) {
            drive.read(driven);
            drive.read(next);
            int compared = 0;
            while (log.read(logged)) {
                while (next.timeS <= logged.timeS) {
                    driven.copyFrom(next);
                    drive.read(next);
                }
                double share = (logged.timeS - driven.timeS) / (next.timeS - driven.timeS);
                double speed = driven.shaftSpeedRadPerS + share * (next.shaftSpeedRadPerS - driven.shaftSpeedRadPerS);
                assertThat(logged.keyOn).isEqualTo(driven.keyOn);
                assertThat(logged.range).isEqualTo(driven.range);
                if (speed > 50) {
                    // The pickup is read once a tick and knows the last whole tooth.
                    assertThat(logged.shaftSpeedRadPerS).isCloseTo(speed, withPercentage(5));
                    compared++;
                }
            }
            assertThat(compared).isGreaterThan(1000);
        }
    }

    @Test
    void shouldExportEveryFieldOfEveryTick() throws Exception {
        TestRig rig = new TestRig();
        record(rig, "stop-and-go", List.of(), 500);
        Path csv = folder.resolve("ticks.csv");
        try (Recording recording = new Recordings(folder).open(1)) {
            RecordingCsv.writeTicks(recording, csv);
        }
        List<String> lines = Files.readAllLines(csv);
        assertThat(lines).hasSize(501);
        assertThat(lines.get(0))
                .startsWith("tick,now_ns,late_ns,rig_faults,pickup_edge_count,")
                .endsWith(",cool_downs");
        assertThat(lines.get(500)).startsWith("499,").contains(",PARK,").contains(",ELECTRIC,PRIMED,");
        assertThat(lines.get(500).split(",", -1)).hasSameSizeAs(lines.get(0).split(",", -1));
    }
}

package linehold.rig.adapter.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.SplittableRandom;
import linehold.controller.Controller;
import linehold.controller.safety.FrozenValue;
import linehold.controller.safety.StoredCodes;
import linehold.controller.safety.TroubleCode;
import linehold.rig.loop.RigFault;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CodeKeeperTest {
    private static final Instant NOON = Instant.parse("2026-06-01T12:00:00Z");
    private static final long HOUR_NS = 3_600_000_000_000L;

    @TempDir
    private Path folder;

    private final TestRig rig = new TestRig();

    private Path file() {
        return folder.resolve("codes.bin");
    }

    private void driveAndLosePower() {
        try (CodeKeeper keeper = new CodeKeeper(file(), rig.faults, InstantSource.fixed(NOON))) {
            keeper.restore(rig.controller.storedCodes(), 0);
            keeper.start(rig.codes);
            rig.drive("stop-and-go", List.of(Fault.usual(FaultKind.SENDER_OPEN, 5)), 2000);
        }
    }

    private StoredCodes restored(Instant wall, long rigNowNs) {
        Controller controller = new Controller(rig.build.calibration());
        new CodeKeeper(file(), rig.faults, InstantSource.fixed(wall)).restore(controller.storedCodes(), rigNowNs);
        return controller.storedCodes();
    }

    @Test
    void shouldGiveBackCodesTheirCountsAndTheirFreezeFrames() {
        driveAndLosePower();
        StoredCodes before = rig.controller.storedCodes();
        assertThat(before.stored() & TroubleCode.SENDER_LOST.bit()).isNotZero();
        StoredCodes after = restored(NOON, 0);
        assertThat(after.stored()).isEqualTo(before.stored());
        assertThat(after.count(TroubleCode.SENDER_LOST)).isEqualTo(before.count(TroubleCode.SENDER_LOST));
        for (FrozenValue value : FrozenValue.values()) {
            assertThat(after.frozen(TroubleCode.SENDER_LOST, value))
                    .isEqualTo(Double.valueOf(before.frozen(TroubleCode.SENDER_LOST, value)));
        }
        assertThat(rig.faults.bits()).isZero();
    }

    @Test
    void shouldTellHowLongAgoACodeWasOnAClockThatBeganAnew() throws IOException {
        driveAndLosePower();
        CodeFile.Content kept = new CodeFile(file()).read();
        long agoNs = kept.rigNs() - rig.controller.storedCodes().firstNs(TroubleCode.SENDER_LOST);
        long rigNowNs = 7_000_000_000L;
        StoredCodes after = restored(NOON.plusSeconds(3600), rigNowNs);
        assertThat(rigNowNs - after.firstNs(TroubleCode.SENDER_LOST)).isEqualTo(agoNs + HOUR_NS);

        StoredCodes withoutBatteryClock = restored(Instant.EPOCH, rigNowNs);
        assertThat(rigNowNs - withoutBatteryClock.firstNs(TroubleCode.SENDER_LOST))
                .as("never in the future")
                .isEqualTo(agoNs);
    }

    @Test
    void shouldAlwaysFindOneWholePlaceHoweverTheOtherIsTorn() throws IOException {
        for (long seed = 1; seed <= 100; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Path path = folder.resolve("codes" + seed);
            int writes = 1 + random.nextInt(5);
            CodeFile file = new CodeFile(path);
            byte[] before = null;
            for (int n = 1; n <= writes; n++) {
                before = n == writes && writes > 1 ? Files.readAllBytes(path) : before;
                file.write(n, n, new long[] {n, -n}, new double[] {n * 0.1, Double.NaN});
            }
            if (writes == 1) {
                continue;
            }
            byte[] after = Files.readAllBytes(path);
            // Sectors of the last write reach the medium in any order, or do not.
            for (int at = 0; at < after.length; at += 512) {
                if (random.nextBoolean()) {
                    System.arraycopy(before, at, after, at, 512);
                }
            }
            Files.write(path, after);
            CodeFile.Content found = new CodeFile(path).read();
            assertThat(found.sequence()).as("seed " + seed).isBetween(writes - 1L, (long) writes);
            assertThat(found.longs()).containsExactly(found.sequence(), -found.sequence());
            assertThat(found.doubles()).containsExactly(found.sequence() * 0.1, Double.NaN);
        }
    }

    @Test
    void shouldBeginAnewWithoutAFileAndSaySoWhereItCannotBeUsed() throws IOException {
        assertThat(restored(NOON, 0).stored()).isZero();
        assertThat(rig.faults.bits()).isZero();

        Files.write(file(), new byte[100]);
        assertThat(restored(NOON, 0).stored()).isZero();

        Files.delete(file());
        Files.createDirectory(file());
        assertThat(restored(NOON, 0).stored()).isZero();
        assertThat(rig.faults.bits()).isEqualTo(RigFault.CODES_NOT_KEPT.bit());
    }
}

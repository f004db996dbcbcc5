package linehold.simulator.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.circuit.VolumeBalance;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ClosedLoopTest {
    private final Build build = BuildFile.loadNamed("demonstration");

    private static Drive drive(Build build, String name) {
        return BuiltInDrives.all(build).stream()
                .filter(drive -> drive.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void shouldConserveOilOverADrive() {
        for (double oilC : new double[] {-20, 60, 120}) {
            RunTotals totals = new ClosedLoop(build, oilC, 1).run(drive(build, "parking"), moment -> true);
            VolumeBalance volume = totals.volume();
            assertThat(volume.errorM3(0) / (volume.internalM3() + volume.electricM3()))
                    .as("%s °C", oilC)
                    .isCloseTo(0, within(1e-9));
        }
    }

    @Test
    void shouldWriteTheSameRunToTheLastDigit(@TempDir Path folder) throws IOException {
        Path first = folder.resolve("a.csv");
        Path second = folder.resolve("b.csv");
        for (Path file : new Path[] {first, second}) {
            RunCsv.write(file, csv -> new ClosedLoop(build, 100, 7).run(drive(build, "panic-stop-ice-slow"), csv));
        }
        assertThat(Files.mismatch(first, second)).isEqualTo(-1);
    }

    @Test
    void shouldHearOtherNoiseFromAnotherSeed() {
        double[] volts = new double[2];
        for (int seed = 0; seed < 2; seed++) {
            int index = seed;
            new ClosedLoop(build, 100, seed).run(drive(build, "hill-hold"), moment -> {
                volts[index] = moment.inputs.pressureSenderVolts;
                return moment.timeS < 5;
            });
        }
        assertThat(volts[0]).isNotEqualTo(volts[1]);
    }

    @Test
    void shouldTickOncePerControlPeriodToTheEndOfTheDrive() {
        AtomicInteger ticks = new AtomicInteger();
        RunTotals totals = new ClosedLoop(build, 60, 1).run(drive(build, "hill-hold"), moment -> {
            assertThat(moment.timeS).isCloseTo(ticks.get() * 0.005, within(1e-9));
            ticks.incrementAndGet();
            return true;
        });
        // The drive ends on a tick or just before it, as rounding has it.
        assertThat(ticks.get() - totals.durationS() / 0.005).isBetween(-0.001, 1.001);
    }

    @Test
    void shouldEndWhereTheListenerHasSeenEnough() {
        RunTotals totals = new ClosedLoop(build, 60, 1).run(drive(build, "ece-r83"), moment -> moment.timeS < 4.9975);
        assertThat(totals.durationS()).isCloseTo(5, within(1e-6));
    }

    @Test
    void shouldRunThePumpThroughANormallyClosedContactBeforeTheFirstTick() {
        Build closed = TestBuilds.demonstration();
        assertThat(closed.calibration().get(Key.NORMALLY_CLOSED_CONTACT)).isEqualTo(1);
        new ClosedLoop(closed, 60, 1).run(drive(closed, "hill-hold"), moment -> {
            assertThat(moment.contactClosed).isTrue();
            assertThat(moment.outputs.mainRelayCoil).isFalse();
            return moment.timeS < 0.1; // then the shaft is known to stand, and the relay is tested
        });
    }

    @Test
    void shouldCloseANormallyClosedContactAfterTheDropOutTime() {
        // The coil is released below the switch-on speed; the contact then closes after 8 ms, not after 12 ms.
        Build closed = TestBuilds.demonstration();
        double[] asked = {Double.NaN};
        double[] moved = {Double.NaN};
        new ClosedLoop(closed, 60, 1).run(drive(closed, "panic-stop-dry-slow"), moment -> {
            boolean afterHandOver = moment.timeS > 18 && !Double.isNaN(moment.timeS);
            if (afterHandOver && Double.isNaN(asked[0]) && moment.outputs.pumpWanted) {
                asked[0] = moment.timeS;
            }
            if (!Double.isNaN(asked[0]) && moment.contactClosed) {
                moved[0] = moment.timeS;
            }
            return Double.isNaN(moved[0]);
        });
        assertThat(moved[0] - asked[0]).isCloseTo(0.010, within(1e-9));
    }

    @Test
    void shouldKeepAWholeRunInBoundedSlotsWithItsExtremes() {
        OverviewRecorder recorder = new OverviewRecorder(0.005);
        double[] lowest = {Double.POSITIVE_INFINITY};
        double[] fastest = {0};
        new ClosedLoop(build, 60, 1).run(drive(build, "ece-r83"), moment -> {
            lowest[0] = Math.min(lowest[0], moment.lowestPressurePa);
            fastest[0] = Math.max(fastest[0], moment.shaftRadPerS);
            return recorder.tick(moment);
        });
        Overview overview = recorder.overview();
        assertThat(overview.pressureMinPa().length).isBetween(400, 800);
        assertThat(java.util.Arrays.stream(overview.pressureMinPa()).min()).hasValue(lowest[0]);
        assertThat(java.util.Arrays.stream(overview.speedMaxRadPerS()).max()).hasValue(fastest[0]);
        assertThat(java.util.Arrays.stream(overview.pumpOnShare()).allMatch(share -> share >= 0 && share <= 1))
                .isTrue();
    }

    @Test
    void shouldWaitAtStandstillWhileDriveIsWithheldAndGoOnWhenItIsGranted() {
        // The bus drops out for 2.4 s before the car would pull away: pressure is gone, drive withheld.
        Fault dropOut = new Fault(FaultKind.BUS_DROPOUT, 9, 11.4, Double.NaN);
        double[] movesAtS = {Double.NaN};
        double[] waitedS = {0};
        new ClosedLoop(build, 60, 1, List.of(dropOut)).withPatience(10).run(drive(build, "stop-and-go"), moment -> {
            if (moment.shaftRadPerS > 0 && Double.isNaN(movesAtS[0])) {
                movesAtS[0] = moment.timeS;
                waitedS[0] = moment.waitedS;
                assertThat(moment.outputs.permission).isNotEqualTo(DrivePermission.WITHHELD);
            }
            if (moment.waitedS > 0 && moment.shaftRadPerS == 0 && moment.timeS < 11.4) {
                assertThat(moment.inputs.torqueRequestNm).isZero();
            }
            return Double.isNaN(movesAtS[0]);
        });
        assertThat(movesAtS[0]).isBetween(11.4, 14.0);
        assertThat(movesAtS[0] - waitedS[0]).as("as late as it has waited").isCloseTo(10, within(0.011));
    }

    @Test
    void shouldEndARunWhoseDriverIsRefusedForTooLong() {
        Fault dead = Fault.usual(FaultKind.UNIT_DEAD, 9);
        RunTotals totals = new ClosedLoop(build, 60, 1, List.of(dead))
                .withPatience(4)
                .run(drive(build, "stop-and-go"), moment -> {
                    assertThat(moment.shaftRadPerS).isZero();
                    return true;
                });
        assertThat(totals.durationS()).isBetween(13.0, 15.0);
    }

    @Test
    void shouldDriveOnRegardlessWithoutPatience() {
        Fault dead = Fault.usual(FaultKind.UNIT_DEAD, 9);
        boolean[] moved = {false};
        new ClosedLoop(build, 60, 1, List.of(dead)).run(drive(build, "stop-and-go"), moment -> {
            moved[0] |= moment.shaftRadPerS > 0;
            return !moved[0];
        });
        assertThat(moved[0]).isTrue();
    }
}

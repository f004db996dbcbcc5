package linehold.simulator.prove;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.report.VerdictJson;
import org.junit.jupiter.api.Test;

class ProverTest {
    private static Verdict proved(Build build, List<Drive> drives, Double... oilC) {
        return new Prover(build, 1)
                .prove(
                        Prover.grid(drives, oilC.length == 0 ? build.limits().oilTemperaturesC() : List.of(oilC)),
                        () -> {});
    }

    private static List<Drive> all(Build build) {
        return List.copyOf(BuiltInDrives.all(build));
    }

    private static List<Drive> named(Build build, String name) {
        return all(build).stream().filter(drive -> drive.name().equals(name)).toList();
    }

    private static RunVerdict run(Build build, String drive, double oilC) {
        return proved(build, named(build, drive), oilC).runs().get(0);
    }

    @Test
    void shouldHoldTheDemonstrationBuildOnEveryDriveAtEveryTemperature() {
        Build build = BuildFile.loadNamed("demonstration");
        Verdict verdict = proved(build, all(build));
        assertThat(verdict.runs().stream().filter(run -> !run.held()).map(run -> run.drive() + run.losses()))
                .isEmpty();
        assertThat(verdict.runs()).hasSize(all(build).size() * 5);
    }

    @Test
    void shouldLoseTheRuleOfThumbInHotLockedWheelStopsAndInNothingElse() {
        Build build = BuildFile.loadNamed("rule-of-thumb");
        Verdict verdict = proved(build, all(build));
        List<RunVerdict> lost =
                verdict.runs().stream().filter(run -> !run.held()).toList();
        assertThat(lost).isNotEmpty().allSatisfy(run -> {
            assertThat(run.drive()).startsWith("panic-stop");
            assertThat(run.oilC()).isGreaterThanOrEqualTo(60);
            assertThat(run.losses().get(0).criterion()).isEqualTo(Criterion.PRESSURE_LOST);
            assertThat(run.losses().get(0).cause()).contains("spinning up", "1 pulse per revolution");
        });
        assertThat(lost.stream().map(RunVerdict::drive).collect(Collectors.toSet()))
                .contains("panic-stop-dry-slow", "panic-stop-ice-slow");
    }

    @Test
    void shouldGiveTheSameBytesForTheSameInput() {
        Build build = BuildFile.loadNamed("rule-of-thumb");
        List<Drive> drives = named(build, "panic-stop-ice-slow");
        assertThat(VerdictJson.toBytes(proved(build, drives))).isEqualTo(VerdictJson.toBytes(proved(build, drives)));
    }

    @Test
    void shouldJudgeARunTheSameWhateverRunsBesideIt() {
        Build build = BuildFile.loadNamed("demonstration");
        RunVerdict beside = proved(build, all(build), 20.0, 120.0).runs().stream()
                .filter(run -> run.drive().equals("hill-hold") && run.oilC() == 120)
                .findFirst()
                .orElseThrow();
        RunVerdict alone = run(build, "hill-hold", 120);
        assertThat(alone.settledPressureMinPa()).isEqualTo(beside.settledPressureMinPa());
        assertThat(alone.pumpEnergyJ()).isEqualTo(beside.pumpEnergyJ());
        assertThat(alone.weakest()).isEqualTo(beside.weakest());
    }

    @Test
    void shouldGiveTheWeakestRunOfEachDriveItsCloseUp() {
        Build build = BuildFile.loadNamed("rule-of-thumb");
        List<RunVerdict> runs =
                proved(build, named(build, "panic-stop-dry-slow")).runs();
        assertThat(runs.stream().filter(run -> run.closeUp() != null).map(RunVerdict::oilC))
                .containsExactly(120.0);
        RunVerdict worst = runs.get(runs.size() - 1);
        double[] pressures = worst.closeUp().linePressurePa();
        assertThat(java.util.Arrays.stream(pressures).min().orElseThrow()).isEqualTo(worst.engagedPressureMinPa());
        double[] times = worst.closeUp().timeS();
        assertThat(times[times.length - 1] - times[0]).isBetween(1.99, 2.01);
    }

    @Test
    void shouldNameAPumpThatIsTooSmallToPrime() {
        Build weak = EditedBuild.of("displacement: 3.0 cm3/rev", "displacement: 0.5 cm3/rev");
        RunVerdict run = run(weak, "stop-and-go", 120);
        assertThat(run.held()).isFalse();
        assertThat(run.losses().get(0).criterion()).isEqualTo(Criterion.NEVER_PRIMED);
        // It is the internal pump that fills the line, once the car moves.
        assertThat(run.primedAtS()).isGreaterThan(10);
    }

    @Test
    void shouldNameAnEngagementThatTakesTooLong() {
        Build slow = EditedBuild.of("feed-bore: 2.6 mm", "feed-bore: 1.0 mm");
        assertThat(run(slow, "stop-and-go", 20).losses().stream().map(Loss::criterion))
                .contains(Criterion.ENGAGEMENT_LATE);
    }

    @Test
    void shouldNameABandThatIsTooSmallForTheTorque() {
        Build small = EditedBuild.of("piston-area: 75 cm2", "piston-area: 15 cm2");
        RunVerdict run = run(small, "stop-and-go", 100);
        assertThat(run.losses().stream().map(Loss::criterion)).contains(Criterion.MARGIN_LOST);
        assertThat(run.marginMin()).isLessThan(1.2);
    }

    @Test
    void shouldTellPeopleInTheUnitsTheyAskedFor() {
        Build build = BuildFile.loadNamed("demonstration").withUnits(UnitSystem.US);
        assertThat(run(build, "hill-hold", 120).weakest()).contains("psi").doesNotContain("bar");
    }

    @Test
    void shouldReportEveryRunAsDone() {
        Build build = BuildFile.loadNamed("demonstration");
        AtomicInteger done = new AtomicInteger();
        new Prover(build, 1)
                .prove(Prover.grid(named(build, "hill-hold"), List.of(20.0, 60.0, 100.0)), done::incrementAndGet);
        assertThat(done).hasValue(3);
    }
}

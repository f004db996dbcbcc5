package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.numeric.LatinHypercube;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Reserve;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.window.Tolerance.Answer;
import org.junit.jupiter.api.Test;

/** What spreads do to a window: the worst car, the share of cars that hold, and which spread matters most. */
class ToleranceFinderTest {
    private static final double RPM = Math.PI / 30;
    private static final int CARS = 24;

    private static ToleranceTrial trial(Build build) {
        return new ToleranceTrial(
                build, car -> Tuning.of(car, 700 * RPM, 900 * RPM, Setting.ALONE.aids(car), LookAhead.NONE), 1);
    }

    private static Tolerance found(Build build, List<Double> oilC) {
        return new ToleranceFinder(trial(build), oilC, CARS, 7, Watch.NOBODY).find();
    }

    /** The demonstration build in which nothing but what is given has a spread. */
    private static Build demonstrationWith(String... spreads) {
        return EditedBuild.withoutSpreads(spreads);
    }

    @Test
    void shouldFindTheSameAsOneCarAfterTheOther() {
        Build build = demonstrationWith("laminar-leak: 6.0e-13 m3", "laminar-leak: 6.0e-13 m3 ± 80 %");
        ToleranceTrial trial = trial(build);
        Tolerance tolerance = found(build, List.of(120.0));

        double[][] points = LatinHypercube.points(CARS, 1, new Random(7));
        boolean[] heldEverywhere = new boolean[CARS];
        java.util.Arrays.fill(heldEverywhere, true);
        for (Answer answer : tolerance.answers()) {
            int held = 0;
            double lowest = Double.POSITIVE_INFINITY;
            for (int i = 0; i < CARS; i++) {
                Reserve one = trial.reserve(answer.drive(), answer.oilC(), trial.at(points[i]), i);
                held += one.held() ? 1 : 0;
                heldEverywhere[i] &= one.held();
                lowest = Math.min(lowest, one.least());
            }
            assertThat(answer.held()).isEqualTo(held);
            assertThat(answer.lowest()).isEqualTo(lowest);
            assertThat(answer.lost().values().stream().mapToInt(x -> x).sum()).isEqualTo(CARS - held);
        }
        int held = 0;
        for (boolean car : heldEverywhere) {
            held += car ? 1 : 0;
        }
        assertThat(tolerance.held()).isEqualTo(held).isPositive().isLessThan(CARS);
    }

    @Test
    void shouldGiveTheSameFiguresForTheSameSeed() {
        Build build = demonstrationWith("pull-in: 12 ms", "pull-in: 12 ms ± 6 ms");

        assertThat(found(build, List.of(120.0))).isEqualTo(found(build, List.of(120.0)));
    }

    @Test
    void shouldLookAtTheHardestHotStopAndAtTheHardestDriveHotAndCold() {
        Build build = demonstrationWith("pull-in: 12 ms", "pull-in: 12 ms ± 6 ms");
        Tolerance tolerance = found(build, List.of(-20.0, 120.0));

        assertThat(tolerance.answers().get(0).drive()).startsWith("panic-stop");
        assertThat(tolerance.answers()).extracting(Answer::oilC).containsExactly(120.0, 120.0, -20.0);
        assertThat(tolerance.answers().get(1).nominal().least())
                .isLessThanOrEqualTo(tolerance.answers().get(0).nominal().least());
    }

    @Test
    void shouldFindTheWorstCarAtTheEndThatHurts() {
        Build build = demonstrationWith(
                "laminar-leak: 6.0e-13 m3", "laminar-leak: 6.0e-13 m3 ± 10 %",
                "electric-pump:\n  displacement: 3.0 cm3/rev", "electric-pump:\n  displacement: 3.0 cm3/rev ± 2 %",
                "drag-area: 0.75 m2", "drag-area: 0.75 m2 ± 1 %");
        Answer answer = found(build, List.of(120.0)).answers().get(1);

        assertThat(answer.corner().ends())
                .filteredOn(end -> !end.spread().key().equals("car.drag-area"))
                .extracting(end -> end.spread().key() + " " + (end.high() ? "high" : "low"))
                .containsExactly("line.laminar-leak high", "electric-pump.displacement low");
        assertThat(answer.corner().reserve().least())
                .isLessThan(answer.nominal().least())
                .isLessThanOrEqualTo(answer.lowest());
        assertThat(answer.ranking()).extracting(weight -> weight.spread().key()).endsWith("car.drag-area");
        assertThat(answer.ranking().get(0).spread().key()).isEqualTo("line.laminar-leak");
        assertThat(answer.ranking().get(0).mean()).isNegative();
    }

    @Test
    void shouldJudgeACarAsTheVerdictDoes() {
        Build build = Builds.ruleOfThumb();
        Prover prover = new Prover(build, 1);
        for (var drive : linehold.simulator.drive.BuiltInDrives.all(build)) {
            if (drive.name().startsWith("panic")) {
                Reserve reserve = prover.reserve(drive, 120);
                RunVerdict verdict = prover.prove(List.of(new Prover.Case(drive, 120)), () -> {})
                        .runs()
                        .get(0);
                assertThat(reserve.held()).as(drive.name()).isEqualTo(verdict.held());
                assertThat(reserve.pressure())
                        .isEqualTo(
                                verdict.lowPoint().pressurePa() / build.limits().holdPressurePa());
                assertThat(reserve.margin())
                        .isEqualTo(verdict.marginMin() / build.limits().safetyFactor());
            }
        }
    }

    @Test
    void shouldRefuseABuildWithoutSpreads() {
        assertThatThrownBy(() -> found(demonstrationWith(), List.of(120.0)))
                .isInstanceOf(IllegalArgumentException.class);
    }
}

package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.Verdict;
import linehold.simulator.report.WindowJson;
import linehold.simulator.size.Sizer;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Remedy;
import linehold.simulator.window.Window.RulePoint;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class WindowFinderTest {
    private static final double RPM = Math.PI / 30;

    private static Window demonstration;
    private static Window weak;

    @BeforeAll
    static void find() {
        demonstration = found(Builds.demonstration());
        weak = found(Builds.weak());
    }

    private static Window found(Build build) {
        return new WindowFinder(build, build.limits().oilTemperaturesC(), Watch.NOBODY).find();
    }

    private static Verdict proved(double loweredRadPerS, List<? extends Drive> drives, List<Double> oilC) {
        Build build = Builds.demonstration();
        Pair pair = demonstration.pair();
        Build tuned = Tuning.of(
                build,
                pair.onRadPerS() - loweredRadPerS,
                pair.offRadPerS() - loweredRadPerS,
                Setting.ALONE.aids(build),
                demonstration.ahead());
        return new Prover(tuned, 1).prove(Prover.grid(drives, oilC), () -> {});
    }

    @Test
    void shouldRecommendAWindowThatHoldsOnEveryDemonstrationDrive() {
        assertThat(demonstration.exists()).isTrue();
        Pair pair = demonstration.pair();
        assertThat(proved(0, BuiltInDrives.all(Builds.demonstration()), demonstration.oilC())
                        .held())
                .isTrue();
        assertThat(demonstration.proofs()).hasSize(2).allMatch(Window.Proof::held);
        assertThat(pair.marginPa()).isPositive();
        assertThat(pair.offRadPerS()).isGreaterThanOrEqualTo(pair.onRadPerS() + 50 * RPM);
    }

    @Test
    void shouldLoseTheHardestStopWhenLoweredByItsMarginAndKeepItAsRecommended() {
        Pair pair = demonstration.pair();
        List<Drive> hardest = List.of(demonstration.losingStop());
        List<Double> hot = List.of(120.0);
        assertThat(proved(0, hardest, hot).held()).isTrue();
        assertThat(proved(pair.marginRadPerS(), hardest, hot).held()).isFalse();
    }

    @Test
    void shouldKeepTheLineWithThePairWhileRollingBackAndSayHowFarThePumpCarriesIt() {
        assertThat(demonstration.rollBacks())
                .hasSize(5)
                .allSatisfy(one -> assertThat(one.lowestPa()).isGreaterThanOrEqualTo(4e5))
                .allSatisfy(one -> assertThat(one.mostRadPerS()).isBetween(50 * RPM, 300 * RPM));
        assertThat(weak.rollBacks().get(4).mostRadPerS()).isNaN();
        assertThat(weak.rollBacks())
                .allSatisfy(one -> assertThat(one.lowestPa()).isNaN());
    }

    /** The sizing sheet and the price count the same closings. */
    @Test
    void shouldPriceTheContactByTheSizingSheet() {
        double closings = Sizer.sheet(Builds.demonstration()).lines().stream()
                .filter(line -> line.key().equals("relay-life"))
                .findFirst()
                .orElseThrow()
                .result();
        assertThat(demonstration.prices())
                .isNotEmpty()
                .allSatisfy(price -> assertThat(price.contactLifeH() * price.relayOperationsPerHour() / 2)
                        .isCloseTo(closings, within(1e-6 * closings)));
    }

    /** Common practice of the trade: 500 rpm. */
    @Test
    void shouldFindTheRuleOfThumbReasonableInOrdinaryDrivingAndShowWhereItEnds() {
        assertThat(demonstration.rule())
                .allMatch(point -> point.enoughUpToRadPerS2() >= Window.ORDINARY_RAD_PER_S2)
                .anyMatch(point -> point.enoughUpToRadPerS2() < 15000 * RPM);
        RulePoint hottest = demonstration.rule().get(4);
        StopTrial trial = new StopTrial(Builds.demonstration(), Setting.ALONE, 120, LookAhead.NONE);
        assertThat(trial.holds(hottest.enoughUpToRadPerS2(), 500 * RPM)).isTrue();
        assertThat(trial.holds(hottest.enoughUpToRadPerS2() * 1.02, 500 * RPM)).isFalse();
    }

    @Test
    void shouldAskForMoreTheHotterTheOilAndTheHarderTheStop() {
        Map<Double, Double> iceByOil = new TreeMap<>();
        demonstration.stops().stream()
                .filter(stop -> stop.rateRadPerS2() > 14999 * RPM)
                .forEach(stop ->
                        iceByOil.put(stop.oilC(), stop.found(Setting.ALONE).onRadPerS()));
        assertThat(List.copyOf(iceByOil.values())).isSorted();
        assertThat(demonstration.rates()).hasSize(12).isSorted().contains(4500 * RPM, 15000 * RPM);
        assertThat(demonstration.stops()).hasSize(60);
    }

    /** The map's cells that keep the hold pressure are those above the speed that bisection found. */
    @Test
    void shouldDrawAMapThatAgreesWithTheSearch() {
        double holdPa = 4e5;
        for (Window.WindowMap map : demonstration.maps()) {
            for (int c = 0; c < map.rates().size(); c++) {
                double rate = map.rates().get(c);
                double found = demonstration.stops().stream()
                        .filter(stop -> stop.oilC() == map.oilC() && stop.rateRadPerS2() == rate)
                        .findFirst()
                        .orElseThrow()
                        .found(Setting.ALONE)
                        .onRadPerS();
                for (int r = 0; r < map.onRadPerS().size(); r++) {
                    boolean holds = map.lowestPa().get(r).get(c) >= holdPa;
                    assertThat(holds)
                            .as(map.oilC() + " °C, " + rate / RPM + " rpm/s, on "
                                    + map.onRadPerS().get(r) / RPM)
                            .isEqualTo(map.onRadPerS().get(r) >= found * (1 - 1e-9));
                }
            }
        }
    }

    @Test
    void shouldFindNoWindowForAPumpThatCannotHoldAtStandstillAndRankWhatWouldOpenOne() {
        assertThat(weak.exists()).isFalse();
        assertThat(weak.pair()).isNull();
        assertThat(weak.noWindow()).hasSize(1).allMatch(why -> why.contains("120 °C") && why.contains("standstill"));
        List<Remedy> opening = weak.remedies().stream().filter(Remedy::opens).toList();
        assertThat(opening.stream().map(Remedy::name))
                .anyMatch(name -> name.contains("electric pump of 3.6 cm³"))
                .anyMatch(name -> name.contains("leakage"))
                .anyMatch(name -> name.contains("cooler"));
        assertThat(opening.stream().map(Remedy::onRadPerS)).isSorted();
        assertThat(weak.remedies().subList(0, opening.size())).isEqualTo(opening);
        assertThat(weak.remedies())
                .anyMatch(one -> !one.opens() && one.name().contains("pickup"))
                .anyMatch(one -> !one.opens() && one.name().contains("accumulator"))
                .anyMatch(one -> !one.opens() && one.name().contains("cable"));
    }

    @Test
    void shouldGiveTheSameBytesForTheSameBuildWhateverTheOrderOfTemperatures() {
        Build build = Builds.weak();
        assertThat(WindowJson.toBytes(new WindowFinder(build, List.of(120.0, 60.0), Watch.NOBODY).find()))
                .isEqualTo(
                        WindowJson.toBytes(new WindowFinder(build, List.of(60.0, 120.0, 60.0), Watch.NOBODY).find()));
    }
}

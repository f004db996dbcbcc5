package linehold.simulator.window;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.LineSpec.AccumulatorSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.build.SupplySpec;
import linehold.simulator.circuit.LineStorage;
import linehold.simulator.drive.Manoeuvres;
import linehold.simulator.run.Parallel;
import linehold.simulator.window.Window.Remedy;

/** Changes one part at a time, then two, and looks whether a window exists then. */
final class Remedies {
    private static final double LITRE = 1e-3;
    private static final double BAR = 1e5;
    private static final int FINE_PULSES = 4;

    /** What is changed, in words, and the change. */
    private record Change(String name, double hottestC, UnaryOperator<Build> change) {}

    private final Build build;
    private final List<Double> oilC;
    private final Display display;
    private final double hottestC;

    Remedies(Build build, List<Double> oilC) {
        this.build = build;
        this.oilC = oilC;
        display = new Display(build.units());
        hottestC = oilC.get(oilC.size() - 1);
    }

    /** Best first: those that open a window by its switch-on speed, then the others by what the pump holds at rest. */
    List<Remedy> ranked(Watch watch) {
        List<Change> single = changes();
        List<Remedy> remedies = new ArrayList<>(tried(single, watch.begin("single remedies", single.size())));
        if (remedies.stream().noneMatch(Remedy::opens)) {
            List<Change> pairs = pairs(single);
            remedies.addAll(tried(pairs, watch.begin("pairs of remedies", pairs.size())));
        }
        remedies.add(alwaysOn());
        remedies.sort(Comparator.comparing((Remedy one) -> !one.opens())
                // A pump that never rests is the last resort, for it opens no window.
                .thenComparing(one -> one.boundRadPerS() == 0)
                .thenComparingDouble(one -> Double.isNaN(one.boundRadPerS()) ? Double.MAX_VALUE : one.boundRadPerS())
                .thenComparingDouble(one -> -one.standstillPa()));
        return List.copyOf(remedies);
    }

    private List<Change> changes() {
        List<Change> changes = new ArrayList<>();
        int pulses = build.sensors().pulsesPerRev();
        if (pulses < FINE_PULSES) {
            changes.add(
                    change("a pickup of " + FINE_PULSES + " pulses per revolution instead of " + pulses, this::finer));
        }
        for (double factor : new double[] {1.5, 2}) {
            double m3 = build.electricPump().displacementM3PerRev();
            changes.add(change(
                    "an electric pump of " + display.volume(m3 * factor) + " per revolution instead of "
                            + display.volume(m3) + ", the same motor",
                    car -> largerPump(car, factor)));
        }
        for (double litres : new double[] {0.1, 0.5}) {
            changes.add(change(
                    String.format(
                            Locale.ROOT,
                            "a gas accumulator of %s on the line, precharged to %s absolute",
                            display.volume(litres * LITRE),
                            display.pressure(prechargePa())),
                    car -> accumulator(car, litres * LITRE)));
        }
        for (double part : new double[] {0.5, 0.25}) {
            double ohm = build.supply().wireResistanceOhm();
            changes.add(change(
                    String.format(
                            Locale.ROOT,
                            "a pump cable of %.0f mΩ instead of %.0f mΩ, %d gauge numbers thicker",
                            ohm * part * 1e3,
                            ohm * 1e3,
                            // AWG: three numbers halve the resistance (ASTM B258, ratio 92^(1/39) in diameter).
                            part == 0.5 ? 3 : 6),
                    car -> cable(car, part)));
        }
        for (double kelvin : new double[] {10, 20}) {
            double limit = hottestC - kelvin;
            changes.add(new Change(
                    "a cooler that keeps the oil at or below " + display.temperature(limit) + " instead of "
                            + display.temperature(hottestC),
                    limit,
                    car -> car));
        }
        changes.add(change("half the leakage of the line (seals, valve body)", Remedies::tighter));
        changes.add(change(
                "a regulator set to " + display.pressure(build.regulator().setDrivePa() + 2 * BAR)
                        + " in drive instead of "
                        + display.pressure(build.regulator().setDrivePa()),
                Remedies::higherRegulator));
        return changes;
    }

    private Change change(String name, UnaryOperator<Build> change) {
        return new Change(name, hottestC, change);
    }

    private static List<Change> pairs(List<Change> single) {
        List<Change> pairs = new ArrayList<>();
        for (int i = 0; i < single.size(); i++) {
            for (int k = i + 1; k < single.size(); k++) {
                Change a = single.get(i);
                Change b = single.get(k);
                pairs.add(new Change(
                        a.name + "; and " + b.name,
                        Math.min(a.hottestC, b.hottestC),
                        car -> b.change.apply(a.change.apply(car))));
            }
        }
        return pairs;
    }

    private List<Remedy> tried(List<Change> changes, Runnable done) {
        List<Callable<Remedy>> tasks = new ArrayList<>();
        for (Change one : changes) {
            tasks.add(() -> tried(one));
        }
        return Parallel.all(tasks, done);
    }

    private Remedy tried(Change one) {
        Build car = one.change.apply(build);
        List<Double> temperatures = oilUpTo(one.hottestC);
        double standstillPa = standstillPa(car, temperatures);
        double on = standstillPa < car.limits().holdPressurePa() ? Double.NaN : lowestOn(car, temperatures);
        if (Double.isNaN(on)) {
            return new Remedy(one.name, false, on, on, on, standstillPa);
        }
        double withReserve = Recommendation.withReserve(on);
        return new Remedy(one.name, true, on, withReserve, Recommendation.leastOff(car, withReserve), standstillPa);
    }

    /** A hotter list entry is replaced by the limit itself. */
    private List<Double> oilUpTo(double limitC) {
        return oilC.stream()
                .map(temperature -> Math.min(temperature, limitC))
                .distinct()
                .toList();
    }

    private static double standstillPa(Build car, List<Double> temperatures) {
        return temperatures.stream()
                .mapToDouble(temperature -> new SteadyState(car, temperature)
                        .standstillPa(car.supply().openVolts()))
                .min()
                .orElseThrow();
    }

    /** The highest over the stops that ask most; NaN where one of them cannot be kept. */
    private static double lowestOn(Build car, List<Double> temperatures) {
        double highest = 0;
        double guess = Double.NaN;
        for (int t = temperatures.size() - 1; t >= 0; t--) {
            StopTrial trial = new StopTrial(car, Setting.ALONE, temperatures.get(t), LookAhead.NONE);
            for (double rate : new double[] {Manoeuvres.ICE_RATE_RAD_PER_S2, Manoeuvres.DRY_RATE_RAD_PER_S2}) {
                double on = SpeedSearch.lowest(trial, rate, guess);
                if (Double.isNaN(on)) {
                    return on;
                }
                guess = on;
                highest = Math.max(highest, on);
            }
        }
        return highest;
    }

    private Remedy alwaysOn() {
        double standstillPa = standstillPa(build, oilC);
        return new Remedy(
                "an electric pump that never stops while the key is on (no window, no switching)",
                standstillPa >= build.limits().holdPressurePa(),
                0,
                0,
                0,
                standstillPa);
    }

    // ---- the changes --------------------------------------------------------------------------------------------

    private Build finer(Build car) {
        SensorsSpec s = car.sensors();
        SensorsSpec fine = new SensorsSpec(
                FINE_PULSES,
                s.pressureFullScalePa(),
                s.pressureLagS(),
                s.pressureNoisePa(),
                s.senderSupplyVolts(),
                s.adcBits(),
                s.adcFullScaleVolts(),
                s.pumpCurrentFitted(),
                s.oilTemperatureFitted(),
                s.brakeFitted(),
                s.rangeFitted(),
                s.torqueRequestFitted());
        return Changes.of(car, parts -> {
            parts.sensors = fine;
            parts.calibration = car.calibration().toBuilder()
                    .set(Key.PULSES_PER_REVOLUTION, FINE_PULSES)
                    .build();
        });
    }

    /** A pump of larger gears slips more in proportion to its displacement. */
    private static Build largerPump(Build car, double factor) {
        ElectricPumpSpec pump = car.electricPump();
        return Changes.of(
                car,
                parts -> parts.electricPump = new ElectricPumpSpec(
                        pump.displacementM3PerRev() * factor,
                        pump.slipM3() * factor,
                        pump.motorConstantVsPerRad(),
                        pump.armatureResistanceOhm(),
                        pump.inertiaKgM2(),
                        pump.coulombTorqueNm(),
                        pump.viscousTorqueNmS(),
                        pump.reliefPa()));
    }

    /** Just below the hold pressure, so that the gas gives back all it can while the line falls to it. */
    private double prechargePa() {
        return 0.9 * (build.limits().holdPressurePa() + LineStorage.ATMOSPHERE_PA);
    }

    private Build accumulator(Build car, double gasM3) {
        AccumulatorSpec gas = new AccumulatorSpec(prechargePa(), gasM3);
        LineSpec line = car.line();
        return Changes.of(
                car,
                parts -> parts.line = new LineSpec(
                        line.volumeM3(),
                        line.structureComplianceM3PerPa(),
                        line.laminarLeakM3(),
                        line.orificeLeakM2(),
                        line.linearBelowPa(),
                        gas));
    }

    private static Build cable(Build car, double part) {
        SupplySpec supply = car.supply();
        return Changes.of(
                car,
                parts -> parts.supply = new SupplySpec(
                        supply.openVolts(), supply.sourceResistanceOhm(), part * supply.wireResistanceOhm()));
    }

    private static Build tighter(Build car) {
        LineSpec line = car.line();
        return Changes.of(
                car,
                parts -> parts.line = new LineSpec(
                        line.volumeM3(),
                        line.structureComplianceM3PerPa(),
                        line.laminarLeakM3() / 2,
                        line.orificeLeakM2() / 2,
                        line.linearBelowPa(),
                        line.accumulator()));
    }

    private static Build higherRegulator(Build car) {
        RegulatorSpec regulator = car.regulator();
        return Changes.of(
                car,
                parts -> parts.regulator = new RegulatorSpec(
                        regulator.gainM3PerSPa(),
                        regulator.setDrivePa() + 2 * BAR,
                        regulator.setReversePa(),
                        regulator.setParkNeutralPa()));
    }
}

package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** The electric pump alone carries the line of the standing car in D. */
final class StallHold {
    private static final double HOLD_S = 60;
    /** Mean pressure over what the build promises; assumed: a build's leakage and relief are known no better. */
    private static final double LEAST_SHARE = 0.9;
    /** Sender and relief valve may be off by this share of the relief pressure; assumed. */
    private static final double RELIEF_RESERVE = 1.05;

    private final Bench bench;
    private final Settling settling = new Settling();
    private final Mean pressure = new Mean();
    private final Mean amps = new Mean();
    private double oilBeforeC;

    private StallHold(Bench bench) {
        this.bench = bench;
    }

    static List<Step> steps(Bench bench) {
        StallHold hold = new StallHold(bench);
        return List.of(
                Common.prepare(bench, Range.DRIVE),
                Common.settle(bench, Range.DRIVE, hold.settling),
                Step.of(
                        "Pump carries the line",
                        Command.MAIN_RELAY,
                        Shaft.still(Range.DRIVE),
                        HOLD_S + 1,
                        now -> "",
                        hold::held));
    }

    private boolean held(Reading now, Findings findings) {
        if (now.first()) {
            pressure.clear();
            amps.clear();
            oilBeforeC = now.oilC;
        }
        pressure.add(now.pressurePa);
        amps.add(now.amps);
        double holdPa = bench.build().limits().holdPressurePa();
        if (now.stepS() < HOLD_S && now.pressurePa >= holdPa) {
            return false;
        }
        judge(now, findings);
        return true;
    }

    private void judge(Reading now, Findings findings) {
        double holdPa = bench.build().limits().holdPressurePa();
        double reliefPa = bench.build().electricPump().reliefPa();
        findings.atLeast(
                "lowest-pressure",
                "Lowest line pressure",
                bench.display().pressureScale(),
                pressure.lowest(),
                holdPa,
                "Line pressure fell to " + bench.display().pressure(pressure.lowest()) + ", below the hold pressure of "
                        + bench.display().pressure(holdPa)
                        + ": the clutches would slip; a worn or starved pump, a leak, or"
                        + " oil that is too hot or too thin.");
        double promisedPa = bench.settledPa(now.oilC);
        findings.info(
                "pressure-build",
                "Pressure by the build at this oil temperature",
                bench.display().pressureScale(),
                promisedPa);
        findings.atLeast(
                "mean-pressure",
                "Mean line pressure",
                bench.display().pressureScale(),
                pressure.value(),
                LEAST_SHARE * promisedPa,
                "The pump holds " + bench.display().pressure(pressure.value()) + " where the build promises "
                        + bench.display().pressure(promisedPa)
                        + ": a worn or starved pump, a leak in hose or seal, a low bus, or a build file that is not this"
                        + " car's.");
        findings.atMost(
                "highest-pressure",
                "Highest line pressure",
                bench.display().pressureScale(),
                pressure.highest(),
                RELIEF_RESERVE * reliefPa,
                "The pump reaches " + bench.display().pressure(pressure.highest()) + ", above its relief pressure of "
                        + bench.display().pressure(reliefPa) + ": the relief valve sticks, or is set wrong.");
        Calibration calibration = bench.calibration();
        if (calibration.is(Key.PUMP_CURRENT_FITTED)) {
            findings.within(
                    "mean-current",
                    "Mean pump current",
                    bench.amps(),
                    amps.value(),
                    now.amps(Key.PUMP_CURRENT_DRY),
                    now.amps(Key.PUMP_CURRENT_STALLED),
                    "Pump current is " + bench.amps().text(amps.value())
                            + " on the mean: the current sensor, a pump that runs dry, or a motor that binds.");
        }
        findings.info("oil-before", "Oil before", bench.display().temperatureScale(), oilBeforeC);
        findings.info("oil-after", "Oil after", bench.display().temperatureScale(), now.oilC);
    }
}

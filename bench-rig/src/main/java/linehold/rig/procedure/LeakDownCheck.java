package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.simulator.build.Display.Scale;

/** How fast the standing line loses its pressure when the electric pump stops, against what the build promises. */
final class LeakDownCheck {
    /** Shortest time over the build's own; assumed: leakage of a build is known no better. */
    private static final double LEAST_SHARE = 0.7;

    /** Share of a new reading: some ten of them count. */
    private static final double SMOOTHING = 0.1;

    private static final double LONGEST_S = 60;

    private final Bench bench;
    private final Settling settling = new Settling();
    private double halfS;
    private double smoothPa;

    private LeakDownCheck(Bench bench) {
        this.bench = bench;
    }

    static List<Step> steps(Bench bench) {
        LeakDownCheck check = new LeakDownCheck(bench);
        return List.of(
                Common.prepare(bench, Range.DRIVE),
                Common.settle(bench, Range.DRIVE, check.settling),
                Step.of(
                        "Pump off, pressure falls",
                        Command.PUMP_OFF,
                        Shaft.still(Range.DRIVE),
                        LONGEST_S,
                        now -> "The line still has " + bench.display().pressure(now.pressurePa)
                                + " a minute after the pump was switched off: the pump is still fed, or the sender is"
                                + " stuck.",
                        check::fallen));
    }

    private boolean fallen(Reading now, Findings findings) {
        double startPa = settling.meanPa();
        if (now.first()) {
            halfS = Double.NaN;
            findings.atLeast(
                    "pressure-before",
                    "Line before",
                    bench.display().pressureScale(),
                    startPa,
                    bench.build().limits().holdPressurePa(),
                    "The pump holds only " + bench.display().pressure(startPa)
                            + ", less than hold pressure: run the procedure stall-hold.");
        }
        if (Double.isNaN(halfS) && now.pressurePa <= startPa / 2) {
            halfS = now.stepS();
            judge("half", "half the", halfS, bench.halfTimeS(now.oilC), findings);
        }
        // Near a tenth the band gives its oil back at an almost steady pressure, where noise would find a time by
        // itself.
        smoothPa = now.first() ? now.pressurePa : smoothPa + SMOOTHING * (now.pressurePa - smoothPa);
        if (smoothPa > startPa / 10) {
            return false;
        }
        judge("tenth", "a tenth of the", now.stepS(), bench.tenthTimeS(now.oilC), findings);
        return true;
    }

    private void judge(String key, String left, double fallS, double promisedS, Findings findings) {
        Scale seconds = bench.display().timeScale();
        findings.info(key + "-time-build", "By the build: to " + left + " pressure", seconds, promisedS);
        findings.atLeast(
                key + "-time",
                "From pump off to " + left + " pressure",
                seconds,
                fallS,
                LEAST_SHARE * promisedS,
                "The line fell to " + left + " pressure in " + seconds.text(fallS)
                        + ", where the build's leakage takes "
                        + seconds.text(promisedS)
                        + ": a leak in hose, seal or valve body, or a check valve that does not shut.");
    }
}

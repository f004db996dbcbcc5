package linehold.rig.procedure;

import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Key;

/** Pressure sender against a reference gauge. */
final class SenderCheck {
    /** A line without its pump is empty by then, s; assumed: an accumulator takes longer, and the gauge shows it. */
    private static final double EMPTY_S = 10;
    /**
     * Sender and gauge may differ by this share of the sender's full scale; assumed: a sender of 1 % and a gauge of
     * class 1.6.
     */
    private static final double TOLERANCE = 0.02;

    private static final double SUPPLY_TOLERANCE = 0.05;

    private final Bench bench;
    private final Settling settling = new Settling();
    private final double tolerancePa;

    private SenderCheck(Bench bench) {
        this.bench = bench;
        tolerancePa = TOLERANCE * bench.calibration().get(Key.SENDER_FULL_SCALE);
    }

    static List<Step> steps(Bench bench) {
        SenderCheck check = new SenderCheck(bench);
        Shaft still = Shaft.still(Range.NEUTRAL);
        return List.of(
                Common.prepare(bench, Range.NEUTRAL),
                Step.of(
                                "Pump off, line empties",
                                Command.PUMP_OFF,
                                still,
                                EMPTY_S + 1,
                                now -> "",
                                (now, findings) -> now.stepS() >= EMPTY_S)
                        .telling("The reference gauge is on the line's test port, close to the sender."),
                Step.asking(
                        "Without pressure",
                        "What does the reference gauge show?",
                        Ask.GAUGE_PRESSURE,
                        Command.PUMP_OFF,
                        still,
                        check::zero),
                Common.settle(bench, Range.NEUTRAL, new Settling()),
                Step.asking(
                        "Under the pump's pressure",
                        "What does the reference gauge show?",
                        Ask.GAUGE_PRESSURE,
                        Command.MAIN_RELAY,
                        still,
                        check::pressure));
    }

    private boolean zero(Reading now, Findings findings) {
        settling.settled(now);
        if (!now.answered() || Double.isNaN(settling.meanPa())) {
            return false;
        }
        double supply = bench.build().sensors().senderSupplyVolts();
        findings.within(
                "sender-supply",
                "Supply of the sender",
                bench.volts(),
                now.senderSupplyVolts,
                supply * (1 - SUPPLY_TOLERANCE),
                supply * (1 + SUPPLY_TOLERANCE),
                "The sender is supplied with " + bench.volts().text(now.senderSupplyVolts) + ", wanted are "
                        + bench.volts().text(supply) + ".");
        findings.atMost(
                "gauge-without-pressure",
                "Reference gauge, pump off",
                bench.display().pressureScale(),
                now.answerValue(),
                tolerancePa,
                "The gauge shows " + bench.display().pressure(now.answerValue())
                        + " with the pump off: the line is not empty, or the gauge is not at zero.");
        compare("zero", "Sender less gauge, pump off", now.answerValue(), findings);
        return true;
    }

    private boolean pressure(Reading now, Findings findings) {
        settling.settled(now);
        if (!now.answered() || Double.isNaN(settling.meanPa())) {
            return false;
        }
        double leastPa = bench.build().limits().holdPressurePa() / 2;
        findings.atLeast(
                "gauge-under-pressure",
                "Reference gauge, pump on",
                bench.display().pressureScale(),
                now.answerValue(),
                leastPa,
                "The gauge shows only " + bench.display().pressure(now.answerValue())
                        + " with the pump on: too little to compare at; run the procedure stall-hold.");
        compare("under-pressure", "Sender less gauge, pump on", now.answerValue(), findings);
        return true;
    }

    private void compare(String key, String title, double gaugePa, Findings findings) {
        double sensedPa = settling.meanPa();
        findings.info("sender-" + key, "Sender then", bench.display().pressureScale(), sensedPa);
        findings.within(
                "sender-error-" + key,
                title,
                bench.display().pressureScale(),
                sensedPa - gaugePa,
                -tolerancePa,
                tolerancePa,
                "The sender shows " + bench.display().pressure(sensedPa) + " where the gauge shows "
                        + bench.display().pressure(gaugePa)
                        + ": the sender is off, or sensors.pressure-full-scale is not its range.");
    }
}

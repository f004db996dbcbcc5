package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/** Each coil, each readback. Both contacts feed one wire to the pump, so both readbacks show whichever relay is closed. */
final class WiringCheck {
    /** Below this share of bus voltage a readback shows nothing; assumed: above offset and noise. */
    private static final double SILENT_SHARE = 0.1;
    /** A pump without load coasts this long, s; assumed. */
    private static final double LONGEST_COAST_S = 10;
    /** By then the inrush is over, s; assumed. */
    private static final double LOOK_S = 2;

    private final Bench bench;
    private final Calibration calibration;
    private final boolean standbyFitted;
    private final boolean currentFitted;
    private double readbackS;

    private WiringCheck(Bench bench) {
        this.bench = bench;
        calibration = bench.calibration();
        standbyFitted = calibration.is(Key.STANDBY_RELAY_FITTED);
        currentFitted = calibration.is(Key.PUMP_CURRENT_FITTED);
    }

    static List<Step> steps(Bench bench) {
        WiringCheck check = new WiringCheck(bench);
        List<Step> steps = new ArrayList<>();
        steps.add(Common.prepare(bench, Range.NEUTRAL));
        steps.add(check.off("Both relays off"));
        steps.add(check.on(true));
        steps.add(check.off("Main relay off again"));
        if (check.standbyFitted) {
            steps.add(check.on(false));
            steps.add(check.off("Standby relay off again"));
        }
        steps.add(check.signals());
        return steps;
    }

    private Step off(String title) {
        return Step.of(
                title,
                Command.PUMP_OFF,
                Shaft.still(Range.NEUTRAL),
                LONGEST_COAST_S,
                this::staysOn,
                (now, findings) -> {
                    boolean over = !now.first() && silent(now, now.mainVolts) && silent(now, standbyVolts(now));
                    if (over && currentFitted) {
                        double mostAmps = now.amps(Key.PUMP_CURRENT_OPEN);
                        findings.within(
                                key(title),
                                title + ": pump current",
                                bench.amps(),
                                now.amps,
                                -mostAmps,
                                mostAmps,
                                "Pump current reads " + bench.amps().text(now.amps)
                                        + " with both relays off: the current sensor is not at zero.");
                    }
                    return over;
                });
    }

    private static String key(String title) {
        return title.toLowerCase(Locale.ROOT).replace(' ', '-') + "-current";
    }

    private double standbyVolts(Reading now) {
        return standbyFitted ? now.standbyVolts : 0;
    }

    private static boolean silent(Reading now, double volts) {
        return volts < SILENT_SHARE * now.busVolts;
    }

    private String staysOn(Reading now) {
        String read = "main " + bench.volts().text(now.mainVolts)
                + (standbyFitted ? ", standby " + bench.volts().text(now.standbyVolts) : "");
        if (Double.isNaN(now.mainVolts) || Double.isNaN(standbyVolts(now))) {
            return "A readback cannot be read (" + read + "): its line or its converter.";
        }
        String wire = calibration.is(Key.NORMALLY_CLOSED_CONTACT)
                ? "or the wire to the main coil is off (its contact is normally closed)"
                : "or a coil is driven by something else";
        return "Voltage stays behind the contacts with both relays off (" + read + "): a relay is welded, " + wire
                + ".";
    }

    private Step on(boolean main) {
        String name = main ? "Main relay" : "Standby relay";
        return Step.of(
                name + " alone",
                main ? Command.MAIN_RELAY : Command.STANDBY_RELAY,
                Shaft.still(Range.NEUTRAL),
                LOOK_S + 1,
                now -> name + " cannot be judged.",
                (now, findings) -> {
                    double own = main ? now.mainVolts : now.standbyVolts;
                    if (now.first() || !now.closed(own)) {
                        // A contact that bounces counts from its last opening.
                        readbackS = Double.NaN;
                    } else if (Double.isNaN(readbackS)) {
                        readbackS = now.stepS();
                    }
                    if (now.stepS() >= LOOK_S) {
                        judge(main, name, own, now, findings);
                        return true;
                    }
                    return false;
                });
    }

    private void judge(boolean main, String name, double own, Reading now, Findings findings) {
        String key = main ? "main" : "standby";
        findings.atMost(
                key + "-readback-time",
                name + ": from coil to voltage behind its contact",
                bench.display().shortTimeScale(),
                readbackS,
                calibration.get(Key.RELAY_READBACK_TIME),
                noVoltage(main, name, own, now));
        double share = own / now.busVolts;
        findings.atLeast(
                key + "-contact-share",
                name + ": voltage behind its contact over the bus",
                bench.percent(),
                share,
                calibration.get(Key.CONTACT_WELDED_FRACTION),
                name + ": only " + bench.percent().text(share)
                        + " of the bus stands behind the closed contact: a worn or"
                        + " dirty contact, or a loose joint.");
        double other = main ? now.standbyVolts : now.mainVolts;
        if (standbyFitted && !now.closed(other)) {
            findings.fail((main ? "Standby" : "Main") + " readback shows "
                    + bench.volts().text(other) + " although the pump's wire is fed: that readback's wire is broken.");
        }
        if (currentFitted) {
            findings.within(
                    key + "-current",
                    name + ": pump current",
                    bench.amps(),
                    now.amps,
                    now.amps(Key.PUMP_CURRENT_OPEN),
                    now.amps(Key.PUMP_CURRENT_STALLED),
                    "Pump current reads " + bench.amps().text(now.amps) + " with the pump fed: the current sensor, the"
                            + " wire to the pump, or a pump that does not turn.");
        }
    }

    private String noVoltage(boolean main, String name, double own, Reading now) {
        double other = main ? now.standbyVolts : now.mainVolts;
        boolean fed = standbyFitted && now.closed(other) || currentFitted && now.amps > now.amps(Key.PUMP_CURRENT_OPEN);
        String shows = name + " on: its readback shows " + bench.volts().text(own);
        if (fed && !now.closed(own)) {
            return shows + " although the pump is fed: the readback's wire is broken.";
        }
        if (now.closed(own)) {
            return name + " on: voltage behind its contact came late: a slow or bouncing relay.";
        }
        return shows + ": the relay does not close, its coil is not driven, or the fuse is blown.";
    }

    private Step signals() {
        return Step.asking(
                "Lamp and buzzer",
                "Is the warning lamp lit, and does the buzzer sound?",
                Ask.YES_NO,
                Command.SIGNALS,
                Shaft.still(Range.NEUTRAL),
                (now, findings) -> {
                    if (now.answered()) {
                        findings.atLeast(
                                "lamp-and-buzzer",
                                "Lamp and buzzer seen and heard",
                                bench.plain(0),
                                now.answerValue(),
                                1,
                                "Lamp or buzzer does not work: their lines, or the lamp itself.");
                    }
                    return now.answered();
                });
    }
}

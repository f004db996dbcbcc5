package linehold.rig.procedure;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/** The limits that hold in every step, whatever it measures. */
final class Watch {
    private static final long PRESSURE_CONFIRM_NS = 50_000_000;
    private static final long SLOW_CONFIRM_NS = 1_000_000_000;

    private final Bench bench;
    private final Calibration calibration;
    private final boolean needsPressure;
    private final Limits limits;
    private final Confirmation overPressure = new Confirmation(PRESSURE_CONFIRM_NS, 0);
    private final Confirmation overCurrent;
    private final Confirmation overHeated = new Confirmation(SLOW_CONFIRM_NS, 0);
    private final Confirmation oilUnknown = new Confirmation(SLOW_CONFIRM_NS, 0);
    private final Confirmation busOut;
    private final Confirmation senderLost;

    Watch(Bench bench, boolean needsPressure) {
        this.bench = bench;
        this.needsPressure = needsPressure;
        calibration = bench.calibration();
        limits = Limits.of(bench);
        double spinUpS = calibration.at(Key.PUMP_SPIN_UP_TIME, Double.NaN);
        overCurrent = new Confirmation(Math.round(spinUpS * 1e9) + calibration.ns(Key.PUMP_CURRENT_CONFIRM_TIME), 0);
        busOut = new Confirmation(calibration.ns(Key.BUS_CONFIRM_TIME), 0);
        senderLost = new Confirmation(calibration.ns(Key.SENDER_LOST_CONFIRM_TIME), 0);
    }

    /** The sentence to fail with; null where every limit is kept. */
    String broken(Reading now) {
        long ns = now.nowNs;
        boolean senderOut = bench.calibration().is(Key.SENDER_FITTED)
                && !(now.senderFraction >= calibration.get(Key.SENDER_LEAST_FRACTION)
                        && now.senderFraction <= calibration.get(Key.SENDER_MOST_FRACTION));
        if (overPressure.update(now.pressurePa > limits.highestPa() && !senderOut, ns)) {
            return "Line pressure is " + bench.display().pressure(now.pressurePa) + ", above the limit of "
                    + bench.display().pressure(limits.highestPa())
                    + " for this build: a relief or regulator valve is stuck, or the sender is off (procedure sender).";
        }
        if (overCurrent.update(now.amps >= now.amps(Key.PUMP_CURRENT_STALLED), ns)) {
            return "Pump current stays at " + bench.amps().text(now.amps) + ", the current of a stalled motor: the pump"
                    + " does not turn.";
        }
        if (overHeated.update(now.oilC > limits.hottestC(), ns)) {
            return "The oil has " + bench.display().temperature(now.oilC) + ", above the limit of "
                    + bench.display().temperature(limits.hottestC()) + " for this build: let it cool.";
        }
        boolean unread = calibration.is(Key.OIL_TEMPERATURE_FITTED) && Double.isNaN(now.oilC);
        if (oilUnknown.update(unread, ns)) {
            return "The oil temperature cannot be read: its sensor, its wire or its converter.";
        }
        boolean out = now.busVolts < limits.busLowVolts() || now.busVolts > limits.busHighVolts();
        if (busOut.update(out, ns)) {
            return "The bus has " + bench.volts().text(now.busVolts) + ", allowed are "
                    + bench.volts().number(limits.busLowVolts()) + " to "
                    + bench.volts().text(limits.busHighVolts()) + ".";
        }
        if (senderLost.update(senderOut, ns) && needsPressure) {
            return "The pressure sender shows " + bench.volts().text(now.senderVolts) + " of its supply of "
                    + bench.volts().text(now.senderSupplyVolts) + ": a wire is off or shorted.";
        }
        return null;
    }
}

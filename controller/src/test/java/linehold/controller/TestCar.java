package linehold.controller;

import java.util.function.DoubleUnaryOperator;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;

/**
 * A car for tests: a shaft whose edges come at exact times, a line pressure that is whatever the test says, and a relay
 * pump relays whose contacts, on one wire, follow their command within one tick. Nothing moves but what the test moves.
 */
public final class TestCar {
    public static final long PERIOD_NS = 5_000_000;
    public static final double BUS_VOLTS = 13;

    public final Inputs in = new Inputs();
    public final Outputs out = new Outputs();
    public final Controller controller;
    public final double pulsesPerRev;
    private final boolean normallyClosed;

    public long nowNs = 1_000_000_000;
    public double rpm;
    /** Whether the pickup still gives its edges. */
    public boolean pickupWorks = true;
    /** Whether the contacts answer the command; otherwise the test sets their voltages. */
    public boolean relaysWork = true;
    /** The main contact, whatever its coil says: closed, open, or not stuck. */
    public Boolean mainSticks;
    /** The standby contact likewise. */
    public Boolean standbySticks;

    /** Whether the line, empty at first, is at 8 bar one tick after PRIME; ends as soon as the test sets a pressure. */
    private boolean fillsAtKeyOn;

    /** Pulses that the shaft has turned; its fraction is where the teeth stand. */
    public double phasePulses;

    public TestCar(Calibration calibration) {
        controller = new Controller(calibration);
        pulsesPerRev = calibration.get(Key.PULSES_PER_REVOLUTION);
        normallyClosed = calibration.is(Key.NORMALLY_CLOSED_CONTACT);
        in.keyOn = true;
        in.busVolts = BUS_VOLTS;
        in.pressureSenderSupplyVolts = 5;
        in.oilTemperatureC = 60;
        in.mainContactVolts = 0;
        in.standbyContactVolts = 0;
        in.torqueRequestNm = 0;
        pressureBar(0);
        fillsAtKeyOn = true;
    }

    public static TestCar standard() {
        return new TestCar(Calibration.builder().build());
    }

    /** A car that has primed at rest, at a steady speed, minimum run time and confirmation over. */
    public static TestCar driving(Calibration calibration, double rpm) {
        TestCar car = new TestCar(calibration);
        car.run(1);
        car.rpm = rpm;
        car.run(5);
        return car;
    }

    public static TestCar driving(double rpm) {
        return driving(Calibration.builder().build(), rpm);
    }

    /** Sender 0.5 to 4.5 V over 0 to 20 bar, as the default calibration has it. */
    public TestCar pressureBar(double bar) {
        fillsAtKeyOn = false;
        in.pressureSenderVolts = 0.5 + 4 * bar / 20;
        return this;
    }

    /** One tick; the shaft goes in a straight line from the speed of the tick before to {@link #rpm}. */
    public TestCar tick() {
        return tick(rpm, PERIOD_NS);
    }

    public TestCar tick(double rpmBefore, long periodNs) {
        double before = rpmBefore * pulsesPerRev / 60;
        double after = rpm * pulsesPerRev / 60;
        double seconds = periodNs * 1e-9;
        DoubleUnaryOperator turned = t -> before * t + (after - before) * t * t / (2 * seconds);
        double end = phasePulses + turned.applyAsDouble(seconds);
        for (long pulse = (long) Math.floor(phasePulses) + 1; pulse <= end; pulse++) {
            double need = pulse - phasePulses;
            double low = 0;
            double high = seconds;
            for (int i = 0; i < 50; i++) {
                double middle = (low + high) / 2;
                if (turned.applyAsDouble(middle) < need) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            if (pickupWorks) {
                edgeAt(nowNs + Math.round(high * 1e9));
            }
        }
        phasePulses = end;
        nowNs += periodNs;
        step();
        return this;
    }

    /** An edge of the pickup at a time. */
    public void edgeAt(long timeNs) {
        in.pickupEdgeCount++;
        in.pickupLastEdgeNs = timeNs;
    }

    /** Steps the controller at the present time; the contacts then follow. */
    public void step() {
        controller.step(nowNs, in, out);
        if (fillsAtKeyOn && out.state == PumpState.PRIME) {
            pressureBar(8);
        }
        if (relaysWork) {
            boolean mainClosed = mainSticks != null ? mainSticks : out.mainRelayCoil != normallyClosed;
            boolean standbyClosed = standbySticks != null ? standbySticks : out.standbyRelayCoil;
            in.mainContactVolts = mainClosed || standbyClosed ? BUS_VOLTS : 0;
            in.standbyContactVolts = in.mainContactVolts;
        }
    }

    /** Ticks at steady speed. */
    public TestCar run(double seconds) {
        long ticks = Math.round(seconds * 1e9 / PERIOD_NS);
        for (long i = 0; i < ticks; i++) {
            tick();
        }
        return this;
    }

    /** Slows down, or speeds up, at a steady rate to a speed. */
    public TestCar rampTo(double targetRpm, double rpmPerS) {
        while (rpm != targetRpm) {
            rampTick(targetRpm, rpmPerS);
        }
        return this;
    }

    /** One tick of {@link #rampTo}. */
    public TestCar rampTick(double targetRpm, double rpmPerS) {
        double before = rpm;
        double step = rpmPerS * PERIOD_NS * 1e-9;
        rpm = before < targetRpm ? Math.min(targetRpm, before + step) : Math.max(targetRpm, before - step);
        return tick(before, PERIOD_NS);
    }

    public double seenRpm() {
        return out.shaftSpeedRadPerS * 30 / Math.PI;
    }

    public boolean active(TroubleCode code) {
        return (out.activeCodes & code.bit()) != 0;
    }

    public boolean stored(TroubleCode code) {
        return (out.storedCodes & code.bit()) != 0;
    }
}

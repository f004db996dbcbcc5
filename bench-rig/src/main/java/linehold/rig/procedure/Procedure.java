package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;

/** Every bench procedure, in the order in which a bench is brought up. A new one is a new entry and its class of steps. */
public enum Procedure {
    WIRING(
            "Wiring check",
            "Switches each relay by itself and reads back what stands behind its contact; lamp, buzzer, pump current.",
            false,
            WiringCheck::steps),
    PICKUP(
            "Pickup check",
            "Counts the pickup's edges while the shaft is turned by hand, then looks how even they are at speed.",
            false,
            PickupCheck::steps),
    SENDER(
            "Sender check",
            "Compares the pressure sender with a reference gauge, without pressure and under the pump's.",
            true,
            SenderCheck::steps),
    PRIME(
            "Prime",
            "Fills the empty line: by the relay alone, then as the controller does it at key-on, relays tested.",
            true,
            PrimeCheck::steps),
    SPIN_UP(
            "Spin-up time",
            "Times relay, motor and first flow of the electric pump against a line under pressure.",
            true,
            SpinUpCheck::steps),
    LEAK_DOWN(
            "Leak-down",
            "Switches the pump off and times how fast the line loses its pressure.",
            true,
            LeakDownCheck::steps),
    STALL_HOLD(
            "Hold at stall pressure",
            "Lets the electric pump carry the line of the standing car for a minute: pressure, current.",
            true,
            StallHold::steps),
    HAND_OVER(
            "Hand-over sweep",
            "Sweeps the shaft up and down through the window while the controller switches.",
            false,
            HandOverSweep::steps),
    PANIC_STOP(
            "Panic stop",
            "Stops the shaft as fast as can be while the internal pump carries the line alone.",
            false,
            PanicStop::steps),
    ENDURANCE(
            "Endurance cycling",
            "Switches the pump on and off many times, and counts what relay and pump do.",
            true,
            EnduranceCycling::steps);

    private final String title;
    private final String purpose;
    private final boolean needsPressure;
    private final Function<Bench, List<Step>> steps;

    Procedure(String title, String purpose, boolean needsPressure, Function<Bench, List<Step>> steps) {
        this.title = title;
        this.purpose = purpose;
        this.needsPressure = needsPressure;
        this.steps = steps;
    }

    /** As it is typed. */
    public String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public String title() {
        return title;
    }

    public String purpose() {
        return purpose;
    }

    /** Whether it measures line pressure, so that the build must have a sender. */
    public boolean needsPressure() {
        return needsPressure;
    }

    /** Whether the build has what it measures with. */
    public boolean fits(Build build) {
        return !needsPressure || build.calibration().is(Key.SENDER_FITTED);
    }

    /** The steps anew, for one run. */
    public List<Step> steps(Bench bench) {
        List<Step> own = steps.apply(bench);
        if (bench.calibration().is(Key.OIL_TEMPERATURE_FITTED)) {
            return own;
        }
        List<Step> all = new ArrayList<>(own);
        all.add(
                1,
                Step.asking(
                        "Oil temperature",
                        "Measure the oil's temperature and type it: this build has no sensor for it.",
                        Ask.OIL_TEMPERATURE,
                        Command.SAFE,
                        own.get(0).shaft(),
                        Work.ANSWERED));
        return all;
    }
}

package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.build.LimitsSpec;

/** The numbers of a build that a reader of a verdict asks for first: window, pumps, oil, wiring, limits. */
final class BuildFacts {
    /** @param name what it is, @param value with its unit */
    record Fact(String name, String value) {}

    private final Build build;
    private final Display display;
    private final List<Fact> facts = new ArrayList<>();

    private BuildFacts(Build build, Display display) {
        this.build = build;
        this.display = display;
    }

    static List<Fact> of(Build build, Display display) {
        BuildFacts facts = new BuildFacts(build, display);
        facts.limits();
        facts.window();
        facts.pumps();
        facts.wiring();
        facts.oil();
        return facts.facts;
    }

    private void limits() {
        LimitsSpec limits = build.limits();
        add("Hold pressure", display.pressure(limits.holdPressurePa()));
        add("Safety factor on clutch capacity", Numbers.fixed(limits.safetyFactor(), 2));
        add(
                "Longest engagement allowed",
                display.time(limits.engagementWarmS()) + " from " + display.temperature(20) + " up, "
                        + display.time(limits.engagementColdS()) + " at " + display.temperature(-20));
    }

    private void window() {
        Calibration calibration = build.calibration();
        add("Electric pump on below", display.speed(calibration.get(Key.SWITCH_ON_SPEED)));
        add(
                "Hand-over above",
                display.speed(calibration.get(Key.SWITCH_OFF_SPEED)) + ", "
                        + display.pressure(calibration.get(Key.HAND_OVER_PRESSURE)) + " for "
                        + display.time(calibration.get(Key.SWITCH_OFF_CONFIRM_TIME)));
        add("Falling-speed prediction", calibration.is(Key.FALLING_SPEED_PREDICTION) ? "on" : "off");
        add("Brake switches the pump on below", brake(calibration));
        add("Pickup", Sentences.count(build.sensors().pulsesPerRev(), "pulse") + " per revolution");
    }

    private String brake(Calibration calibration) {
        double speed = calibration.get(Key.BRAKE_SWITCH_ON_SPEED);
        if (!build.sensors().brakeFitted()) {
            return "no brake switch fitted";
        }
        return speed > 0 ? display.speed(speed) : "off";
    }

    private void pumps() {
        add("Internal pump", display.volume(build.internalPump().displacementM3PerRev()) + " per revolution");
        add(
                "Electric pump",
                display.volume(build.electricPump().displacementM3PerRev()) + " per revolution, relief "
                        + display.pressure(build.electricPump().reliefPa()));
        add(
                "Regulator",
                "drive " + display.pressure(build.regulator().setDrivePa()) + ", reverse "
                        + display.pressure(build.regulator().setReversePa()) + ", park and neutral "
                        + display.pressure(build.regulator().setParkNeutralPa()));
        add("Accumulator", build.line().accumulator() == null ? "none" : accumulator());
    }

    private String accumulator() {
        return display.volume(build.line().accumulator().gasVolumeM3()) + " of gas at "
                + display.pressure(build.line().accumulator().prechargePa()) + " absolute";
    }

    private void wiring() {
        add(
                "Relay",
                "pull-in " + display.shortTime(build.relay().pullInS()) + ", drop-out "
                        + display.shortTime(build.relay().dropOutS()) + ", bounce "
                        + display.shortTime(build.relay().bounceS()));
        double ohm = build.supply().sourceResistanceOhm()
                + build.supply().wireResistanceOhm()
                + build.relay().contactResistanceOhm();
        add(
                "Supply",
                Numbers.fixed(build.supply().openVolts(), 1) + " V open, " + Numbers.fixed(ohm * 1e3, 0)
                        + " mΩ to the electric pump");
    }

    private void oil() {
        add(
                "Oil viscosity",
                Numbers.fixed(build.oil().kinematicViscosity40M2PerS() * 1e6, 1) + " mm²/s at "
                        + display.temperature(40) + ", "
                        + Numbers.fixed(build.oil().kinematicViscosity100M2PerS() * 1e6, 1) + " mm²/s at "
                        + display.temperature(100));
        add("Air in the oil", Numbers.fixed(build.oil().entrainedAir() * 100, 1) + " % by volume");
    }

    private void add(String name, String value) {
        facts.add(new Fact(name, value));
    }
}

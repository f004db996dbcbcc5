package linehold.simulator.window;

import java.util.Set;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.window.Setting.Aid;

/** The same car with another switch-over window and with chosen aids on and all others off. */
final class Tuning {
    /** A help pressure that the build does not give lies this much above its hold pressure, Pa (assumed). */
    private static final double HELP_ABOVE_HOLD_PA = 0.2e5;

    private static final double LEAST_GAP_RAD_PER_S = 50 * Math.PI / 30;

    private Tuning() {}

    /**
     * @param onRadPerS switch-on speed, rad/s
     * @param offRadPerS switch-off speed, rad/s
     * @param aids on; those not named are off. What the build does not calibrate or fit is taken as its default
     * @param ahead carry speed and lead time for the early switch-on (LH-SW-6), as computed for this build
     */
    static Build of(Build build, double onRadPerS, double offRadPerS, Set<Aid> aids, LookAhead ahead) {
        Calibration own = build.calibration();
        Calibration.Builder builder = own.toBuilder()
                .set(Key.SWITCH_ON_SPEED, onRadPerS)
                .set(Key.SWITCH_OFF_SPEED, offRadPerS)
                .set(Key.FALLING_SPEED_PREDICTION, aids.contains(Aid.FALLING_SPEED))
                .set(Key.HELP_PRESSURE, aids.contains(Aid.HELP_PRESSURE) ? helpPa(own) : 0)
                .set(Key.BRAKE_SWITCH_ON_SPEED, aids.contains(Aid.BRAKE) ? brakeRadPerS(own, onRadPerS) : 0);
        ahead.limitedTo(onRadPerS).put(builder);
        if (aids.contains(Aid.HELP_PRESSURE)) {
            builder.set(Key.SENDER_FITTED, true);
        }
        if (aids.contains(Aid.BRAKE)) {
            builder.set(Key.BRAKE_FITTED, true);
            return Changes.sensors(build, withBrake(build.sensors())).withCalibration(builder.build());
        }
        return build.withCalibration(builder.build());
    }

    static double helpPa(Calibration own) {
        double pa = own.get(Key.HELP_PRESSURE);
        double handOverPa = own.get(Key.HAND_OVER_PRESSURE);
        return pa > 0 ? pa : Math.min(own.get(Key.HOLD_PRESSURE) + HELP_ABOVE_HOLD_PA, 0.99 * handOverPa);
    }

    static double brakeRadPerS(Calibration own, double onRadPerS) {
        double speed = own.get(Key.BRAKE_SWITCH_ON_SPEED);
        return Math.max(onRadPerS, speed > 0 ? speed : Key.BRAKE_SWITCH_ON_SPEED.defaultValue());
    }

    /** The least switch-off speed that the controller accepts above a switch-on speed (LH-SW-3), rad/s. */
    static double leastOffRadPerS(Calibration calibration, double onRadPerS) {
        // resolution n²·z·Δt/2π at the switch-off speed n itself: off = on + k·off², the smaller root
        double k =
                calibration.get(Key.PULSES_PER_REVOLUTION) * calibration.get(Key.EDGE_TIME_RESOLUTION) / (2 * Math.PI);
        double resolved = 2 * onRadPerS / (1 + Math.sqrt(Math.max(0, 1 - 4 * k * onRadPerS)));
        return Math.max(onRadPerS + LEAST_GAP_RAD_PER_S, resolved) * (1 + 1e-9);
    }

    private static SensorsSpec withBrake(SensorsSpec sensors) {
        return new SensorsSpec(
                sensors.pulsesPerRev(),
                sensors.pressureFullScalePa(),
                sensors.pressureLagS(),
                sensors.pressureNoisePa(),
                sensors.senderSupplyVolts(),
                sensors.adcBits(),
                sensors.adcFullScaleVolts(),
                sensors.pumpCurrentFitted(),
                sensors.oilTemperatureFitted(),
                true,
                sensors.rangeFitted(),
                sensors.torqueRequestFitted());
    }
}

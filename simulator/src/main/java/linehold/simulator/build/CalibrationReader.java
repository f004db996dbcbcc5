package linehold.simulator.build;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.CalibrationException;
import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec.Band;
import linehold.simulator.build.ApplyElementSpec.Discs;
import linehold.simulator.build.BuildValues.Curve;

/**
 * The controller's calibration from a build file: typed keys as they stand, the others from the parts of the file that
 * describe the car, so that nothing is typed twice.
 */
final class CalibrationReader {
    /** Where a value that is not typed in the calibration comes from, for messages. */
    private static final Map<Key, BuildKey> ORIGIN = origin();

    /** A hot winding stalls at less than its cold resistance says; assumed. */
    private static final double NEAR_STALL = 0.85;
    /** Smallest current told from none, A; assumed. */
    private static final double LEAST_SENSED_AMPS = 0.1;

    private final BuildValues values;
    private final Calibration.Builder builder = Calibration.builder();

    private CalibrationReader(BuildValues values) {
        this.values = values;
    }

    /**
     * @param elements the apply elements in the order of {@link Element}
     * @throws InputException where calibration values contradict each other or the build
     */
    static Calibration read(BuildValues values, List<ApplyElementSpec> elements) {
        CalibrationReader reader = new CalibrationReader(values);
        try {
            for (Key key : Key.values()) {
                switch (key.source()) {
                    case TYPED -> reader.typed(key);
                    case FROM_BUILD -> reader.fromBuild(key, elements);
                }
            }
            return reader.builder.build();
        } catch (CalibrationException e) {
            throw reader.placed(e);
        }
    }

    private void typed(Key key) {
        values.find(FileKeys.path(key)).ifPresent(value -> {
            if (value.value() instanceof Curve curve) {
                builder.setCurve(key, curve.oilC(), curve.values());
            } else if (value.value() instanceof Boolean flag) {
                builder.set(key, flag);
            } else {
                builder.set(key, ((Number) value.value()).doubleValue());
            }
        });
    }

    private void fromBuild(Key key, List<ApplyElementSpec> elements) {
        BuildKey origin = ORIGIN.get(key);
        switch (key) {
            case PULSES_PER_REVOLUTION -> builder.set(key, values.count(origin));
            case ELECTRIC_PUMP_HIGHEST_PRESSURE,
                    CONTROL_PERIOD,
                    SENDER_FULL_SCALE,
                    HOLD_PRESSURE,
                    FIRST_TOUCH_PRESSURE,
                    TOP_TOUCH_PRESSURE,
                    REVERSE_TOUCH_PRESSURE -> builder.set(key, values.si(origin));
            case STANDBY_RELAY_FITTED,
                    SENDER_FITTED,
                    PUMP_CURRENT_FITTED,
                    OIL_TEMPERATURE_FITTED,
                    BRAKE_FITTED,
                    RANGE_FITTED,
                    TORQUE_REQUEST_FITTED -> builder.set(key, values.flag(origin));
            case SENDER_ZERO_FRACTION, SENDER_FULL_SCALE_FRACTION -> {
                // a ratiometric sender of 10 to 90 %, as the sensor model has it: the defaults
            }
            case ENGAGEMENT_ALLOWANCE ->
                builder.setCurve(key, new double[] {-20, 20}, new double[] {
                    values.si(BuildKey.LIMITS_COLD), values.si(BuildKey.LIMITS_WARM)
                });
            case FIRST_TORQUE_PER_PRESSURE ->
                builder.set(key, motorTorquePerPa(elements.get(Element.LOW_BAND.ordinal())));
            case TOP_TORQUE_PER_PRESSURE ->
                builder.set(key, motorTorquePerPa(elements.get(Element.HIGH_CLUTCH.ordinal())));
            case REVERSE_TORQUE_PER_PRESSURE ->
                builder.set(key, motorTorquePerPa(elements.get(Element.REVERSE_CLUTCH.ordinal())));
            case PUMP_CURRENT_OPEN -> builder.set(key, openAmps());
            case PUMP_CURRENT_DRY -> builder.set(key, dryAmps());
            case PUMP_CURRENT_STALLED -> builder.set(key, stalledAmps());
            default -> throw new IllegalStateException("no part of the build file gives " + key.yamlName());
        }
    }

    /**
     * Motor torque that an element carries per Pa above touch, safety factor counted (LH-PR-5). A band counts with drum
     * torque against it, whichever way the motor pulls: the limit must hold on the overrun too. Capacity as in
     * docs/model.md: capstan relation for a band, uniform wear for discs (Shigley).
     */
    private double motorTorquePerPa(ApplyElementSpec element) {
        double frictionArm;
        if (element.friction() instanceof Band band) {
            frictionArm = band.drumRadiusM() * (1 - Math.exp(-element.frictionCoefficient() * band.wrapRad()));
        } else {
            Discs discs = (Discs) element.friction();
            frictionArm = element.frictionCoefficient() * discs.frictionFaces() * discs.meanRadiusM();
        }
        return frictionArm * element.pistonAreaM2() / (element.torqueShare() * values.si(BuildKey.LIMITS_SAFETY));
    }

    /** Half the current that dry friction alone takes, A: T_c0/(2·K); not below what a current sensor can tell from none. */
    private double openAmps() {
        double frictionAmps = values.si(BuildKey.ELECTRIC_DRY_FRICTION) / values.si(BuildKey.ELECTRIC_MOTOR_CONSTANT);
        return Math.min(dryAmps() / 2, Math.max(LEAST_SENSED_AMPS, frictionAmps / 2));
    }

    /**
     * Current of the pump in warm oil against half the hold pressure, A: (T_c0 + b·V/K + D·p_hold/2)/K with the motor's
     * no-load speed V/K. Less than that cannot hold the line.
     */
    private double dryAmps() {
        double constantNmPerA = values.si(BuildKey.ELECTRIC_MOTOR_CONSTANT);
        double noLoadRadPerS = nominalVolts() / constantNmPerA;
        double torqueNm = values.si(BuildKey.ELECTRIC_DRY_FRICTION)
                + values.si(BuildKey.ELECTRIC_VISCOUS_FRICTION) * noLoadRadPerS
                + values.si(BuildKey.ELECTRIC_DISPLACEMENT) / (2 * Math.PI) * values.si(BuildKey.LIMITS_HOLD) / 2;
        return Math.min(stalledAmps() / 2, torqueNm / constantNmPerA);
    }

    /**
     * Near the current of the standing pump, A: V/R over motor, cable and contact. The source's resistance is not in it,
     * since the bands follow the measured bus voltage.
     */
    private double stalledAmps() {
        double ohm = values.si(BuildKey.ELECTRIC_ARMATURE)
                + values.si(BuildKey.SUPPLY_WIRE)
                + values.si(BuildKey.RELAY_CONTACT);
        return NEAR_STALL * nominalVolts() / ohm;
    }

    private double nominalVolts() {
        return values.find(FileKeys.path(Key.NOMINAL_BUS_VOLTAGE))
                .map(value -> ((Number) value.value()).doubleValue())
                .orElse(Key.NOMINAL_BUS_VOLTAGE.defaultValue());
    }

    private InputException placed(CalibrationException e) {
        BuildKey origin = ORIGIN.get(e.key());
        String path = origin == null ? FileKeys.path(e.key()) : origin.path();
        boolean absent = values.find(path).isEmpty();
        String message = e.getMessage() + (absent ? ", and the file leaves it at its default" : "");
        return new InputException(values.error(path, message).getMessage(), e);
    }

    private static Map<Key, BuildKey> origin() {
        Map<Key, BuildKey> origin = new EnumMap<>(Key.class);
        origin.put(Key.PULSES_PER_REVOLUTION, BuildKey.SENSORS_PULSES);
        origin.put(Key.ELECTRIC_PUMP_HIGHEST_PRESSURE, BuildKey.ELECTRIC_RELIEF);
        origin.put(Key.CONTROL_PERIOD, BuildKey.CONTROL_PERIOD);
        origin.put(Key.STANDBY_RELAY_FITTED, BuildKey.RELAY_STANDBY_FITTED);
        origin.put(Key.SENDER_FITTED, BuildKey.SENSORS_SENDER_FITTED);
        origin.put(Key.SENDER_FULL_SCALE, BuildKey.SENSORS_FULL_SCALE);
        origin.put(Key.HOLD_PRESSURE, BuildKey.LIMITS_HOLD);
        origin.put(Key.ENGAGEMENT_ALLOWANCE, BuildKey.LIMITS_COLD);
        origin.put(Key.FIRST_TORQUE_PER_PRESSURE, BuildKey.BAND_AREA);
        origin.put(Key.FIRST_TOUCH_PRESSURE, BuildKey.BAND_TOUCH);
        origin.put(Key.TOP_TORQUE_PER_PRESSURE, BuildKey.HIGH_AREA);
        origin.put(Key.TOP_TOUCH_PRESSURE, BuildKey.HIGH_TOUCH);
        origin.put(Key.REVERSE_TORQUE_PER_PRESSURE, BuildKey.REVERSE_AREA);
        origin.put(Key.REVERSE_TOUCH_PRESSURE, BuildKey.REVERSE_TOUCH);
        origin.put(Key.PUMP_CURRENT_OPEN, BuildKey.ELECTRIC_DRY_FRICTION);
        origin.put(Key.PUMP_CURRENT_DRY, BuildKey.ELECTRIC_DISPLACEMENT);
        origin.put(Key.PUMP_CURRENT_STALLED, BuildKey.ELECTRIC_ARMATURE);
        origin.put(Key.PUMP_CURRENT_FITTED, BuildKey.SENSORS_CURRENT_FITTED);
        origin.put(Key.OIL_TEMPERATURE_FITTED, BuildKey.SENSORS_OIL_FITTED);
        origin.put(Key.BRAKE_FITTED, BuildKey.SENSORS_BRAKE_FITTED);
        origin.put(Key.RANGE_FITTED, BuildKey.SENSORS_RANGE_FITTED);
        origin.put(Key.TORQUE_REQUEST_FITTED, BuildKey.SENSORS_TORQUE_FITTED);
        return origin;
    }
}

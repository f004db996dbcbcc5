package linehold.rig.paper;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.CalibrationException;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;

/**
 * A switch-over window that a person tries: values as typed, with their units, so that a file that is saved says exactly
 * what was proved.
 *
 * @param typed by key, such as {@code 770 rpm}; a key that is absent stays as the build has it
 * @param speedAlone no early switch-on, no help pressure, no brake switch
 */
public record TriedWindow(Map<Key, String> typed, boolean speedAlone) {
    /** What can be moved. */
    public static final List<Key> KEYS =
            List.of(Key.SWITCH_ON_SPEED, Key.SWITCH_OFF_SPEED, Key.MINIMUM_RUN_TIME, Key.HELP_PRESSURE);

    /** @throws IllegalArgumentException where another key is among them */
    public TriedWindow {
        if (!KEYS.containsAll(typed.keySet())) {
            throw new IllegalArgumentException("only " + KEYS + " can be moved");
        }
        Map<Key, String> ordered = new EnumMap<>(Key.class);
        ordered.putAll(typed);
        typed = ordered;
    }

    /**
     * The build with that window.
     *
     * @throws InputException where a value is none, or the controller refuses them together
     */
    public Build of(Build build) {
        try {
            Calibration.Builder builder = build.calibration().toBuilder();
            typed.forEach((key, text) -> builder.set(key, si(key, text)));
            if (speedAlone) {
                builder.set(Key.FALLING_SPEED_PREDICTION, false)
                        .set(Key.HELP_PRESSURE, 0)
                        .set(Key.BRAKE_SWITCH_ON_SPEED, 0);
            }
            return build.withCalibration(builder.build());
        } catch (CalibrationException e) {
            throw new InputException(e.getMessage(), e);
        }
    }

    private static double si(Key key, String text) {
        return Quantities.parse(text.strip(), quantity(key))
                .orElseThrow(() -> new InputException(
                        key.yamlName() + ": found '" + text + "', expected a number and its unit, such as '"
                                + key.quantity().text(key.defaultValue()) + "'"));
    }

    private static Quantity quantity(Key key) {
        return switch (key.quantity()) {
            case SPEED -> Quantity.ROTATION;
            case TIME -> Quantity.TIME;
            case PRESSURE -> Quantity.PRESSURE;
            default -> throw new IllegalArgumentException(key + " cannot be moved");
        };
    }
}

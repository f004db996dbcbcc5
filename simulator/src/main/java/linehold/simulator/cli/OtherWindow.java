package linehold.simulator.cli;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.CalibrationException;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import picocli.CommandLine.Option;

/** Options that try another switch-over window than the build file's. */
final class OtherWindow {
    @Option(
            names = "--switch-on",
            paramLabel = "SPEED",
            description = "Switch the electric pump on below this speed instead of the build's, such as '770 rpm'.")
    private String switchOn;

    @Option(
            names = "--switch-off",
            paramLabel = "SPEED",
            description = "Hand over above this speed instead of the build's.")
    private String switchOff;

    @Option(
            names = "--speed-alone",
            description = "By shaft speed alone: no early switch-on, no help pressure, no brake switch.")
    private boolean speedAlone;

    /**
     * The build with that window.
     *
     * @throws InputException where a speed is none, or the controller refuses them
     */
    Build of(Build build) {
        try {
            Calibration.Builder builder = build.calibration().toBuilder();
            if (switchOn != null) {
                builder.set(Key.SWITCH_ON_SPEED, speed("--switch-on", switchOn));
            }
            if (switchOff != null) {
                builder.set(Key.SWITCH_OFF_SPEED, speed("--switch-off", switchOff));
            }
            if (speedAlone) {
                builder.set(Key.FALLING_SPEED_PREDICTION, false)
                        .set(Key.HELP_PRESSURE, 0)
                        .set(Key.BRAKE_SWITCH_ON_SPEED, 0);
            }
            return build.withCalibration(builder.build());
        } catch (CalibrationException e) {
            throw new InputException("--switch-on, --switch-off: " + e.getMessage(), e);
        }
    }

    private static double speed(String option, String typed) {
        return Quantities.parse(typed.strip(), Quantity.ROTATION)
                .orElseThrow(() ->
                        new InputException(option + ": found '" + typed + "', expected a speed such as '770 rpm'"));
    }
}

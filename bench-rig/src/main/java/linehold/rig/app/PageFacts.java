package linehold.rig.app;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.rig.loop.RigFault;
import linehold.simulator.build.Build;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.report.Words;

/**
 * What the page must know before the first tick: SI values of the window, and the words for what a tick holds as numbers.
 *
 * @param rig what the ticks come from; null where no rig is running
 * @param carriers by the ordinal of the pump's state: which pump holds the line then
 */
record PageFacts(
        String release,
        String build,
        String sha256,
        String units,
        String rig,
        double holdPa,
        double helpPa,
        double switchOnRadPerS,
        double switchOffRadPerS,
        boolean normallyClosed,
        boolean standbyFitted,
        double contactClosedFraction,
        double nominalBusV,
        List<String> states,
        List<String> carriers,
        List<String> reasons,
        List<String> permissions,
        List<Code> codes,
        List<Fault> rigFaults) {
    /** @param bit its place in a tick's set of codes */
    record Code(int bit, String number, String title) {}

    record Fault(int bit, String text) {}

    static PageFacts of(Build build, String rig) {
        return of(build, rig, Words::of, PageFacts::carrier);
    }

    /** A bench, where a step and not the controller decides for as long as the state is off. */
    static PageFacts bench(Build build, String rig) {
        return of(
                build,
                rig,
                state -> state == PumpState.OFF ? "by the step" : Words.of(state),
                state -> state == PumpState.OFF ? "see coils" : carrier(state));
    }

    private static PageFacts of(
            Build build, String rig, Function<PumpState, String> state, Function<PumpState, String> carrier) {
        Calibration calibration = build.calibration();
        return new PageFacts(
                Main.RELEASE,
                build.name(),
                build.sha256(),
                build.units() == UnitSystem.US ? "us" : "metric",
                rig,
                calibration.get(Key.HOLD_PRESSURE),
                calibration.get(Key.HELP_PRESSURE),
                calibration.get(Key.SWITCH_ON_SPEED),
                calibration.get(Key.SWITCH_OFF_SPEED),
                calibration.is(Key.NORMALLY_CLOSED_CONTACT),
                calibration.is(Key.STANDBY_RELAY_FITTED),
                calibration.get(Key.CONTACT_CLOSED_FRACTION),
                calibration.get(Key.NOMINAL_BUS_VOLTAGE),
                Arrays.stream(PumpState.values()).map(state).toList(),
                Arrays.stream(PumpState.values()).map(carrier).toList(),
                Arrays.stream(SwitchReason.values())
                        .map(reason -> reason.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                        .toList(),
                Arrays.stream(DrivePermission.values()).map(Words::of).toList(),
                Arrays.stream(TroubleCode.values())
                        .map(code -> new Code(Long.numberOfTrailingZeros(code.bit()), code.number(), code.title()))
                        .toList(),
                Arrays.stream(RigFault.values())
                        .map(fault -> new Fault(fault.ordinal(), fault.text()))
                        .toList());
    }

    private static String carrier(PumpState state) {
        return switch (state) {
            case OFF -> "nothing";
            case PRIME, ELECTRIC -> "electric pump";
            case OVERLAP, HELP -> "both pumps";
            case INTERNAL -> "internal pump";
        };
    }
}

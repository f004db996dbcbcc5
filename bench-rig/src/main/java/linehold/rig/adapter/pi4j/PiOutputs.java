package linehold.rig.adapter.pi4j;

import com.pi4j.io.gpio.digital.DigitalOutput;
import linehold.controller.DrivePermission;
import linehold.rig.board.Board;
import linehold.rig.board.BoardFunction;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PermissionOutput;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchOutput;
import linehold.rig.port.Watchdog;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The driven lines. Each names the level that it takes when it is opened and when it is closed, and the requirement that
 * makes that level safe.
 */
final class PiOutputs {
    private static final Logger LOG = LoggerFactory.getLogger(PiOutputs.class);

    private final Board board;
    private final Hardware hardware;
    private final OutputPorts ports;
    private final Watchdog heartbeat;
    private final boolean mainCoilSafe;

    PiOutputs(Board board, boolean normallyClosed, Hardware hardware) {
        this.board = board;
        this.hardware = hardware;
        // LH-RL-6: with a normally closed contact the pump runs while the coil is released, else while it is energised.
        mainCoilSafe = !normallyClosed;
        SwitchOutput mainCoil = line(BoardFunction.MAIN_COIL, mainCoilSafe);
        // LH-RL-6: the pump already runs by the main relay.
        SwitchOutput standbyCoil = line(BoardFunction.STANDBY_COIL, false);
        // LH-EL-2, LH-RL-5: no drive before the calibration is valid and the relays have been tested.
        PermissionOutput permission = new PermissionLines(
                line(BoardFunction.PERMISSION_GRANTED, false), line(BoardFunction.PERMISSION_REDUCED, false));
        // LH-TK-3: a lamp that is lit without a program says that there is none.
        SwitchOutput lamp = line(BoardFunction.LAMP, true);
        // LH-TK-3: the buzzer is for the driver, who has the lamp already.
        SwitchOutput buzzer = line(BoardFunction.BUZZER, false);
        ports = new OutputPorts(mainCoil, standbyCoil, permission, lamp, buzzer);
        // LH-RL-6: a beat that stands still, at either level, takes the supply off the coils.
        heartbeat = board.has(BoardFunction.HEARTBEAT)
                ? new Heartbeat(line(BoardFunction.HEARTBEAT, false))
                : Watchdog.NONE;
    }

    private SwitchOutput line(BoardFunction function, boolean safe) {
        return board.output(function)
                .<SwitchOutput>map(wire -> {
                    DigitalOutput output = hardware.output(function.section(), wire, wire.level(safe));
                    return new LineOutput(output, wire);
                })
                .orElse(SwitchOutput.ABSENT);
    }

    OutputPorts ports() {
        return ports;
    }

    Watchdog heartbeat() {
        return heartbeat;
    }

    /** Every output to its safe level, each whatever becomes of the others. */
    void safe() {
        attempt(() -> ports.mainCoil().set(mainCoilSafe));
        attempt(() -> ports.standbyCoil().set(false));
        attempt(() -> ports.permission().set(DrivePermission.WITHHELD, 0));
        attempt(() -> ports.lamp().set(true));
        attempt(() -> ports.buzzer().set(false));
    }

    private interface Act {
        void run() throws PortException;
    }

    private static void attempt(Act act) {
        try {
            act.run();
        } catch (PortException e) {
            LOG.warn("while closing: {}", e.getMessage());
        }
    }
}

package linehold.rig.adapter.pi4j;

import linehold.rig.port.PortException;
import linehold.rig.port.SwitchOutput;
import linehold.rig.port.Watchdog;

/**
 * A line that changes at every completed tick. Outside the board a retriggerable monostable watches it and takes the
 * supply off the coils when it stops at either level, long before any watchdog resets the board.
 */
final class Heartbeat implements Watchdog {
    private final SwitchOutput line;
    private boolean on;

    Heartbeat(SwitchOutput line) {
        this.line = line;
    }

    @Override
    public void feed() {
        on = !on;
        try {
            line.set(on);
        } catch (PortException e) {
            // A beat that does not come is what the monostable is there for.
            return;
        }
    }
}

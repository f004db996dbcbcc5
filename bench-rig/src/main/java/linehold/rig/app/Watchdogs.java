package linehold.rig.app;

import java.util.ArrayList;
import java.util.List;
import linehold.rig.adapter.pi4j.PiCar;
import linehold.rig.adapter.system.DeviceWatchdog;
import linehold.rig.adapter.system.ServiceWatchdog;
import linehold.rig.port.Car;
import linehold.rig.port.Watchdog;

/** Everything that a completed tick feeds. */
final class Watchdogs implements Watchdog {
    private final Watchdog[] fed;
    private final List<AutoCloseable> closed = new ArrayList<>();

    private Watchdogs(List<Watchdog> fed) {
        this.fed = fed.toArray(new Watchdog[0]);
    }

    static Watchdogs open(RigOptions options, Car car) {
        List<Watchdog> fed = new ArrayList<>();
        if (car instanceof PiCar board) {
            fed.add(board.heartbeat());
        }
        ServiceWatchdog.fromEnvironment().ifPresent(fed::add);
        if (options.watchdog != null) {
            fed.add(DeviceWatchdog.open(options.watchdog));
        }
        Watchdogs all = new Watchdogs(fed);
        fed.stream()
                .filter(AutoCloseable.class::isInstance)
                .map(AutoCloseable.class::cast)
                .forEach(all.closed::add);
        return all;
    }

    @Override
    public void feed() {
        for (int i = 0; i < fed.length; i++) {
            fed[i].feed();
        }
    }

    /** Only after the outputs have been set to their safe levels in good order: from now on nothing resets the board. */
    void endInOrder() {
        for (AutoCloseable watchdog : closed) {
            try {
                watchdog.close();
            } catch (Exception e) {
                throw new IllegalStateException("a watchdog cannot be closed", e);
            }
        }
    }
}

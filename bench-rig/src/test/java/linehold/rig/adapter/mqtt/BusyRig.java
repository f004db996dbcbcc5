package linehold.rig.adapter.mqtt;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.rig.adapter.system.SystemClock;
import linehold.rig.loop.ControlLoop;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.RigFaults;
import linehold.rig.loop.TickRing;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.Car;
import linehold.rig.port.InputPorts;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.PermissionOutput;
import linehold.rig.port.RangeInput;
import linehold.rig.port.SwitchOutput;
import linehold.rig.port.Watchdog;

/** A control loop in real time with a decision that changes the pump's state every few ticks: events without end. */
final class BusyRig implements AutoCloseable {
    static final RigIdentity IDENTITY =
            new RigIdentity("linehold test", "busy", "demonstration", "00", 0x1234_5678_9abc_def0L, 5_000_000);
    private static final long PERIOD_NS = 5_000_000;

    final RigFaults faults = new RigFaults();
    final TickRing ring = new TickRing(4096);
    final SystemClock clock = new SystemClock();
    /** States in the order in which they were entered; the end of the loop is no change. */
    final List<String> entered = new CopyOnWriteArrayList<>();

    private final ControlLoop loop;
    private final Thread thread;
    private int ticks;
    private PumpState state = PumpState.ELECTRIC;

    /** @param ticksPerState how long each state lasts */
    BusyRig(int ticksPerState) {
        loop = new ControlLoop(
                new Nothing(),
                (nowNs, in, out) -> decide(ticksPerState, in, out),
                clock,
                Watchdog.NONE,
                true,
                PERIOD_NS,
                faults,
                ring);
        thread = new Thread(loop::run, "busy-rig");
    }

    private void decide(int ticksPerState, Inputs in, Outputs out) {
        if (ticks++ % ticksPerState == 0) {
            state = state == PumpState.ELECTRIC ? PumpState.INTERNAL : PumpState.ELECTRIC;
            entered.add(Payloads.word(state));
        }
        out.state = state;
        out.reason = SwitchReason.HAND_OVER_CONFIRMED;
        out.permission = DrivePermission.GRANTED;
        out.torqueLimitNm = Double.POSITIVE_INFINITY;
        out.linePressurePa = 500_000 + ticks % 2 * 1000.0;
    }

    void start() {
        thread.start();
    }

    boolean offline() {
        return (faults.bits() & RigFault.TELEMETRY_OFFLINE.bit()) != 0;
    }

    @Override
    public void close() throws InterruptedException {
        loop.stop();
        thread.join();
    }

    /** Nothing is wired. */
    private static final class Nothing implements Car {
        @Override
        public InputPorts inputs() {
            AnalogInput none = AnalogInput.ABSENT;
            return new InputPorts(
                    into -> {},
                    none,
                    none,
                    none,
                    none,
                    none,
                    none,
                    none,
                    () -> true,
                    () -> false,
                    RangeInput.ABSENT,
                    none);
        }

        @Override
        public OutputPorts outputs() {
            SwitchOutput none = SwitchOutput.ABSENT;
            return new OutputPorts(none, none, PermissionOutput.ABSENT, none, none);
        }

        @Override
        public boolean alive() {
            return true;
        }

        @Override
        public void close() {}
    }
}

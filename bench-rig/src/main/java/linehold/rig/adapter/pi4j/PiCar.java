package linehold.rig.adapter.pi4j;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import linehold.rig.board.Board;
import linehold.rig.board.BoardFunction;
import linehold.rig.port.Car;
import linehold.rig.port.InputPorts;
import linehold.rig.port.OutputPorts;
import linehold.rig.port.Watchdog;
import linehold.simulator.build.InputException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A real board behind the ports. From the moment it is open every output has its safe level: the pump runs, drive is
 * withheld, the lamp is lit (LH-RL-6). One thread counts edges, one for each I2C bus reads converters; the loop only picks
 * up what they leave.
 */
public final class PiCar implements Car {
    private static final Logger LOG = LoggerFactory.getLogger(PiCar.class);
    private static final long LONGEST_END_MS = 300;

    private final BoardLock lock;
    private final Hardware hardware;
    private final PiOutputs outputs;
    private final PiInputs inputs;
    private final List<Thread> threads = new ArrayList<>();

    private PiCar(BoardLock lock, Hardware hardware, PiOutputs outputs, PiInputs inputs) {
        this.lock = lock;
        this.hardware = hardware;
        this.outputs = outputs;
        this.inputs = inputs;
    }

    /**
     * Opens a board and sets its outputs to their safe levels.
     *
     * @param normallyClosed the pump hangs on the normally closed contact of the main relay (LH-RL-6)
     * @param begin what each thread that reads inputs does first, such as asking for a priority
     * @throws InputException with one sentence where the board is in use, is none, lacks something, or could leave the pump
     *     standing; nothing is then held
     */
    public static PiCar open(Board board, boolean normallyClosed, Runnable begin) {
        PiHardware.refuseOtherMachines();
        BoardLock lock = BoardLock.take(BoardLock.FOLDER, board.name());
        try {
            Chip chip = Chip.find(board.chip());
            PiHardware hardware = PiHardware.open();
            if (!board.has(BoardFunction.HEARTBEAT)) {
                chip.refuseLinesThatStay(Path.of("/sys/module"));
            }
            return open(board, normallyClosed, begin, hardware, lock, System::nanoTime);
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    /** @param clock monotonic, ns, the kernel's for edges */
    static PiCar open(
            Board board,
            boolean normallyClosed,
            Runnable begin,
            Hardware hardware,
            BoardLock lock,
            LongSupplier clock) {
        try {
            // Outputs first: from here on the pump runs whatever else is wrong.
            PiOutputs outputs = new PiOutputs(board, normallyClosed, hardware);
            PiInputs inputs = new PiInputs(board, hardware, clock);
            PiCar car = new PiCar(lock, hardware, outputs, inputs);
            inputs.runnables()
                    .forEach((name, reading) -> car.start(name, () -> {
                        begin.run();
                        reading.run();
                    }));
            return car;
        } catch (RuntimeException e) {
            hardware.close();
            throw e;
        }
    }

    private void start(String name, Runnable runnable) {
        Thread thread = new Thread(runnable, name);
        thread.setDaemon(true);
        thread.setPriority(Thread.MAX_PRIORITY);
        thread.setUncaughtExceptionHandler((where, defect) -> LOG.error(
                "thread {} has ended by a defect; its inputs are absent from now on", where.getName(), defect));
        threads.add(thread);
        thread.start();
    }

    @Override
    public InputPorts inputs() {
        return inputs.ports();
    }

    @Override
    public OutputPorts outputs() {
        return outputs.ports();
    }

    /** The line for a monostable outside the board; {@link Watchdog#NONE} where none is fitted. */
    public Watchdog heartbeat() {
        return outputs.heartbeat();
    }

    @Override
    public boolean alive() {
        return inputs.alive();
    }

    /** Safe levels, then the threads, then the lines. A thread that hangs in the kernel keeps no coil energised. */
    @Override
    public void close() {
        outputs.safe();
        inputs.stop();
        if (ended()) {
            hardware.close();
        } else {
            LOG.warn("a transfer hangs in the kernel; its lines are left to the end of the process");
        }
        if (lock != null) {
            lock.close();
        }
    }

    private boolean ended() {
        long endNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(LONGEST_END_MS);
        try {
            for (Thread thread : threads) {
                thread.join(Math.max(1, TimeUnit.NANOSECONDS.toMillis(endNs - System.nanoTime())));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return threads.stream().noneMatch(Thread::isAlive);
    }
}

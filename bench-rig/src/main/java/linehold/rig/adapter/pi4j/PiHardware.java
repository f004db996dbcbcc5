package linehold.rig.adapter.pi4j;

import com.pi4j.Pi4J;
import com.pi4j.boardinfo.util.BoardInfoHelper;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.i2c.I2C;
import com.pi4j.io.i2c.I2CConfig;
import com.pi4j.library.gpiod.internal.GpioDContext;
import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import com.pi4j.library.gpiod.internal.LineRequestFlag;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.i2c.LinuxFsI2CProvider;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import linehold.rig.board.Converter;
import linehold.rig.board.Wire;
import linehold.simulator.build.InputException;

/**
 * The board through Pi4J, its two providers named one by one. Outputs are Pi4J's; inputs use the layer below it, because
 * Pi4J's own inputs keep a thread each and lose the kernel's times of edges (docs/decisions/0040).
 */
final class PiHardware implements Hardware {
    private static final String CONSUMER = "linehold-";

    private final Context context;
    private final IntFunction<GpioLine> lines;

    PiHardware(Context context, IntFunction<GpioLine> lines) {
        this.context = context;
        this.lines = lines;
    }

    /** @throws InputException where this machine cannot be such a board */
    static void refuseOtherMachines() {
        String machine = System.getProperty("os.arch");
        if (!machine.equals("aarch64") && !machine.equals("arm")) {
            throw new InputException("--io pi: found a machine of type " + machine
                    + ", expected a board of the Raspberry Pi class (aarch64)");
        }
    }

    /** @throws InputException where this machine is no such board */
    static PiHardware open() {
        return refusing("the board", () -> {
            if (!BoardInfoHelper.runningOnRaspberryPi()) {
                throw new InputException("--io pi: found a board that tells no known revision in /proc/cpuinfo,"
                        + " expected one of the Raspberry Pi class");
            }
            Context context = Pi4J.newContextBuilder()
                    .add(GpioDDigitalOutputProvider.newInstance(), LinuxFsI2CProvider.newInstance())
                    .disableShutdownHook()
                    .build();
            return new PiHardware(context, GpioDContext.getInstance()::getOrOpenLine);
        });
    }

    @Override
    public DigitalOutput output(String function, Wire.Output wire, boolean safeHigh) {
        DigitalState safe = DigitalState.getState(safeHigh);
        DigitalOutputConfig config = DigitalOutput.newConfigBuilder(context)
                .id(CONSUMER + function)
                .address(wire.line())
                .initial(safe)
                .shutdown(safe)
                .build();
        return refusing(function + ": line " + wire.line(), () -> context.create(config));
    }

    @Override
    public GpioLine input(String function, Wire.Input wire) {
        return refusing(function + ": line " + wire.line(), () -> {
            GpioLine line = lines.apply(wire.line());
            line.requestInputFlags(CONSUMER + function, flags(wire.pull()));
            return line;
        });
    }

    @Override
    public GpioLine edges(String function, Wire.Pickup wire) {
        return refusing(function + ": line " + wire.line(), () -> {
            GpioLine line = lines.apply(wire.line());
            line.requestBothEdgeEventsFlags(CONSUMER + function, flags(wire.pull()));
            return line;
        });
    }

    @Override
    public GpioLineEvent event() {
        return GpioDContext.getInstance().openLineEvent();
    }

    private static int flags(Wire.Pull pull) {
        return switch (pull) {
            case NONE -> LineRequestFlag.BIAS_DISABLE.getVal();
            case UP -> LineRequestFlag.BIAS_PULL_UP.getVal();
            case DOWN -> LineRequestFlag.BIAS_PULL_DOWN.getVal();
        };
    }

    @Override
    public I2C converter(String name, Converter converter) {
        I2CConfig config = I2C.newConfigBuilder(context)
                .id(CONSUMER + name)
                .bus(converter.bus())
                .device(converter.address())
                .build();
        return refusing(name + ": bus " + converter.bus(), () -> context.create(config));
    }

    @Override
    public void close() {
        context.shutdown();
    }

    /** What cannot be opened is one sentence about the board, not a defect of the program. */
    private static <T> T refusing(String what, Supplier<T> open) {
        try {
            return open.get();
        } catch (GpioDException | Pi4JException | IllegalStateException | LinkageError e) {
            throw refused(what, e);
        }
    }

    private static InputException refused(String what, Throwable e) {
        Throwable root = e;
        while (root.getCause() != null) {
            root = root.getCause();
        }
        String answer = String.valueOf(root.getMessage()).replaceAll("\\s+", " ");
        if (answer.contains("resource busy")) {
            return new InputException(
                    what + ": found it busy, expected it free; another linehold, or another program, holds it", e);
        }
        if (answer.contains("denied")) {
            return new InputException(
                    what + ": found no permission to open it, expected a user of the groups gpio and i2c", e);
        }
        return new InputException(what + ": found no way to open it (" + answer + ")", e);
    }
}

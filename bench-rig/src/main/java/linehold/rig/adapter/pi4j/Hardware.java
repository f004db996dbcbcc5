package linehold.rig.adapter.pi4j;

import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.i2c.I2C;
import com.pi4j.library.gpiod.internal.GpioLine;
import com.pi4j.library.gpiod.internal.GpioLineEvent;
import linehold.rig.board.Converter;
import linehold.rig.board.Wire;

/** What of the board can be opened. Every method throws {@link linehold.simulator.build.InputException} where it cannot. */
interface Hardware extends AutoCloseable {
    /**
     * A line that is driven from the first moment on.
     *
     * @param function what messages and the kernel's list of lines call it
     * @param safeHigh its level at once, and again when it is closed
     */
    DigitalOutput output(String function, Wire.Output wire, boolean safeHigh);

    /** A line that is asked for its level. */
    GpioLine input(String function, Wire.Input wire);

    /** A line of which the kernel keeps every edge with its time. */
    GpioLine edges(String function, Wire.Pickup wire);

    /** Where an edge is read into, over and over. */
    GpioLineEvent event();

    /** A device on an I2C bus. That it answers is not known before it is first read. */
    I2C converter(String name, Converter converter);

    /** Sets every output to its safe level and lets go of all lines. */
    @Override
    void close();
}

package linehold.rig.adapter.pi4j;

import com.pi4j.exception.Pi4JException;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.library.gpiod.internal.GpioDException;
import linehold.rig.board.Wire;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchOutput;

/** A line that is driven. Each set is one call into the kernel, which does not wait. */
final class LineOutput implements SwitchOutput {
    private final DigitalOutput output;
    private final DigitalState onLevel;
    private final DigitalState offLevel;
    /** Made once: a line that fails does so at every tick, and a tick allocates nothing. */
    private final PortException failed;

    LineOutput(DigitalOutput output, Wire.Output wire) {
        this.output = output;
        onLevel = DigitalState.getState(wire.level(true));
        offLevel = DigitalState.getState(wire.level(false));
        failed = new PortException("line " + wire.line() + " cannot be set");
    }

    @Override
    public void set(boolean on) throws PortException {
        try {
            output.state(on ? onLevel : offLevel);
        } catch (GpioDException | Pi4JException e) {
            throw failed;
        }
    }
}

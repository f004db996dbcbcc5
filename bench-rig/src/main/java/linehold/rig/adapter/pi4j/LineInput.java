package linehold.rig.adapter.pi4j;

import com.pi4j.library.gpiod.internal.GpioDException;
import com.pi4j.library.gpiod.internal.GpioLine;
import linehold.rig.board.Wire;
import linehold.rig.port.PortException;
import linehold.rig.port.SwitchInput;

/** A line that is asked for its level: one call into the kernel, which does not wait. */
final class LineInput implements SwitchInput {
    private final GpioLine line;
    private final int onLevel;
    private final PortException failed;

    LineInput(GpioLine line, Wire.Input wire) {
        this.line = line;
        onLevel = wire.activeHigh() ? 1 : 0;
        failed = new PortException("line " + wire.line() + " cannot be read");
    }

    @Override
    public boolean read() throws PortException {
        try {
            return line.getValue() == onLevel;
        } catch (GpioDException e) {
            throw failed;
        }
    }
}

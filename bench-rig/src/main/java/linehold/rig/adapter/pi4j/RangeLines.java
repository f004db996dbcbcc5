package linehold.rig.adapter.pi4j;

import java.util.Map;
import linehold.controller.Range;
import linehold.rig.port.PortException;
import linehold.rig.port.RangeInput;
import linehold.rig.port.SwitchInput;

/** One line for each range. Between two ranges none, or two, are on: the range is then not known. */
final class RangeLines implements RangeInput {
    private static final Range[] RANGES = Range.values();

    private final SwitchInput[] lines = new SwitchInput[RANGES.length];

    RangeLines(Map<Range, SwitchInput> lines) {
        for (Range range : RANGES) {
            this.lines[range.ordinal()] = lines.get(range);
        }
    }

    @Override
    public Range read() throws PortException {
        Range found = null;
        int on = 0;
        for (int i = 0; i < RANGES.length; i++) {
            if (lines[i].read()) {
                found = RANGES[i];
                on++;
            }
        }
        return on == 1 ? found : null;
    }
}

package linehold.rig.board;

import java.util.Map;
import java.util.Optional;

/**
 * A board as its file describes it: which line or channel is what.
 *
 * @param name what messages call it
 * @param chip part of the label of the chip that has the lines
 * @param converters by number, 1 to 4
 * @param wires what is fitted
 */
public record Board(String name, String chip, Map<Integer, Converter> converters, Map<BoardFunction, Wire> wires) {
    public boolean has(BoardFunction function) {
        return wires.containsKey(function);
    }

    public Optional<Wire.Output> output(BoardFunction function) {
        return wire(function, Wire.Output.class);
    }

    public Optional<Wire.Input> input(BoardFunction function) {
        return wire(function, Wire.Input.class);
    }

    public Optional<Wire.Pickup> pickup() {
        return wire(BoardFunction.PICKUP, Wire.Pickup.class);
    }

    public Optional<Wire.Analog> analog(BoardFunction function) {
        return wire(function, Wire.Analog.class);
    }

    private <T extends Wire> Optional<T> wire(BoardFunction function, Class<T> type) {
        return Optional.ofNullable(wires.get(function)).filter(type::isInstance).map(type::cast);
    }
}

package linehold.rig.adapter.pi4j;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import linehold.controller.Range;
import linehold.rig.board.Board;
import linehold.rig.board.BoardFunction;
import linehold.rig.board.Wire;
import linehold.rig.port.AnalogInput;
import linehold.rig.port.InputPorts;
import linehold.rig.port.RangeInput;
import linehold.rig.port.SwitchInput;

/** The read lines and channels, and the threads that keep them fresh. */
final class PiInputs {
    private final Board board;
    private final Hardware hardware;
    private final LongSupplier clock;
    private final Map<Integer, ConverterBus> buses = new TreeMap<>();
    private final List<ChannelValue> values = new ArrayList<>();
    private final EdgeCounter pickup;
    private final InputPorts ports;

    PiInputs(Board board, Hardware hardware, LongSupplier clock) {
        this.board = board;
        this.hardware = hardware;
        this.clock = clock;
        openConverters();
        pickup = pickup();
        AnalogInput supply = channel(BoardFunction.SENDER_SUPPLY, AnalogInput.ABSENT);
        AnalogInput bus = channel(BoardFunction.BUS, supply);
        ports = new InputPorts(
                pickup,
                channel(BoardFunction.PRESSURE_SENDER, supply),
                supply,
                contact(BoardFunction.MAIN_CONTACT, bus),
                contact(BoardFunction.STANDBY_CONTACT, bus),
                channel(BoardFunction.PUMP_CURRENT, supply),
                bus,
                channel(BoardFunction.OIL_TEMPERATURE, supply),
                line(BoardFunction.KEY),
                line(BoardFunction.BRAKE),
                range(),
                channel(BoardFunction.TORQUE_REQUEST, supply));
    }

    private void openConverters() {
        new TreeMap<>(board.converters()).forEach((number, converter) -> {
            String name = "adc-" + number;
            ConverterDevice device = new ConverterDevice(hardware.converter(name, converter));
            buses.computeIfAbsent(converter.bus(), bus -> new ConverterBus(clock))
                    .add(name, device);
        });
    }

    private EdgeCounter pickup() {
        Wire.Pickup wire = board.pickup().orElseThrow();
        return new EdgeCounter(
                hardware.edges(BoardFunction.PICKUP.section(), wire), hardware.event(), wire.risingEdge(), clock);
    }

    private AnalogInput channel(BoardFunction function, AnalogInput supply) {
        return board.analog(function)
                .<AnalogInput>map(wire -> {
                    ChannelValue value = new ChannelValue();
                    values.add(value);
                    var converter = board.converters().get(wire.converter());
                    buses.get(converter.bus()).add("adc-" + wire.converter(), wire.channel(), wire.gain(), value);
                    return new ChannelInput(value, wire, converter.oldestNs(), supply, clock);
                })
                .orElse(AnalogInput.ABSENT);
    }

    private AnalogInput contact(BoardFunction function, AnalogInput bus) {
        if (board.input(function).isPresent()) {
            return new ContactLine(line(function), bus);
        }
        return channel(function, AnalogInput.ABSENT);
    }

    private SwitchInput line(BoardFunction function) {
        return board.input(function)
                .<SwitchInput>map(wire -> new LineInput(hardware.input(function.section(), wire), wire))
                .orElse(() -> false);
    }

    private RangeInput range() {
        if (!board.has(BoardFunction.RANGE_PARK)) {
            return RangeInput.ABSENT;
        }
        Map<Range, SwitchInput> lines = new EnumMap<>(Range.class);
        lines.put(Range.PARK, line(BoardFunction.RANGE_PARK));
        lines.put(Range.REVERSE, line(BoardFunction.RANGE_REVERSE));
        lines.put(Range.NEUTRAL, line(BoardFunction.RANGE_NEUTRAL));
        lines.put(Range.DRIVE, line(BoardFunction.RANGE_DRIVE));
        return new RangeLines(lines);
    }

    InputPorts ports() {
        return ports;
    }

    /** Every channel has delivered once. */
    boolean alive() {
        return values.stream().allMatch(ChannelValue::known);
    }

    /** What needs a thread, by the name of it. */
    Map<String, Runnable> runnables() {
        Map<String, Runnable> all = new LinkedHashMap<>();
        all.put("pickup", pickup);
        buses.forEach((number, bus) -> all.put("i2c-" + number, bus));
        return all;
    }

    void stop() {
        pickup.stop();
        buses.values().forEach(ConverterBus::stop);
    }
}

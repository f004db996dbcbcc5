package linehold.simulator.size;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import linehold.simulator.build.Build;

/** Writes the sizing sheet of a build. */
public final class Sizer {
    private static final List<Function<Standing, List<SizeLine>>> TOPICS = List.of(
            FlowLines::of,
            HoseLines::of,
            MotorLines::of,
            WiringLines::of,
            ElementLines::of,
            HeatLines::of,
            TorquePathLines::of,
            ShaftFitLines::of);

    private Sizer() {}

    public static SizeSheet sheet(Build build) {
        Standing at = new Standing(build);
        Stream<SizeLine> lines = TOPICS.stream().flatMap(topic -> topic.apply(at).stream());
        return new SizeSheet(build, lines.toList());
    }
}

package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.Build;

/** The sizing sheet of a build. */
public record SizeSheet(Build build, List<SizeLine> lines) {
    public SizeSheet {
        lines = List.copyOf(lines);
    }

    public List<SizeLine> of(Topic topic) {
        return lines.stream().filter(line -> line.topic() == topic).toList();
    }

    public long count(SizeVerdict verdict) {
        return lines.stream().filter(line -> line.verdict() == verdict).count();
    }

    /** Whether no part is too small for its job. */
    public boolean enough() {
        return count(SizeVerdict.NOT_ENOUGH) == 0;
    }
}

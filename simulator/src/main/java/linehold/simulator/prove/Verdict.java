package linehold.simulator.prove;

import java.util.List;
import linehold.simulator.build.Build;

/**
 * The answer to "does this build hold on these drives?".
 *
 * @param build what was proved
 * @param runs every drive at every oil temperature, in the order asked for; at least one
 * @param weakest one sentence on the weakest moment of all runs and its cause, in the build's units
 */
public record Verdict(Build build, List<RunVerdict> runs, String weakest) {
    public Verdict {
        runs = List.copyOf(runs);
        if (runs.isEmpty()) {
            // Without a run nothing was lost, and nothing was shown to hold.
            throw new IllegalArgumentException("a verdict needs at least one run");
        }
    }

    public boolean held() {
        return runs.stream().allMatch(RunVerdict::held);
    }
}

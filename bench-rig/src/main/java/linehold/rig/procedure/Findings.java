package linehold.rig.procedure;

import java.util.ArrayList;
import java.util.List;
import linehold.simulator.build.Display.Scale;

/** What a procedure has measured so far. The first value out of its limits ends it. */
final class Findings {
    private final List<Finding> all = new ArrayList<>();
    private String failure;

    void info(String key, String title, Scale scale, double value) {
        add(new Finding(key, title, value, scale, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, ""));
    }

    void atLeast(String key, String title, Scale scale, double value, double least, String sentence) {
        add(new Finding(key, title, value, scale, least, Double.POSITIVE_INFINITY, sentence));
    }

    void atMost(String key, String title, Scale scale, double value, double most, String sentence) {
        add(new Finding(key, title, value, scale, Double.NEGATIVE_INFINITY, most, sentence));
    }

    void within(String key, String title, Scale scale, double value, double least, double most, String sentence) {
        add(new Finding(key, title, value, scale, least, most, sentence));
    }

    private void add(Finding finding) {
        all.add(finding);
        if (!finding.passes()) {
            fail(finding.sentence());
        }
    }

    /** What cannot be told by a value. */
    void fail(String sentence) {
        if (failure == null) {
            failure = sentence;
        }
    }

    /** Why the procedure has failed; null while it has not. */
    String failure() {
        return failure;
    }

    List<Finding> all() {
        return List.copyOf(all);
    }

    int count() {
        return all.size();
    }
}

package linehold.simulator.size;

import java.util.ArrayList;
import java.util.List;
import linehold.simulator.build.InstallationKey;
import linehold.simulator.build.InstallationSpec;

/** A line of the sheet while it is written. What the build file lacks is collected, and the line is then not judged. */
final class Draft {
    private final InstallationSpec installation;
    private final String key;
    private final Topic topic;
    private final String title;
    private final List<SizeLine.Input> inputs = new ArrayList<>();
    private final List<String> missing = new ArrayList<>();
    private String formula = "";
    private String source = "";
    private String note = "";

    Draft(InstallationSpec installation, Topic topic, String key, String title) {
        this.installation = installation;
        this.topic = topic;
        this.key = key;
        this.title = title;
    }

    Draft formula(String text) {
        formula = text;
        return this;
    }

    Draft source(String text) {
        source = text;
        return this;
    }

    Draft note(String text) {
        note = text;
        return this;
    }

    Draft with(String name, Measure measure, double si) {
        inputs.add(new SizeLine.Input(name, si, measure));
        return this;
    }

    /** A value of the installation as an input; NaN where the build file lacks it. */
    double take(InstallationKey installed, String name, Measure measure) {
        double si = need(installed);
        with(name, measure, si);
        return si;
    }

    /** The same, not named among the inputs. */
    double need(InstallationKey installed) {
        if (installation.has(installed)) {
            return installation.si(installed);
        }
        if (!missing.contains(installed.path())) {
            missing.add(installed.path());
        }
        return Double.NaN;
    }

    SizeLine atLeast(Measure measure, double result, double ok, double must) {
        return line(measure, result, new SizeLine.Limit(ok, must, true));
    }

    SizeLine atMost(Measure measure, double result, double ok, double must) {
        return line(measure, result, new SizeLine.Limit(ok, must, false));
    }

    SizeLine information(Measure measure, double result) {
        return line(measure, result, null);
    }

    private SizeLine line(Measure measure, double result, SizeLine.Limit limit) {
        boolean given = missing.isEmpty();
        SizeVerdict verdict =
                !given ? SizeVerdict.NOT_GIVEN : limit == null ? SizeVerdict.INFORMATION : limit.judge(result);
        return new SizeLine(
                key,
                topic,
                title,
                formula,
                given ? inputs : List.of(),
                given ? result : Double.NaN,
                measure,
                given ? limit : null,
                verdict,
                source,
                note,
                missing);
    }
}

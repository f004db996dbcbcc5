package linehold.rig.adapter.web;

import java.util.List;
import java.util.Locale;
import linehold.rig.procedure.Ask;
import linehold.rig.procedure.BenchDesk;
import linehold.rig.procedure.Finding;
import linehold.rig.procedure.Helper;
import linehold.rig.procedure.Result;
import linehold.rig.procedure.View;

/**
 * How the bench stands, in SI; null where something is not known.
 *
 * @param busy a procedure runs or is about to
 * @param holder who has the key; null where nobody has
 * @param procedure that runs or ran last; null before the first
 */
record BenchState(
        boolean busy,
        String holder,
        String procedure,
        Shown step,
        Values values,
        List<Measured> findings,
        Ended result,
        List<Recorded> records) {

    /**
     * The step of the moment.
     *
     * @param longestS after this it has failed, s
     * @param question 0 where none waits
     * @param quantity {@code pressure} or {@code temperature} where a number is asked for
     * @param handDone whether the simulated hand is there; true at a real bench
     * @param gauge what the simulated gauge shows
     */
    record Shown(
            int number,
            int of,
            String title,
            String instruction,
            double forS,
            double longestS,
            String ask,
            long question,
            String quantity,
            boolean handDone,
            Double gauge) {}

    record Values(Double shaftRadPerS, Double linePa, Double amps, Double oilC) {}

    /** @param text value with its unit, as in the record; {@code limit} likewise, empty for none */
    record Measured(
            String title,
            Double value,
            Double least,
            Double most,
            String unit,
            String text,
            String limit,
            String verdict) {}

    record Ended(String outcome, String sentence, double durationS) {}

    record Recorded(String title, String outcome, String sentence, String file, String problem) {}

    static BenchState of(BenchDesk desk) {
        boolean busy = desk.busy();
        View view = desk.view();
        boolean running = view.running();
        // Between the order and its first tick the view still has the procedure before.
        boolean coming = busy && !running;
        return new BenchState(
                busy,
                desk.holder(),
                coming || view.procedure() == null ? null : view.procedure().key(),
                running ? shown(view, desk.helper()) : null,
                new Values(
                        known(view.shaftRadPerS()),
                        known(view.linePressurePa()),
                        known(view.pumpAmps()),
                        known(view.oilC())),
                coming
                        ? List.of()
                        : view.findings().stream().map(BenchState::measured).toList(),
                coming || view.result() == null ? null : ended(view.result()),
                desk.kept().stream().map(BenchState::recorded).toList());
    }

    private static Shown shown(View view, Helper helper) {
        Ask ask = view.step().ask();
        boolean number = ask.quantity() != null;
        return new Shown(
                view.stepNumber(),
                view.steps(),
                view.step().title(),
                view.step().instruction(),
                view.stepS(),
                view.step().longestS(),
                ask.name().toLowerCase(Locale.ROOT).replace('_', '-'),
                view.question(),
                number ? ask.quantity().name().toLowerCase(Locale.ROOT) : null,
                helper == null || helper.handDone(view),
                number && helper != null ? known(helper.value(ask)) : null);
    }

    private static Measured measured(Finding finding) {
        return new Measured(
                finding.title(),
                known(finding.value()),
                known(finding.least()),
                known(finding.most()),
                finding.scale().label(),
                finding.valueText(),
                finding.limitText(),
                !finding.limited() ? "information" : finding.passes() ? "pass" : "fail");
    }

    private static Ended ended(Result result) {
        return new Ended(result.outcome().word(), result.sentence(), result.durationS());
    }

    private static Recorded recorded(BenchDesk.Kept kept) {
        return new Recorded(
                kept.result().procedure().title(),
                kept.result().outcome().word(),
                kept.result().sentence(),
                kept.file(),
                kept.problem());
    }

    private static Double known(double value) {
        return Double.isFinite(value) ? value : null;
    }
}

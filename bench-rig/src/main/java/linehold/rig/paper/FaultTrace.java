package linehold.rig.paper;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import linehold.simulator.report.Words;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/**
 * A run thinned out to what a screen can show: of each stretch the ticks with the extremes of pressure and speed, and every
 * tick at which something switched. Columns of the same length.
 *
 * @param t time, s
 * @param p lowest line pressure since the tick before, Pa
 * @param n shaft speed, rad/s, signed
 * @param state ordinal of the controller's state
 * @param main main relay's coil energised, 0 or 1
 * @param standby standby relay's coil energised, 0 or 1
 * @param contact electric pump fed, 0 or 1
 * @param drive ordinal of the drive permission
 * @param engagement ordinal of the commanded element's state
 * @param codes active codes, as bits
 */
public record FaultTrace(
        double[] t,
        double[] p,
        double[] n,
        int[] state,
        int[] main,
        int[] standby,
        int[] contact,
        int[] drive,
        int[] engagement,
        long[] codes) {
    /** Each gives at most four ticks: more than a wide screen has points. */
    private static final int STRETCHES = 600;

    /** The words for {@link #engagement}. */
    public static List<String> engagements() {
        return Arrays.stream(Engagement.values()).map(Words::of).toList();
    }

    private record Row(
            double t,
            double p,
            double n,
            int state,
            boolean main,
            boolean standby,
            boolean contact,
            int drive,
            int engagement,
            long codes) {
        static Row of(Moment moment) {
            return new Row(
                    moment.timeS,
                    moment.lowestPressurePa,
                    moment.shaftRadPerS,
                    moment.outputs.state.ordinal(),
                    moment.outputs.mainRelayCoil,
                    moment.outputs.standbyRelayCoil,
                    moment.contactClosed,
                    moment.outputs.permission.ordinal(),
                    moment.engagement.ordinal(),
                    moment.outputs.activeCodes);
        }

        boolean switchedSince(Row before) {
            return state != before.state
                    || main != before.main
                    || standby != before.standby
                    || contact != before.contact
                    || drive != before.drive
                    || engagement != before.engagement
                    || codes != before.codes;
        }
    }

    /** Keeps a run while it is made. */
    static final class Recorder implements TickListener {
        private final List<Row> rows = new ArrayList<>();

        @Override
        public boolean tick(Moment moment) {
            rows.add(Row.of(moment));
            return true;
        }

        FaultTrace trace() {
            List<Row> kept = thinned(rows).stream().map(rows::get).toList();
            return new FaultTrace(
                    column(kept, Row::t),
                    column(kept, Row::p),
                    column(kept, Row::n),
                    kept.stream().mapToInt(Row::state).toArray(),
                    kept.stream().mapToInt(row -> row.main ? 1 : 0).toArray(),
                    kept.stream().mapToInt(row -> row.standby ? 1 : 0).toArray(),
                    kept.stream().mapToInt(row -> row.contact ? 1 : 0).toArray(),
                    kept.stream().mapToInt(Row::drive).toArray(),
                    kept.stream().mapToInt(Row::engagement).toArray(),
                    kept.stream().mapToLong(Row::codes).toArray());
        }
    }

    private static double[] column(List<Row> rows, ToDoubleFunction<Row> value) {
        return rows.stream().mapToDouble(value).toArray();
    }

    private static TreeSet<Integer> thinned(List<Row> rows) {
        TreeSet<Integer> kept = new TreeSet<>();
        int length = Math.max(1, rows.size() / STRETCHES);
        for (int from = 0; from < rows.size(); from += length) {
            int to = Math.min(rows.size(), from + length);
            kept.add(lowest(rows, from, to, Row::p));
            kept.add(lowest(rows, from, to, row -> -row.p));
            kept.add(lowest(rows, from, to, Row::n));
            kept.add(lowest(rows, from, to, row -> -row.n));
        }
        for (int i = 1; i < rows.size(); i++) {
            if (rows.get(i).switchedSince(rows.get(i - 1))) {
                kept.add(i - 1);
                kept.add(i);
            }
        }
        if (!rows.isEmpty()) {
            kept.add(0);
            kept.add(rows.size() - 1);
        }
        return kept;
    }

    private static int lowest(List<Row> rows, int from, int to, ToDoubleFunction<Row> value) {
        int best = from;
        for (int i = from + 1; i < to; i++) {
            if (value.applyAsDouble(rows.get(i)) < value.applyAsDouble(rows.get(best))) {
                best = i;
            }
        }
        return best;
    }
}

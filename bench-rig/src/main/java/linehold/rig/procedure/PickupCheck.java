package linehold.rig.procedure;

import java.util.List;
import java.util.Locale;
import linehold.controller.Range;
import linehold.controller.calibration.Key;

/** Pulses per revolution, counted by hand; evenness at speed. */
final class PickupCheck {
    private static final int TURNS = 10;
    /** About one turn a second, rad/s. */
    private static final double HAND_RAD_PER_S = 2 * Math.PI;
    /** Share of a turn by which a hand misses its mark; assumed. */
    private static final double HAND_MISSES_TURNS = 0.25;

    private static final double REST_S = 3;
    private static final double NEAR = 0.2;
    private static final double STEADY_S = 1;
    private static final double LOOK_S = 5;
    /** Spread of speed over its mean; assumed: a drill wavers by half of it, a missing tooth shows a quarter or more. */
    private static final double MOST_SPREAD = 0.2;

    private final Bench bench;
    private final double drillRadPerS;
    private final int pulsesPerRev;
    private final Mean speed = new Mean();
    private double nearSinceS;
    private long edgesBefore;
    private long lastEdgeBeforeNs;

    private PickupCheck(Bench bench) {
        this.bench = bench;
        drillRadPerS = bench.calibration().get(Key.SWITCH_ON_SPEED);
        pulsesPerRev = (int) bench.calibration().get(Key.PULSES_PER_REVOLUTION);
    }

    static List<Step> steps(Bench bench) {
        PickupCheck check = new PickupCheck(bench);
        String speed = bench.display().speed(check.drillRadPerS);
        return List.of(
                Common.prepare(bench, Range.NEUTRAL),
                Step.of(
                        "Shaft at rest, pump off",
                        Command.PUMP_OFF,
                        Shaft.still(Range.NEUTRAL),
                        REST_S + 1,
                        now -> "",
                        check::rest),
                Step.asking(
                        "Ten turns by hand",
                        "Mark the shaft. Turn it by hand ten whole turns forward, evenly, about one a second; confirm"
                                + " when the mark is back.",
                        Ask.CONFIRM,
                        Command.PUMP_OFF,
                        Shaft.turns(TURNS, HAND_RAD_PER_S),
                        check::turned),
                Step.of(
                                "Shaft to speed",
                                Command.PUMP_OFF,
                                Shaft.at(check.drillRadPerS),
                                Step.PATIENCE_S,
                                now -> "The shaft has not come to " + speed + "; the pickup shows "
                                        + bench.display().speed(now.shaftRadPerS()) + ".",
                                check::near)
                        .telling("Set the drill to " + speed + " and hold it."),
                Step.of(
                                "Steady speed",
                                Command.PUMP_OFF,
                                Shaft.at(check.drillRadPerS),
                                LOOK_S + 1,
                                now -> "",
                                check::even)
                        .telling("Hold it steady."),
                Step.of(
                                "Shaft stops",
                                Command.SAFE,
                                Shaft.still(Range.NEUTRAL),
                                Step.PATIENCE_S,
                                now -> "The shaft still turns.",
                                (now, findings) ->
                                        now.shaftRadPerS() < bench.calibration().get(Key.STANDSTILL_SPEED))
                        .telling("Let the shaft come to rest."));
    }

    private boolean rest(Reading now, Findings findings) {
        if (now.stepS() < REST_S) {
            return false;
        }
        findings.atMost(
                "edges-at-rest",
                "Edges while the shaft rests",
                bench.plain(0),
                now.edgesInStep(),
                0,
                "The pickup counts " + Common.count(now.edgesInStep(), "edge")
                        + " with the shaft at rest: its line picks up noise, or the shaft turns.");
        return true;
    }

    private boolean turned(Reading now, Findings findings) {
        if (!now.answered()) {
            return false;
        }
        long edges = now.edgesInStep();
        double perTurn = (double) edges / TURNS;
        double tolerance = Math.max(1, HAND_MISSES_TURNS * pulsesPerRev) / TURNS;
        findings.within(
                "pulses-per-revolution",
                "Edges per revolution",
                bench.plain(1),
                perTurn,
                pulsesPerRev - tolerance,
                pulsesPerRev + tolerance,
                edges == 0
                        ? "No edge came in ten turns: the pickup, its gap, its supply or its wire."
                        : String.format(
                                Locale.ROOT,
                                "Counted %d edges in ten turns, %.1f per revolution; the build says %d: a missing tooth,"
                                        + " noise, or a wrong sensors.pulses-per-revolution.",
                                edges,
                                perTurn,
                                pulsesPerRev));
        return true;
    }

    private boolean near(Reading now, Findings findings) {
        boolean near = Math.abs(now.shaftRadPerS() - drillRadPerS) <= NEAR * drillRadPerS;
        if (!near || now.first()) {
            nearSinceS = now.stepS();
        }
        return now.stepS() - nearSinceS >= STEADY_S;
    }

    /** Speed between the last edges of two ticks: uneven teeth and extra edges show in it. */
    private boolean even(Reading now, Findings findings) {
        if (now.first()) {
            speed.clear();
        } else if (now.edges > edgesBefore && now.lastEdgeNs > lastEdgeBeforeNs) {
            double turns = (double) (now.edges - edgesBefore) / pulsesPerRev;
            speed.add(2 * Math.PI * turns / ((now.lastEdgeNs - lastEdgeBeforeNs) * 1e-9));
        }
        if (now.first() || now.edges > edgesBefore) {
            edgesBefore = now.edges;
            lastEdgeBeforeNs = now.lastEdgeNs;
        }
        if (now.stepS() < LOOK_S) {
            return false;
        }
        findings.info("speed", "Shaft speed", bench.display().speedScale(), speed.value());
        double spread = (speed.highest() - speed.lowest()) / speed.value();
        findings.atMost(
                "speed-spread",
                "Highest less lowest speed between edges over their mean",
                bench.percent(),
                spread,
                MOST_SPREAD,
                "The speed wavers by " + bench.percent().text(spread)
                        + " between edges: a missing or damaged tooth, noise, or an uneven drill.");
        return true;
    }
}

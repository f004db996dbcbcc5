package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.InstallationKey;

/** The fit of two shafts in one splined coupling between facing flanges. */
final class ShaftFitLines {
    private static final String GEOMETRY = "geometry, all tolerances at their worst ends";

    private ShaftFitLines() {}

    static List<SizeLine> of(Standing at) {
        return List.of(
                endGap(at),
                play(at),
                engagement(at, "fit-engagement-motor", "Least engagement, motor's shaft", true),
                engagement(at, "fit-engagement-transmission", "Least engagement, transmission's shaft", false));
    }

    private static SizeLine endGap(Standing at) {
        Draft draft = at.line(Topic.SHAFT_FIT, "fit-end-gap", "Least gap between the shafts' ends")
                .formula("S − a − b less all tolerances")
                .source(GEOMETRY)
                .note("Ends that touch push on bearings; heat makes shafts longer.");
        ShaftFit fit = new ShaftFit(draft, true);
        draft.with("nominal", Measure.FIT, fit.endGapM());
        double least = draft.take(InstallationKey.LEAST_END_GAP, "wanted", Measure.FIT);
        return draft.atLeast(Measure.FIT, fit.leastEndGapM(), least, 0);
    }

    private static SizeLine play(Standing at) {
        Draft draft = at.line(Topic.SHAFT_FIT, "fit-play", "Least play of the coupling")
                .formula("S − L less both tolerances")
                .source(GEOMETRY);
        ShaftFit fit = new ShaftFit(draft, true);
        draft.with("nominal", Measure.FIT, fit.playM());
        double least = draft.take(InstallationKey.LEAST_END_GAP, "wanted", Measure.FIT);
        return draft.atLeast(Measure.FIT, fit.leastPlayM(), least, 0);
    }

    private static SizeLine engagement(Standing at, String key, String title, boolean motor) {
        Draft draft = at.line(Topic.SHAFT_FIT, key, title)
                .formula("a + L − S with the coupling slid away, at most a, less all tolerances; b likewise")
                .source(GEOMETRY + "; four fifths of the wanted length still count as tight (assumed)")
                .note("Counts splines up to the shaft's end: take off chamfers and run-outs.");
        ShaftFit fit = new ShaftFit(draft, true);
        double wanted = draft.take(InstallationKey.LEAST_ENGAGEMENT, "wanted", Measure.FIT);
        double least = motor ? fit.leastMotorEngagementM() : fit.leastTransmissionEngagementM();
        return draft.atLeast(Measure.FIT, least, wanted, 0.8 * wanted);
    }
}

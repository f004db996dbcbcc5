package linehold.simulator.prove;

import java.util.List;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RepairCounts;
import linehold.simulator.run.CloseUp;
import linehold.simulator.run.Overview;

/**
 * One drive at one oil temperature, judged from primed to key-off. Times are seconds since the start of the drive; a
 * minimum that never occurred (no element was ever engaged, no torque was ever asked) is NaN for the time and positive
 * infinity for the value.
 *
 * @param drive name of the drive
 * @param source where the drive comes from
 * @param oilC oil temperature, °C
 * @param losses what was broken, most severe first; empty means held
 * @param durationS length of the drive, s
 * @param primedAtS when the line first held after key-on, s; NaN if never
 * @param engagedPressureMinPa lowest line pressure while an element was engaged, Pa
 * @param engagedPressureMinAtS when
 * @param engagedPressureMinGear in which gear; null if never
 * @param settledPressureMinPa the same without the rise right after an engagement: lowest once the pressure has stopped
 *     rising, Pa; this tells runs apart, for every engagement starts at the hold pressure
 * @param settledPressureMinAtS when
 * @param settledPressureMinGear in which gear; null if never
 * @param marginMin lowest capacity over demand of an engaged element
 * @param marginMinAtS when
 * @param marginMinGear in which gear; null if never
 * @param belowHoldS time with an element engaged and line pressure below hold pressure, s
 * @param longestEngagementS longest engagement, s
 * @param engagementLimitS what it may last at this oil temperature, s
 * @param refusedS time with drive withheld or reduced while the drive asked for torque, s
 * @param relayOperations closings and openings of the electric pump's contact, bounce not counted
 * @param relayOperationsPerHour the same per hour
 * @param pumpOnShare share of the time with the contact closed, 0 to 1
 * @param pumpEnergyJ energy the electric pump took from the bus, J
 * @param handOvers times the electric pump handed the line to the internal pump
 * @param airDrawnM3 air drawn into the line, m³
 * @param codes trouble codes raised, sorted
 * @param repairs what the log reader mended
 * @param warnings anything the person should know, one sentence each
 * @param weakest one sentence on the weakest moment of this run and its cause, in the build's units
 * @param overview the whole run for a plot
 * @param closeUp the worst two seconds; null where they were not asked for
 */
public record RunVerdict(
        String drive,
        String source,
        double oilC,
        List<Loss> losses,
        double durationS,
        double primedAtS,
        double engagedPressureMinPa,
        double engagedPressureMinAtS,
        Gear engagedPressureMinGear,
        double settledPressureMinPa,
        double settledPressureMinAtS,
        Gear settledPressureMinGear,
        double marginMin,
        double marginMinAtS,
        Gear marginMinGear,
        double belowHoldS,
        double longestEngagementS,
        double engagementLimitS,
        double refusedS,
        long relayOperations,
        double relayOperationsPerHour,
        double pumpOnShare,
        double pumpEnergyJ,
        long handOvers,
        double airDrawnM3,
        List<String> codes,
        RepairCounts repairs,
        List<String> warnings,
        String weakest,
        Overview overview,
        CloseUp closeUp) {
    public RunVerdict {
        losses = List.copyOf(losses);
        codes = List.copyOf(codes);
        warnings = List.copyOf(warnings);
    }

    /** The low point to show: where the hold pressure was lost that one, else the settled one. */
    public LowPoint lowPoint() {
        boolean lost = losses.stream().anyMatch(loss -> loss.criterion() == Loss.Criterion.PRESSURE_LOST);
        return lost || !Double.isFinite(settledPressureMinPa)
                ? new LowPoint(engagedPressureMinPa, engagedPressureMinAtS, engagedPressureMinGear)
                : new LowPoint(settledPressureMinPa, settledPressureMinAtS, settledPressureMinGear);
    }

    /** A lowest line pressure, Pa, when, s, and in which gear. */
    public record LowPoint(double pressurePa, double atS, Gear gear) {
        /** Whether any element was ever engaged, so that there is one. */
        public boolean known() {
            return Double.isFinite(pressurePa) && Double.isFinite(atS);
        }
    }

    public boolean held() {
        return losses.isEmpty();
    }

    /** The same with a close-up. */
    RunVerdict withCloseUp(CloseUp newCloseUp) {
        return new RunVerdict(
                drive,
                source,
                oilC,
                losses,
                durationS,
                primedAtS,
                engagedPressureMinPa,
                engagedPressureMinAtS,
                engagedPressureMinGear,
                settledPressureMinPa,
                settledPressureMinAtS,
                settledPressureMinGear,
                marginMin,
                marginMinAtS,
                marginMinGear,
                belowHoldS,
                longestEngagementS,
                engagementLimitS,
                refusedS,
                relayOperations,
                relayOperationsPerHour,
                pumpOnShare,
                pumpEnergyJ,
                handOvers,
                airDrawnM3,
                codes,
                repairs,
                warnings,
                weakest,
                overview,
                newCloseUp);
    }
}

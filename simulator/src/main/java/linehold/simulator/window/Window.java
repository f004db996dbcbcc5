package linehold.simulator.window;

import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.drive.RowDrive;

/**
 * The switch-over window of a build: what it has to cover, where it lies, what it costs. Speeds are those of the motor
 * shaft.
 *
 * @param build what was asked about
 * @param oilC oil temperatures, °C, rising
 * @param rates rates of the stops, rad/s², rising
 * @param carry carry speed, by oil temperature
 * @param standstill what the electric pump holds alone, by oil temperature
 * @param rollBacks what rolling back leaves, by oil temperature
 * @param leads lead time, by oil temperature, full bus then sagged bus
 * @param stops lowest switch-on speeds, by oil temperature, then by rate
 * @param rule how far the rule of thumb goes, by oil temperature
 * @param maps lowest pressures, by oil temperature
 * @param ahead computed curves for the early switch-on
 * @param pair the recommended window; null where there is none
 * @param noWindow why there is none; empty where there is one
 * @param prices what the pair costs on the demonstration drives
 * @param proofs the pair proved on the demonstration drives
 * @param remedies what would open a window, the best first; empty where there is one
 * @param losingStop a stop that the pair keeps, and that is lost with both speeds lowered by the margin; null where none
 *     was found
 * @param drives what the pair was proved and priced on, in words
 * @param tolerance what the spreads do to the pair; null where it was not asked for
 */
public record Window(
        Build build,
        List<Double> oilC,
        List<Double> rates,
        List<CarryPoint> carry,
        List<Standstill> standstill,
        List<RollBack> rollBacks,
        List<LeadTime> leads,
        List<StopLimit> stops,
        List<RulePoint> rule,
        List<WindowMap> maps,
        LookAhead ahead,
        Pair pair,
        List<String> noWindow,
        List<Price> prices,
        List<Proof> proofs,
        List<Remedy> remedies,
        RowDrive losingStop,
        String drives,
        Tolerance tolerance) {

    /** The same with what the spreads do to it. */
    public Window with(Tolerance found) {
        return new Window(
                build,
                oilC,
                rates,
                carry,
                standstill,
                rollBacks,
                leads,
                stops,
                rule,
                maps,
                ahead,
                pair,
                noWindow,
                prices,
                proofs,
                remedies,
                losingStop,
                drives,
                found);
    }

    /** Bus voltage of a battery under load, V: the lower end of what the pump must start at (common practice). */
    public static final double SAGGED_VOLTS = 9.5;

    /** The trade's rule of thumb for the switch-on speed, rad/s: 500 rpm (common practice). */
    public static final double RULE_RAD_PER_S = 500 * Math.PI / 30;

    /** Ordinary driving slows the shaft at up to about this rate, rad/s²: 1,500 rpm/s (common practice). */
    public static final double ORDINARY_RAD_PER_S2 = 1500 * Math.PI / 30;

    /** What the pair is proved and priced on where no drives are given. */
    public static final String DEMONSTRATION_DRIVES = "the demonstration drives";

    /** The same where some are. */
    public static final String GIVEN_DRIVES = "the drives given";

    public boolean exists() {
        return noWindow.isEmpty();
    }

    /**
     * @param fullPa line pressure held at standstill in first with the build's own bus voltage, Pa
     * @param saggedPa the same with the sagged bus, Pa
     */
    public record Standstill(double oilC, double fullPa, double saggedPa) {}

    /**
     * One stop.
     *
     * @param oilC oil temperature, °C
     * @param rateRadPerS2 rate at which the shaft falls, rad/s²
     * @param found by {@link Setting#ordinal}
     */
    public record StopLimit(double oilC, double rateRadPerS2, List<Found> found) {
        public Found found(Setting setting) {
            return found.get(setting.ordinal());
        }
    }

    /**
     * @param onRadPerS lowest switch-on speed that keeps the hold pressure, rad/s; NaN where none does
     * @param atRulePa lowest line pressure when switched on at the rule of thumb's speed, Pa
     */
    public record Found(double onRadPerS, double atRulePa) {}

    /**
     * @param enoughUpToRadPerS2 highest rate at which the rule of thumb, speed alone, keeps the hold pressure, rad/s²; 0
     *     where it does not at the slowest stop, infinite where it does at the fastest
     */
    public record RulePoint(double oilC, double enoughUpToRadPerS2) {}

    /**
     * Lowest line pressure over switch-on speed and rate of the stop, speed alone.
     *
     * @param lowestPa by switch-on speed, then by rate, Pa
     */
    public record WindowMap(double oilC, List<Double> onRadPerS, List<Double> rates, List<List<Double>> lowestPa) {}

    /**
     * A bound of the window.
     *
     * @param name what it is called
     * @param radPerS the speed it asks for, rad/s
     * @param sentence why, in the build's units
     */
    public record Bound(String name, double radPerS, String sentence) {}

    /**
     * The recommended window. It counts on the pickup alone: what the aids buy is reserve.
     *
     * @param onRadPerS switch-on speed, rad/s
     * @param offRadPerS switch-off speed, rad/s
     * @param marginRadPerS when both speeds are lowered by this, the hardest stop is lost, rad/s
     * @param marginPa what the worst of all stops keeps above the hold pressure, Pa
     * @param onBounds what the switch-on speed must exceed, the highest first
     * @param offBounds what the switch-off speed must reach, the highest first
     */
    public record Pair(
            double onRadPerS,
            double offRadPerS,
            double marginRadPerS,
            double marginPa,
            List<Bound> onBounds,
            List<Bound> offBounds) {
        /** The same with another distance to a window that loses the hardest stop, rad/s. */
        Pair withMargin(double radPerS) {
            return new Pair(onRadPerS, offRadPerS, radPerS, marginPa, onBounds, offBounds);
        }
    }

    /**
     * The cost on one drive, or on all, the mean over the oil temperatures.
     *
     * @param drive name of the drive; {@code all drives} for their sum
     * @param pumpOnShare share of the time with the pump's contact closed, 0 to 1
     * @param relayOperationsPerHour closings and openings
     * @param watts mean electric power of the pump, W, which is Wh per hour
     * @param contactLifeH hours of this drive that the contact lasts, h; NaN where the build file does not give its rating
     */
    public record Price(
            Setting setting,
            String drive,
            double pumpOnShare,
            double relayOperationsPerHour,
            double watts,
            double contactLifeH) {}

    /** @param weakest one sentence on the weakest moment */
    public record Proof(Setting setting, int runs, int lost, String weakest) {
        public boolean held() {
            return lost == 0;
        }
    }

    /**
     * @param name what is changed
     * @param opens whether a window exists then
     * @param boundRadPerS lowest switch-on speed, speed alone, that keeps every stop then, rad/s; NaN where none does, 0
     *     where the pump never stops
     * @param onRadPerS the same with reserve, as it would be recommended, rad/s
     * @param offRadPerS the least switch-off speed to it, rad/s
     * @param standstillPa lowest pressure that the electric pump holds alone then, Pa
     */
    public record Remedy(
            String name,
            boolean opens,
            double boundRadPerS,
            double onRadPerS,
            double offRadPerS,
            double standstillPa) {}
}

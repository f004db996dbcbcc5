package linehold.simulator.window;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import linehold.simulator.build.Spread;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.prove.Reserve;

/**
 * What the spreads of a build do to its window: the worst car, how many cars hold, which spread matters most. The
 * controller of every car is the one of the nominal build.
 *
 * @param cars how many cars were drawn for each share
 * @param seed of the draw
 * @param confidence of every interval, 0 to 1
 * @param spreads the spreads of the build
 * @param held how many of the cars held in every answer
 * @param share share of the cars that hold in every answer, with its interval
 * @param answers the panic stop that is hardest on the nominal car with the hottest oil; then whatever drive is hardest
 *     with the hottest oil and with the coldest, where it is another one
 */
public record Tolerance(
        int cars, long seed, double confidence, List<Spread> spreads, int held, Share share, List<Answer> answers) {
    public Tolerance {
        spreads = List.copyOf(spreads);
        answers = List.copyOf(answers);
    }

    /**
     * On one demonstration drive at one oil temperature.
     *
     * @param drive name of the drive
     * @param oilC oil temperature, °C
     * @param nominal the nominal car
     * @param corner the worst car that was found
     * @param held how many of the cars held
     * @param share share of cars that hold, 0 to 1, with its interval
     * @param lowest least reserve of the cars
     * @param lost how many were lost, by the most severe of what was broken
     * @param ranking the spread that matters most first
     */
    public record Answer(
            String drive,
            double oilC,
            Reserve nominal,
            Corner corner,
            int held,
            Share share,
            double lowest,
            Map<Criterion, Integer> lost,
            List<Weight> ranking) {
        public Answer {
            lost = Collections.unmodifiableMap(new TreeMap<>(lost));
            ranking = List.copyOf(ranking);
        }
    }

    /**
     * @param ends what stands at its low or high end there; a spread that is not named stands at its nominal value, for it
     *     makes no difference
     */
    public record Corner(Reserve reserve, List<End> ends) {
        public Corner {
            ends = List.copyOf(ends);
        }
    }

    /** A spread at its low or its high end. */
    public record End(Spread spread, boolean high) {
        public double value() {
            return high ? spread.high() : spread.low();
        }
    }

    /** A share with both ends of its interval, each 0 to 1. */
    public record Share(double share, double low, double high) {}

    /**
     * How much the reserve moves when a value goes through its spread.
     *
     * @param meanSize mean size of the move (Morris' μ*)
     * @param mean mean of the move with its sign: positive where a higher value leaves more reserve
     * @param deviation how much the move depends on the rest of the car (Morris' σ)
     */
    public record Weight(Spread spread, double meanSize, double mean, double deviation) {}
}

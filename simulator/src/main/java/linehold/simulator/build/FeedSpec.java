package linehold.simulator.build;

/**
 * The orifices between the line and every apply element.
 *
 * @param feedAreaM2 Cd·A of the feed, m²
 * @param exhaustAreaM2 Cd·A of the exhaust, m²
 */
public record FeedSpec(double feedAreaM2, double exhaustAreaM2) {}

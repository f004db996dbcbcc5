package linehold.simulator.circuit;

/**
 * The oil's bookkeeping from time 0, m³: pumps delivered + air drawn + stored at first = leaked + returned + exhausted +
 * stored.
 *
 * @param internalM3 delivered by the internal pump, slip taken off, signed
 * @param electricM3 delivered by the electric pump into the line
 * @param airDrawnM3 air drawn into the dry line
 * @param leakedM3 laminar and orifice leakage
 * @param returnedM3 through the regulator
 * @param exhaustedM3 out of released apply elements
 * @param storedM3 in line and apply elements now
 */
public record VolumeBalance(
        double internalM3,
        double electricM3,
        double airDrawnM3,
        double leakedM3,
        double returnedM3,
        double exhaustedM3,
        double storedM3) {
    /** What the bookkeeping cannot explain, m³, given what was stored at time 0. */
    public double errorM3(double storedAtFirstM3) {
        return internalM3 + electricM3 + airDrawnM3 + storedAtFirstM3 - leakedM3 - returnedM3 - exhaustedM3 - storedM3;
    }
}

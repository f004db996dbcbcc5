package linehold.rig.board;

/** The volts themselves are what is asked for. */
public record Volts() implements Conversion {
    @Override
    public double at(double volts, double supplyVolts) {
        return volts;
    }
}

package linehold.simulator.sensor;

/** What is broken between the car and the controller's inputs. Everything is healthy at first; fields may be set at any time. */
public final class SensorFaults {
    /** What the pressure sender's signal wire does. */
    public enum Sender {
        HEALTHY,
        /** Wire off: a pull-down makes it read 0 V. */
        OPEN,
        /** Signal shorted to its supply. */
        SHORTED,
        /** The reading stays where it was. */
        STUCK
    }

    /** No edge is counted any more. */
    public boolean pickupDead;
    /** One tooth of the wheel is missing. */
    public boolean toothMissing;
    /** Edges that are none, per second, at random times. */
    public double extraEdgesPerS;

    public Sender sender = Sender.HEALTHY;
    /** Reading too high (or too low) by this, Pa. */
    public double senderOffsetPa;
    /** Speed at which {@link #senderOffsetPa} grows, Pa/s. */
    public double senderDriftPaPerS;
    /** Lag of the sender over that of a new one. */
    public double senderLagFactor = 1;

    public boolean mainReadbackBroken;
    public boolean standbyReadbackBroken;
    /** The pump current sensor shows no current. */
    public boolean currentSensorDead;
}

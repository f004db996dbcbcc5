package linehold.rig.board;

/** Where a function is connected. */
public sealed interface Wire permits Wire.Output, Wire.Input, Wire.Pickup, Wire.Analog {
    /** What the board itself pulls an input to. */
    enum Pull {
        NONE,
        UP,
        DOWN
    }

    /**
     * @param line number on the chip
     * @param activeHigh whether the high level energises the coil, lights the lamp
     */
    record Output(int line, boolean activeHigh) implements Wire {
        /** The level that means on or off. */
        public boolean level(boolean on) {
            return on == activeHigh;
        }
    }

    /**
     * @param line number on the chip
     * @param activeHigh whether the high level means on
     */
    record Input(int line, boolean activeHigh, Pull pull) implements Wire {}

    /**
     * @param line number on the chip
     * @param risingEdge whether a pulse counts at its rising edge; else at its falling one
     */
    record Pickup(int line, boolean risingEdge, Pull pull) implements Wire {}

    /**
     * @param converter its number, 1 to 4
     * @param channel 0 to 3
     * @param divider volts on the wire for one volt at the converter
     */
    record Analog(int converter, int channel, Gain gain, double divider, Conversion conversion) implements Wire {
        /** Highest volts on the wire that the converter can tell, V. */
        public double reachVolts() {
            return gain.fullScaleVolts() * divider;
        }
    }
}

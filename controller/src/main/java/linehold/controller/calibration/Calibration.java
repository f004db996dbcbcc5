package linehold.controller.calibration;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.zip.CRC32;

/**
 * The controller's calibration: immutable, complete and free of contradiction. A value that nobody set has its
 * {@link Key}'s default.
 */
public final class Calibration {
    /** Raised whenever a key comes, goes or changes its meaning, so that old values are never read as new ones. */
    public static final int SCHEMA_VERSION = 2;

    private final double[][] oilC;
    private final double[][] values;
    private final double[] worst;
    private final long checksum;

    private Calibration(Builder builder) {
        oilC = deepCopy(builder.oilC);
        values = deepCopy(builder.values);
        worst = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            worst[i] = Arrays.stream(values[i]).max().orElseThrow();
        }
        checksum = checksumOf(oilC, values);
    }

    /** A builder that holds every key's default. */
    public static Builder builder() {
        return new Builder();
    }

    /** A builder that holds this calibration's values: to make the same one with some of them changed. */
    public Builder toBuilder() {
        Builder builder = new Builder();
        System.arraycopy(deepCopy(oilC), 0, builder.oilC, 0, oilC.length);
        System.arraycopy(deepCopy(values), 0, builder.values, 0, values.length);
        return builder;
    }

    /**
     * A scalar, SI.
     *
     * @throws IllegalArgumentException if the key is a curve
     */
    public double get(Key key) {
        if (key.shape() != Key.Shape.SCALAR) {
            throw new IllegalArgumentException(key.yamlName() + " is a curve over oil temperature");
        }
        return values[key.ordinal()][0];
    }

    /**
     * A flag.
     *
     * @throws IllegalArgumentException if the key is not a flag
     */
    public boolean is(Key key) {
        if (key.quantity() != Quantity.FLAG) {
            throw new IllegalArgumentException(key.yamlName() + " is no flag");
        }
        return get(key) == 1;
    }

    /**
     * A time as whole nanoseconds.
     *
     * @throws IllegalArgumentException if the key is not a scalar time
     */
    public long ns(Key key) {
        if (key.quantity() != Quantity.TIME) {
            throw new IllegalArgumentException(key.yamlName() + " is no time");
        }
        return Math.round(get(key) * 1e9);
    }

    /**
     * A curve at an oil temperature, SI; a scalar is the same at every temperature.
     *
     * @param oilTemperatureC °C; NaN where it is not known, which gives the curve's largest value: every curve is such
     *     that more of it keeps the pump running longer or sooner
     */
    public double at(Key key, double oilTemperatureC) {
        int index = key.ordinal();
        double[] x = oilC[index];
        double[] y = values[index];
        if (Double.isNaN(oilTemperatureC)) {
            return worst[index];
        }
        if (y.length == 1 || oilTemperatureC <= x[0]) {
            return y[0];
        }
        for (int i = 1; i < x.length; i++) {
            if (oilTemperatureC < x[i]) {
                return y[i - 1] + (y[i] - y[i - 1]) * (oilTemperatureC - x[i - 1]) / (x[i] - x[i - 1]);
            }
        }
        return y[y.length - 1];
    }

    /** The points of a curve over oil temperature, °C. */
    public double[] curveOilC(Key key) {
        key.defaultOilC(); // refuses a scalar
        return oilC[key.ordinal()].clone();
    }

    /** The values of a curve at {@link #curveOilC}, SI. */
    public double[] curveValues(Key key) {
        key.defaultOilC(); // refuses a scalar
        return values[key.ordinal()].clone();
    }

    /** CRC-32 over every key's name and values (LH-EL-2); equal for equal calibrations on every machine. */
    public long checksum() {
        return checksum;
    }

    /**
     * Refuses a calibration that is not the one that was released (LH-EL-2). Whoever runs a controller calls this first; if
     * it throws, no controller may run, and every coil stays without current: the fail-safe side of the wiring.
     *
     * @param releasedSchemaVersion {@link #SCHEMA_VERSION} of the release
     * @param releasedChecksum {@link #checksum} of the release
     * @throws CalibrationException with one sentence that says what differs
     */
    public void verify(int releasedSchemaVersion, long releasedChecksum) {
        if (releasedSchemaVersion != SCHEMA_VERSION) {
            throw new CalibrationException("the calibration was released with schema version " + releasedSchemaVersion
                    + ", but this controller has version " + SCHEMA_VERSION + ": release it anew");
        }
        if (releasedChecksum != checksum) {
            throw new CalibrationException(String.format(
                    Locale.ROOT,
                    "the calibration has checksum %08x, but %08x was released: it has been changed since",
                    checksum,
                    releasedChecksum));
        }
    }

    private static long checksumOf(double[][] oilC, double[][] values) {
        CRC32 crc = new CRC32();
        ByteBuffer number = ByteBuffer.allocate(Double.BYTES);
        for (Key key : Key.values()) {
            crc.update(key.yamlName().getBytes(StandardCharsets.UTF_8));
            update(crc, number, oilC[key.ordinal()]);
            update(crc, number, values[key.ordinal()]);
        }
        return crc.getValue();
    }

    private static void update(CRC32 crc, ByteBuffer number, double[] values) {
        for (double value : values) {
            crc.update(number.putDouble(0, value).array());
        }
    }

    private static double[][] deepCopy(double[][] rows) {
        return Arrays.stream(rows).map(double[]::clone).toArray(double[][]::new);
    }

    /** Collects values; each is checked against its bounds when it is set, the whole set in {@link #build}. */
    public static final class Builder {
        private static final double[] NO_POINTS = {};

        private final double[][] oilC = new double[Key.values().length][];
        private final double[][] values = new double[Key.values().length][];

        private Builder() {
            for (Key key : Key.values()) {
                boolean curve = key.shape() == Key.Shape.OVER_OIL_TEMPERATURE;
                oilC[key.ordinal()] = curve ? key.defaultOilC() : NO_POINTS;
                values[key.ordinal()] = key.defaultValues();
            }
        }

        /**
         * Sets a scalar, or a curve to one value at every temperature; SI.
         *
         * @throws CalibrationException if the value is out of the key's bounds
         */
        public Builder set(Key key, double value) {
            checkBounds(key, value);
            oilC[key.ordinal()] = key.shape() == Key.Shape.SCALAR ? NO_POINTS : new double[] {0};
            values[key.ordinal()] = new double[] {value};
            return this;
        }

        /** Sets a flag. */
        public Builder set(Key key, boolean value) {
            if (key.quantity() != Quantity.FLAG) {
                throw new IllegalArgumentException(key.yamlName() + " is no flag");
            }
            return set(key, value ? 1 : 0);
        }

        /**
         * Sets a curve.
         *
         * @param oilC oil temperatures, °C, rising
         * @param values value at each, SI
         * @throws CalibrationException if a value is out of the key's bounds or the temperatures do not rise
         */
        public Builder setCurve(Key key, double[] oilC, double[] values) {
            if (key.shape() != Key.Shape.OVER_OIL_TEMPERATURE) {
                throw new CalibrationException(key, key.yamlName() + " is one value, not a curve");
            }
            if (oilC.length == 0 || oilC.length != values.length) {
                throw new CalibrationException(
                        key,
                        key.yamlName() + " needs one value for each oil temperature and at least one, but has "
                                + oilC.length + " temperatures and " + values.length + " values");
            }
            for (int i = 0; i < oilC.length; i++) {
                if (!Double.isFinite(oilC[i]) || i > 0 && oilC[i] <= oilC[i - 1]) {
                    throw new CalibrationException(
                            key,
                            key.yamlName() + " has oil temperature " + oilC[i] + " °C where a higher one must follow");
                }
                checkBounds(key, values[i]);
            }
            this.oilC[key.ordinal()] = oilC.clone();
            this.values[key.ordinal()] = values.clone();
            return this;
        }

        /**
         * The calibration.
         *
         * @throws CalibrationException if two values contradict each other
         */
        public Calibration build() {
            Calibration calibration = new Calibration(this);
            CrossChecks.check(calibration);
            return calibration;
        }

        private static void checkBounds(Key key, double value) {
            if (!(value >= key.least() && value <= key.most())) {
                throw new CalibrationException(
                        key,
                        key.yamlName() + " is " + key.quantity().text(value) + ", allowed is "
                                + key.quantity().text(key.least()) + " to "
                                + key.quantity().text(key.most()));
            }
            boolean whole = key.quantity() == Quantity.COUNT || key.quantity() == Quantity.FLAG;
            if (whole && value != Math.rint(value)) {
                throw new CalibrationException(key, key.yamlName() + " is " + value + ", allowed is a whole number");
            }
        }
    }
}

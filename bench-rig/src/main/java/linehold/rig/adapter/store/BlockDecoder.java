package linehold.rig.adapter.store;

import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/** Unpacks what {@link BlockEncoder} packed. For one thread. */
final class BlockDecoder implements AutoCloseable {
    private static final int BYTE = 0xFF;

    private final Inflater inflater = new Inflater();
    private byte[] plain = new byte[1 << 16];
    private int length;
    private int at;
    private byte[][] places;

    /**
     * @param columns values by column, then row; overwritten
     * @throws IllegalArgumentException where the bytes are no block of so many rows and columns
     */
    void decode(byte[] data, int rows, double[][] columns) {
        inflate(data);
        at = 0;
        places = new byte[columns.length][];
        try {
            for (int c = 0; c < columns.length; c++) {
                decode(columns, c, rows);
            }
        } catch (ArrayIndexOutOfBoundsException e) {
            throw new IllegalArgumentException("no block of " + rows + " rows and " + columns.length + " columns", e);
        }
        if (at != length) {
            throw new IllegalArgumentException("a block of more than " + columns.length + " columns");
        }
    }

    private void inflate(byte[] data) {
        inflater.reset();
        inflater.setInput(data);
        length = 0;
        try {
            while (!inflater.finished()) {
                if (length == plain.length) {
                    plain = Arrays.copyOf(plain, 2 * length);
                }
                int more = inflater.inflate(plain, length, plain.length - length);
                if (more == 0 && !inflater.finished()) {
                    throw new IllegalArgumentException("a block that is cut short");
                }
                length += more;
            }
        } catch (DataFormatException e) {
            throw new IllegalArgumentException("a block that is not packed by zlib", e);
        }
    }

    private void decode(double[][] columns, int c, int rows) {
        double[] values = columns[c];
        int packing = get();
        switch (packing) {
            case Packing.CONSTANT -> {
                double value = Double.longBitsToDouble(getLong());
                Arrays.fill(values, 0, rows, value);
            }
            case Packing.SAME -> System.arraycopy(columns[get()], 0, values, 0, rows);
            case Packing.CHOICE, Packing.CHOICE_LIKE -> decodeChoice(values, c, rows, packing);
            case Packing.XOR -> {
                long bits = 0;
                for (int i = 0; i < rows; i++) {
                    bits ^= getVarint();
                    values[i] = Double.longBitsToDouble(bits);
                }
            }
            case Packing.LINE -> {
                for (int i = 0; i < rows; i++) {
                    long rest = Packing.unZigzag(getVarint());
                    values[i] =
                            Double.longBitsToDouble(Packing.expectedOnLine(values, i, columns[0], columns[1]) + rest);
                }
            }
            default -> decodeWhole(values, rows, packing - Packing.WHOLE[0]);
        }
    }

    private void decodeWhole(double[] values, int rows, int order) {
        if (order < 0 || order >= Packing.WHOLE.length) {
            throw new IllegalArgumentException("a block with a column in an unknown packing");
        }
        for (int i = 0; i < rows; i++) {
            values[i] = Packing.expectedWhole(values, i, order) + Packing.unZigzag(getVarint());
        }
    }

    private void decodeChoice(double[] values, int c, int rows, int packing) {
        double[] choices = new double[get()];
        for (int k = 0; k < choices.length; k++) {
            choices[k] = Double.longBitsToDouble(getLong());
        }
        if (packing == Packing.CHOICE_LIKE) {
            places[c] = places[get()];
            if (places[c] == null) {
                throw new IllegalArgumentException("a block with a choice like that of a column that is none");
            }
        } else {
            places[c] = Arrays.copyOfRange(plain, at, at + rows);
            at += rows;
        }
        for (int i = 0; i < rows; i++) {
            values[i] = choices[places[c][i]];
        }
    }

    private int get() {
        if (at == length) {
            throw new ArrayIndexOutOfBoundsException(at);
        }
        return plain[at++] & BYTE;
    }

    private long getLong() {
        long value = 0;
        for (int i = 0; i < Long.BYTES; i++) {
            value = value << 8 | get();
        }
        return value;
    }

    private long getVarint() {
        long value = 0;
        int shift = 0;
        int next = get();
        while (next > 0x7F) {
            value |= (long) (next & 0x7F) << shift;
            shift += 7;
            next = get();
        }
        return value | (long) next << shift;
    }

    @Override
    public void close() {
        inflater.end();
    }
}

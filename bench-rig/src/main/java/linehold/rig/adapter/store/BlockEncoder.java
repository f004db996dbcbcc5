package linehold.rig.adapter.store;

import java.util.Arrays;
import java.util.zip.Deflater;

/**
 * Packs a block of rows column by column, each in the way that suits its values, then by zlib (RFC 1950). Every bit of
 * every double comes back. The layout is in docs/recordings.md. Reuses its memory; for one thread.
 */
final class BlockEncoder implements AutoCloseable {
    /** More different values than this are no choice. */
    private static final int MOST_CHOICES = 100;

    private static final int LONGEST_VARINT = 10;
    private static final int COLUMN_HEADER = 16 + MOST_CHOICES * Long.BYTES;
    private static final int NONE = -1;

    private final Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION);
    private final byte[] plain;
    private final byte[] packed;
    private final long[] bits;
    private final long[] choices = new long[MOST_CHOICES];
    /** For each column that is a choice, which one at each row. */
    private final byte[][] places;

    private final boolean[] isChoice;
    private int at;

    BlockEncoder(int columns, int mostRows) {
        plain = new byte[columns * (COLUMN_HEADER + LONGEST_VARINT * mostRows)];
        packed = new byte[plain.length + plain.length / 100 + 64];
        bits = new long[mostRows];
        places = new byte[columns][mostRows];
        isChoice = new boolean[columns];
    }

    /** @param columns values by column, then row */
    byte[] encode(double[][] columns, int rows) {
        at = 0;
        for (int c = 0; c < columns.length; c++) {
            encode(columns, c, rows);
        }
        deflater.reset();
        deflater.setInput(plain, 0, at);
        deflater.finish();
        int length = 0;
        while (!deflater.finished()) {
            length += deflater.deflate(packed, length, packed.length - length);
        }
        return Arrays.copyOf(packed, length);
    }

    private void encode(double[][] columns, int c, int rows) {
        double[] values = columns[c];
        boolean constant = true;
        boolean whole = true;
        for (int i = 0; i < rows; i++) {
            bits[i] = Double.doubleToRawLongBits(values[i]);
            constant &= bits[i] == bits[0];
            whole &= Packing.isWhole(values[i]);
        }
        isChoice[c] = false;
        if (constant) {
            put(Packing.CONSTANT);
            putLong(bits[0]);
            return;
        }
        int same = sameColumn(columns, c, rows);
        if (same != NONE) {
            put(Packing.SAME);
            put(same);
        } else if (whole) {
            putWhole(values, rows);
        } else if (!putChoice(c, rows)) {
            putFloating(columns, c, rows);
        }
    }

    private int sameColumn(double[][] columns, int c, int rows) {
        for (int k = 0; k < c; k++) {
            int i = 0;
            while (i < rows && Double.doubleToRawLongBits(columns[k][i]) == bits[i]) {
                i++;
            }
            if (i == rows) {
                return k;
            }
        }
        return NONE;
    }

    /** By differences of the order that takes the fewest bytes. */
    private void putWhole(double[] values, int rows) {
        int best = 0;
        long least = Long.MAX_VALUE;
        for (int order = 0; order < Packing.WHOLE.length; order++) {
            long length = 0;
            for (int i = 0; i < rows; i++) {
                length += varintLength(wholeRest(values, i, order));
            }
            if (length < least) {
                least = length;
                best = order;
            }
        }
        put(Packing.WHOLE[best]);
        for (int i = 0; i < rows; i++) {
            putVarint(wholeRest(values, i, best));
        }
    }

    private static long wholeRest(double[] values, int i, int order) {
        return Packing.zigzag((long) values[i] - Packing.expectedWhole(values, i, order));
    }

    private boolean putChoice(int c, int rows) {
        int count = 0;
        byte[] place = places[c];
        for (int i = 0; i < rows; i++) {
            int k = 0;
            while (k < count && choices[k] != bits[i]) {
                k++;
            }
            if (k == count) {
                if (count == MOST_CHOICES) {
                    return false;
                }
                choices[count++] = bits[i];
            }
            place[i] = (byte) k;
        }
        isChoice[c] = true;
        int like = likeColumn(c, rows);
        put(like == NONE ? Packing.CHOICE : Packing.CHOICE_LIKE);
        put(count);
        for (int k = 0; k < count; k++) {
            putLong(choices[k]);
        }
        if (like != NONE) {
            put(like);
        } else {
            System.arraycopy(place, 0, plain, at, rows);
            at += rows;
        }
        return true;
    }

    /** A column before this one that changes its choice whenever this one does, as pressure and its sender do. */
    private int likeColumn(int c, int rows) {
        for (int k = 0; k < c; k++) {
            if (isChoice[k] && Arrays.equals(places[k], 0, rows, places[c], 0, rows)) {
                return k;
            }
        }
        return NONE;
    }

    private void putFloating(double[][] columns, int c, int rows) {
        long byXor = 0;
        long byLine = 0;
        for (int i = 0; i < rows; i++) {
            byXor += varintLength(xorRest(i));
            byLine += c < Packing.FIRST_ON_LINE ? 0 : varintLength(lineRest(columns, c, i));
        }
        boolean xor = c < Packing.FIRST_ON_LINE || byXor <= byLine;
        put(xor ? Packing.XOR : Packing.LINE);
        for (int i = 0; i < rows; i++) {
            putVarint(xor ? xorRest(i) : lineRest(columns, c, i));
        }
    }

    private long xorRest(int i) {
        return i == 0 ? bits[0] : bits[i] ^ bits[i - 1];
    }

    private long lineRest(double[][] columns, int c, int i) {
        return Packing.zigzag(bits[i] - Packing.expectedOnLine(columns[c], i, columns[0], columns[1]));
    }

    private static int varintLength(long value) {
        return (70 - Long.numberOfLeadingZeros(value | 1)) / 7;
    }

    private void putVarint(long value) {
        long left = value;
        while ((left & ~0x7FL) != 0) {
            put((int) (left | 0x80));
            left >>>= 7;
        }
        put((int) left);
    }

    private void putLong(long value) {
        for (int shift = 56; shift >= 0; shift -= 8) {
            put((int) (value >>> shift));
        }
    }

    private void put(int value) {
        plain[at++] = (byte) value;
    }

    @Override
    public void close() {
        deflater.end();
    }
}

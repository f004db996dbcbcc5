package linehold.rig.adapter.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

class BlockCodecTest {
    private static final int ROWS = 160;

    private static double[] column(IntToDoubleFunction value) {
        double[] column = new double[ROWS];
        Arrays.setAll(column, value);
        return column;
    }

    private static void assertComesBack(double[][] columns, int rows) {
        double[][] back = new double[columns.length][rows];
        byte[] data;
        try (BlockEncoder encoder = new BlockEncoder(columns.length, ROWS)) {
            data = encoder.encode(columns, rows);
        }
        try (BlockDecoder decoder = new BlockDecoder()) {
            decoder.decode(data, rows, back);
        }
        for (int c = 0; c < columns.length; c++) {
            for (int i = 0; i < rows; i++) {
                assertThat(Double.doubleToRawLongBits(back[c][i]))
                        .as("column %d row %d", c, i)
                        .isEqualTo(Double.doubleToRawLongBits(columns[c][i]));
            }
        }
    }

    @Test
    void shouldGiveBackEveryBitOfEveryKindOfColumn() {
        SplittableRandom random = new SplittableRandom(7);
        double strangeNan = Double.longBitsToDouble(0xFFF8_0000_0000_1234L);
        double[][] columns = {
            column(i -> 12.3),
            column(i -> Double.NaN),
            column(i -> strangeNan),
            column(i -> i % 7 == 0 ? strangeNan : Double.NaN),
            column(i -> i < 80 ? 0.0 : -0.0),
            column(i -> 14_400_000_123_456L + 5_000_000L * i),
            column(i -> 60_000 + random.nextInt(100_000)),
            column(i -> i * (double) i),
            column(i -> -9007199254740991.0 + i),
            column(i -> 9007199254740992.0 * (1 + i)),
            column(i -> random.nextInt(20) * 0.0011),
            column(i -> 0.1 * i),
            column(i -> 0.1 * i),
            column(i -> i == 100 ? Double.NaN : Math.sin(i * 0.01)),
            column(i -> i % 2 == 0 ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY),
            column(i -> Double.longBitsToDouble(random.nextLong())),
            column(i -> i == 0 ? Double.NaN : Double.longBitsToDouble(random.nextLong())),
        };
        assertComesBack(columns, ROWS);
    }

    @Test
    void shouldPackAColumnThatFollowsAnotherByItsChoices() {
        double[] volts = column(i -> (i * 31 % 17) * 0.25 + 0.1);
        double[] pascal = column(i -> volts[i] * 1.234567e5);
        assertComesBack(new double[][] {volts, pascal}, ROWS);
        try (BlockEncoder encoder = new BlockEncoder(2, ROWS)) {
            int alone = encoder.encode(new double[][] {volts, column(i -> 1)}, ROWS).length;
            int both = encoder.encode(new double[][] {volts, pascal}, ROWS).length;
            assertThat(both - alone).as("its 17 values and little else").isLessThan(17 * Double.BYTES + 10);
        }
    }

    @Test
    void shouldGiveBackABlockOfOneRowAndAnyRandomBlock() {
        assertComesBack(new double[][] {{1.5}, {Double.NaN}, {-0.0}}, 1);
        for (long seed = 1; seed <= 200; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int rows = 1 + random.nextInt(ROWS);
            double[][] columns = new double[6][ROWS];
            for (double[] column : columns) {
                int kind = random.nextInt(4);
                int step = 1 + random.nextInt(50);
                for (int i = 0; i < ROWS; i++) {
                    column[i] = switch (kind) {
                        case 0 -> random.nextInt(step) * 0.1;
                        case 1 -> (double) (random.nextLong() >> random.nextInt(64));
                        case 2 -> i / step;
                        default -> i == 0 ? 0 : column[i - 1] + random.nextDouble();
                    };
                }
            }
            assertComesBack(columns, rows);
        }
    }

    @Test
    void shouldRefuseBytesThatAreNoBlock() {
        double[][] columns = {column(i -> i * 0.3), column(i -> i)};
        try (BlockEncoder encoder = new BlockEncoder(2, ROWS);
                BlockDecoder decoder = new BlockDecoder()) {
            byte[] data = encoder.encode(columns, ROWS);
            double[][] back = new double[2][ROWS];
            double[][] more = new double[3][ROWS];
            double[][] fewer = new double[1][ROWS];
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> decoder.decode(Arrays.copyOf(data, data.length / 2), ROWS, back));
            assertThatIllegalArgumentException().isThrownBy(() -> decoder.decode(data, ROWS, more));
            assertThatIllegalArgumentException().isThrownBy(() -> decoder.decode(data, ROWS, fewer));
            data[20] ^= 0x55;
            assertThatIllegalArgumentException().isThrownBy(() -> decoder.decode(data, ROWS, back));
        }
    }
}

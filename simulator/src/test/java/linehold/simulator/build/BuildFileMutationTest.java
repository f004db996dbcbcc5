package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Random damage to a good file: it still loads, or one sentence says where; nothing else ever comes out. */
class BuildFileMutationTest {
    private static final Pattern PLACED = Pattern.compile("mycar\\.yaml:[1-9][0-9]*:[1-9][0-9]*: [^\\r\\n]+");
    private static final int FILES = 1500;
    private static final String[] SCRAPS = {
        "\t",
        "\n",
        ": ",
        "- ",
        "#",
        "'",
        "\"",
        "{",
        "}",
        "[",
        "]",
        "&a ",
        "*a",
        "!!int ",
        "|",
        ">",
        "%",
        "0",
        "9",
        "-",
        "e9",
        "1e999 bar",
        "°",
        "\u00a0",
        "\ufeff",
        "\u2028",
        "\0",
        "---\n",
        "...",
        "? ",
        "<<: ",
        ",",
        "NaN",
        "~"
    };

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void shouldLoadOrSayWhereWhateverHappenedToTheFile(long seed) {
        Random random = new Random(seed);
        byte[] good = BuildFile.shipped(seed % 2 == 0 ? "rule-of-thumb" : "demonstration");
        int refused = 0;
        for (int i = 0; i < FILES; i++) {
            byte[] file = good;
            for (int edits = 1 + random.nextInt(4); edits > 0; edits--) {
                file = damage(file, random);
            }
            refused += refused(file, "seed " + seed + ", file " + i) ? 1 : 0;
        }
        assertThat(refused).as("the damage must reach the file").isBetween(FILES / 4, FILES - 1);
    }

    private static boolean refused(byte[] file, String which) {
        try {
            assertThat(BuildFile.parse("mycar.yaml", file).sha256()).hasSize(64);
            return false;
        } catch (InputException e) {
            assertThat(e.getMessage()).as(which).matches(PLACED);
            return true;
        } catch (RuntimeException | StackOverflowError e) {
            throw new AssertionError(which, e);
        }
    }

    /** Cuts, doubles or overwrites a stretch, or inserts a scrap that YAML cares about. */
    private static byte[] damage(byte[] file, Random random) {
        int from = random.nextInt(file.length);
        int to = Math.min(file.length, from + random.nextInt(random.nextInt(10) == 0 ? 400 : 8));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(file, 0, from);
        switch (random.nextInt(4)) {
            case 0 -> out.write(file, to, file.length - to);
            case 1 -> {
                out.write(file, from, to - from);
                out.write(file, from, file.length - from);
            }
            case 2 -> {
                for (int i = from; i < to; i++) {
                    out.write(random.nextInt(8) == 0 ? random.nextInt(256) : 32 + random.nextInt(95));
                }
                out.write(file, to, file.length - to);
            }
            default -> {
                out.writeBytes(SCRAPS[random.nextInt(SCRAPS.length)].getBytes(StandardCharsets.UTF_8));
                out.write(file, from, file.length - from);
            }
        }
        return out.size() == 0 ? file : out.toByteArray();
    }
}

package linehold.simulator.build;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.random.RandomGenerator;

/**
 * Build files that the validator accepts, drawn at random: the demonstration build with some of its physical values
 * moved, log-uniformly, by up to a decade up or down, now and then to anywhere within their bounds or onto a bound.
 */
public final class RandomBuilds {
    private static final List<String> SECTIONS = List.of(
            "oil",
            "line",
            "line.accumulator",
            "internal-pump",
            "regulator",
            "electric-pump",
            "hose",
            "relay",
            "supply",
            "feed",
            "low-band",
            "high-clutch",
            "reverse-clutch");

    /** The one optional key that the shipped file leaves out, beside the accumulator's. */
    private static final String FILL_LIMIT = "internal-pump.fill-limit";

    private RandomBuilds() {}

    /** Draws until the validator is content. */
    public static Build next(RandomGenerator random) {
        for (int tries = 0; tries < 2000; tries++) {
            try {
                return edited(changes(random));
            } catch (InputException contradiction) {
                // drawn again
            }
        }
        throw new IllegalStateException("the validator accepts no random build");
    }

    private static Map<String, String> changes(RandomGenerator random) {
        double wild = random.nextDouble() < 0.3 ? 0.3 : 0.03;
        double touched = random.nextDouble();
        boolean accumulator = random.nextDouble() < 0.3;
        Map<String, String> changes = new TreeMap<>();
        for (BuildKey buildKey : BuildKey.values()) {
            FileKey key = buildKey.key();
            if (!SECTIONS.contains(key.section()) || key.type() != FileKey.Type.QUANTITY) {
                continue;
            }
            boolean gas = key.section().equals("line.accumulator");
            if (gas ? accumulator : random.nextDouble() < touched) {
                changes.put(key.path(), Double.toString(value(key, random, wild)) + " " + siLabel(key));
            }
        }
        return changes;
    }

    private static String siLabel(FileKey key) {
        return key.quantity().units().get(0).label();
    }

    private static double value(FileKey key, RandomGenerator random, double wild) {
        double usual = Quantities.parse(key.example(), key.quantity()).orElseThrow();
        if (random.nextDouble() >= wild) {
            double decades = key.quantity() == Quantity.TEMPERATURE ? 0 : 2 * random.nextDouble() - 1;
            return Math.min(key.most(), Math.max(key.least(), usual * Math.pow(10, decades)));
        }
        double part = random.nextDouble();
        if (part < 0.25) {
            return key.least();
        }
        if (part < 0.5) {
            return key.most();
        }
        if (key.least() > 0) {
            return key.least() * Math.pow(key.most() / key.least(), random.nextDouble());
        }
        return key.least() + (key.most() - key.least()) * random.nextDouble();
    }

    /**
     * The demonstration build with some keys changed.
     *
     * @param changes path of the key to value as typed
     * @throws InputException if the validator refuses it
     */
    public static Build edited(Map<String, String> changes) {
        Map<String, String> left = new TreeMap<>(changes);
        List<String> out = new ArrayList<>();
        String section = "";
        for (String line : new String(BuildFile.shipped("demonstration"), StandardCharsets.UTF_8).split("\n")) {
            String key = line.replaceAll(":.*", "");
            if (line.matches("[a-z-]+:.*")) {
                section = key;
            }
            String value = left.remove(section + "." + key.strip());
            out.add(value == null ? line : key + ": " + value);
            if (line.equals("line:") && left.containsKey("line.accumulator.gas-volume")) {
                out.add("  accumulator:");
                out.add("    precharge-absolute: " + left.remove("line.accumulator.precharge-absolute"));
                out.add("    gas-volume: " + left.remove("line.accumulator.gas-volume"));
            }
            if (line.equals("internal-pump:") && left.containsKey(FILL_LIMIT)) {
                out.add("  fill-limit: " + left.remove(FILL_LIMIT));
            }
        }
        if (!left.isEmpty()) {
            throw new IllegalArgumentException("the demonstration build has no " + left.keySet());
        }
        return BuildFile.parse("random.yaml", String.join("\n", out).getBytes(StandardCharsets.UTF_8));
    }
}

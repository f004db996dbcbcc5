package linehold.controller.statespace;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.switching.PumpState;

/**
 * When two states of the controller count as one. Flags, states and phases count as they are. A time counts by whether it
 * has run out, where it runs at all; a confirmation under way ends by itself, so that it runs says enough. Pressures and
 * speeds count by their band. What is only a record (counts, freeze frames, outputs), or is written anew at every step
 * before it is read, counts not at all. Every word that a controller remembers is named here: a new one fails the test
 * until it is placed.
 */
final class Abstraction {
    private static final PumpState[] STATES = PumpState.values();
    private static final int ALWAYS = -1;
    private static final int LOST = -2;
    private static final int PRIME = -3;
    private static final int RUNS = -4;
    private static final long NEVER = Long.MAX_VALUE;

    private enum Rule {
        AS_IS,
        /** Whether it has run out, where the condition holds. */
        AGE,
        /** Lowest of a span of pressure: the span has moved, or the band of the pressure it stays at. */
        SPAN,
        /** Whether it is zero. */
        SPEED,
        RECORD
    }

    private record Row(String path, Rule rule, long limitNs, String when) {}

    private static final List<Row> ROWS = List.of(
            row("(.*\\.)?changingSinceNs", Rule.RECORD),
            // A weld informs only.
            row("feed\\.(notOpening\\..*|(main|standby)Relay\\.(welded|closedSinceDead))", Rule.RECORD),
            // A return matters only to what is held.
            row("feed\\.lost\\.back\\..*", Rule.AS_IS, NEVER, "feed.lost.active"),
            row("prime\\.failed\\.back\\..*", Rule.AS_IS, NEVER, "prime.failed.active"),
            row("pressureLoss\\.back\\..*", Rule.AS_IS, NEVER, "LOST"),
            row("codes\\..*|lastNs", Rule.RECORD),
            row("pump\\.relayOperations\\..*", Rule.RECORD),
            row("(.*\\.)?(changing|confirmed|wasLow|active)", Rule.AS_IS),
            row("started", Rule.AS_IS),
            row("feed\\.(mainOn|standbyOn)|feed\\.(main|standby)Relay\\.stuckOff", Rule.AS_IS),
            row("feed\\.voltage\\.(main|standby)Lost", Rule.AS_IS),
            row("feed\\.selfTest\\.(phase|started|wasPriming)", Rule.AS_IS),
            // Once the prime is judged, how the test ended matters to the lamp alone.
            row("feed\\.selfTest\\.(failed|state)", Rule.AS_IS, NEVER, "senderMotion.primeOpen"),
            row("feed\\.selfTest\\.stillSinceNs", Rule.AGE, 5_000_000, "feed.selfTest.started"),
            row("feed\\.selfTest\\..*", Rule.RECORD),
            row("pressureLoss\\.(fillingSinceNs|lowTurningSinceNs)", Rule.RECORD),
            row("pressureLoss\\..*", Rule.AS_IS),
            row("prime\\.priming", Rule.AS_IS),
            row("restart\\.restSeen", Rule.AS_IS),
            // Asked in OFF alone, which forgets it.
            row("restart\\.restarted", Rule.RECORD),
            row("prime\\.sinceNs", Rule.AGE, 3_000_000_000L, "prime.priming"),
            row("pump\\.(state|coolingDown)", Rule.AS_IS),
            row("pump\\.primingSinceNs", Rule.AGE, 1_500_000_000L, "PRIME"),
            row("pump\\.runningSinceNs", Rule.AGE, 2_000_000_000L, "RUNS"),
            row("pump\\.coolDownSinceNs", Rule.RECORD),
            // The sender is lost in the same tick here, so a last good pressure is never used again.
            row("sender\\.pressurePa", Rule.RECORD),
            row("senderMotion\\.(primeOpen|suspect|wasPriming)", Rule.AS_IS),
            row("senderMotion\\.testedSinceNs", Rule.AGE, 1_000_000_000L, "senderMotion.primeOpen"),
            row("senderMotion\\.prime\\.lowest", Rule.SPAN, NEVER, "senderMotion.primeOpen"),
            row("senderMotion\\.prime\\.highest", Rule.RECORD),
            row("shaftSpeed\\.edgeKnown", Rule.AS_IS),
            row("shaftSpeed\\.measuredRadPerS", Rule.SPEED),
            row("shaftSpeed\\..*", Rule.RECORD));

    private final int[] counted;
    private final Row[] rows;
    private final int[] flags;
    private final int pumpState;
    private final int highest;
    private final int lostMoving;
    private final int lostStanding;
    private final List<String> paths;

    Abstraction(ControllerMemory memory) {
        paths = memory.paths();
        memory.arrayPaths().forEach(path -> {
            if (place(path).rule() != Rule.RECORD) {
                throw new AssertionError(path + " is an array, and arrays can only be records");
            }
        });
        rows = paths.stream().map(Abstraction::place).toArray(Row[]::new);
        List<Integer> kept = new ArrayList<>();
        flags = new int[rows.length];
        for (int i = 0; i < rows.length; i++) {
            flags[i] = condition(rows[i].when());
            if (rows[i].rule() != Rule.RECORD) {
                kept.add(i);
            }
        }
        counted = kept.stream().mapToInt(Integer::intValue).toArray();
        pumpState = paths.indexOf("pump.state");
        highest = paths.indexOf("senderMotion.prime.highest");
        lostMoving = paths.indexOf("pressureLoss.lostMoving");
        lostStanding = paths.indexOf("pressureLoss.lostStanding");
    }

    private int condition(String when) {
        return switch (when) {
            case "" -> ALWAYS;
            case "LOST" -> LOST;
            case "PRIME" -> PRIME;
            case "RUNS" -> RUNS;
            default -> paths.indexOf(when);
        };
    }

    private static Row place(String path) {
        return ROWS.stream()
                .filter(row -> path.matches(row.path()))
                .findFirst()
                .orElseThrow(() -> new AssertionError(path + " has no place in the abstraction of the state space"));
    }

    private static Row row(String path, Rule rule) {
        return row(path, rule, NEVER, "");
    }

    private static Row row(String path, Rule rule, long limitNs, String when) {
        return new Row(path, rule, limitNs, when);
    }

    /** The words that {@link #of} looks at. */
    int[] looksAt() {
        return java.util.stream.IntStream.range(0, rows.length)
                .filter(i -> rows[i].rule() != Rule.RECORD || i == highest)
                .toArray();
    }

    /** What counts of a state, one character a word. */
    String of(long[] words, long nowNs) {
        char[] key = new char[counted.length];
        for (int k = 0; k < counted.length; k++) {
            int i = counted[k];
            if (runs(i, words)) {
                key[k] = switch (rows[i].rule()) {
                    case AS_IS -> (char) words[i];
                    case AGE -> nowNs - words[i] >= rows[i].limitNs() ? '2' : '1';
                    case SPAN -> span(Double.longBitsToDouble(words[i]), Double.longBitsToDouble(words[highest]));
                    case SPEED -> words[i] == 0 ? 's' : 't';
                    case RECORD -> throw new AssertionError();
                };
            }
        }
        return new String(key);
    }

    private boolean runs(int i, long[] words) {
        return switch (flags[i]) {
            case ALWAYS -> true;
            case LOST -> words[lostMoving] != 0 || words[lostStanding] != 0;
            case PRIME -> words[pumpState] == PumpState.PRIME.ordinal();
            case RUNS -> STATES[(int) words[pumpState]].pumpRuns();
            default -> words[flags[i]] != 0;
        };
    }

    private static char span(double lowestPa, double highestPa) {
        if (highestPa - lowestPa >= 0.3e5) {
            return 'm';
        }
        return Double.isNaN(highestPa - lowestPa) ? 'n' : lowestPa < 4e5 ? 'l' : 'h';
    }
}

package linehold.simulator.build;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Guesses which word a person meant. */
public final class Spelling {
    private Spelling() {}

    /** The word nearest to what was typed, if it is near enough to be meant: about one edit in three letters. */
    public static Optional<String> nearest(String typed, Collection<String> words) {
        int near = 1 + typed.length() / 3;
        return words.stream()
                .filter(word -> distance(typed, word) <= near)
                .min(Comparator.comparingInt((String word) -> distance(typed, word))
                        .thenComparing(Comparator.naturalOrder()));
    }

    /** Least number of letters to insert, delete or replace (Levenshtein 1966, dynamic programming by rows). */
    static int distance(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int replaced = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[b.length()];
    }
}

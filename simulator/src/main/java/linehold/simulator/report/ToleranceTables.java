package linehold.simulator.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import linehold.simulator.build.Display;
import linehold.simulator.build.Spread;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.prove.Reserve;
import linehold.simulator.window.Tolerance;
import linehold.simulator.window.Tolerance.Answer;
import linehold.simulator.window.Tolerance.Corner;
import linehold.simulator.window.Tolerance.Share;
import linehold.simulator.window.Tolerance.Weight;

/** What the spreads do to a window, in sentences and a table that terminal and page share. */
final class ToleranceTables {
    /** A smaller move of the reserve shows as nothing. */
    private static final double LEAST_SHOWN = 0.0005;

    private final Tolerance tolerance;
    private final Display display;

    ToleranceTables(Tolerance tolerance, Display display) {
        this.tolerance = tolerance;
        this.display = display;
    }

    List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        String cars = Sentences.count(tolerance.cars(), "car");
        sentences.add("From car to car: " + tolerance.held() + " of " + cars + " hold, " + share(tolerance.share())
                + ". They are drawn evenly within the "
                + Sentences.count(tolerance.spreads().size(), "spread")
                + " of the build file (seed " + tolerance.seed()
                + "), with the window alone and the controller set for the"
                + " nominal car.");
        tolerance.answers().forEach(answer -> sentences.add(sentence(answer)));
        return sentences;
    }

    private String sentence(Answer answer) {
        String lost = answer.lost().isEmpty() ? "" : " (lost: " + lost(answer.lost()) + ")";
        int ends = answer.corner().ends().size();
        return place(answer) + ": " + answer.held() + " of "
                + Sentences.count(tolerance.cars(), "car") + " hold" + lost + ", " + share(answer.share())
                + ". Reserve of the nominal car " + ratio(answer.nominal().least()) + ", least of the cars "
                + ratio(answer.lowest()) + ". The worst car found, " + Sentences.count(ends, "value")
                + " at the end that hurts, is " + outcome(answer.corner().reserve()) + ".";
    }

    private static String lost(Map<Criterion, Integer> lost) {
        return lost.entrySet().stream()
                .map(entry -> entry.getKey().title() + " " + entry.getValue())
                .collect(Collectors.joining(", "));
    }

    private static String outcome(Reserve reserve) {
        if (reserve.lost() == Criterion.NEVER_PRIMED) {
            return "lost: its line never reaches the hold pressure after key-on";
        }
        String with = ", with a reserve of " + ratio(reserve.least());
        return reserve.held() ? "held" + with : "lost by " + reserve.lost().title() + with;
    }

    private String share(Share share) {
        return percent(share.share()) + " % (between " + percent(share.low()) + " % and " + percent(share.high())
                + " % with " + Numbers.fixed(100 * tolerance.confidence(), 0) + " % confidence)";
    }

    private static String percent(double share) {
        return Numbers.fixed(100 * share, 1);
    }

    private static String ratio(double reserve) {
        return Numbers.fixed(reserve, 2);
    }

    private String place(Answer answer) {
        String drive = answer.drive();
        return drive.substring(0, 1).toUpperCase(Locale.ROOT) + drive.substring(1) + " at "
                + display.temperature(answer.oilC());
    }

    /** What matters most first, wherever it does; at most so many rows. */
    NumberTable ranking(int rows) {
        List<String> head = new ArrayList<>(List.of("value"));
        tolerance.answers().forEach(answer -> head.add(answer.drive() + " " + display.temperature(answer.oilC())));
        NumberTable.Builder table = new NumberTable.Builder(
                "Which spread matters most",
                "How far the reserve moves (1 is just allowed) when the value goes from the low to the high end of its"
                        + " spread: + up, − down, ± depending on the rest of the car; low or high is where the worst car"
                        + " has it.",
                head);
        tolerance.spreads().stream()
                .filter(this::matters)
                .sorted(Comparator.comparingDouble(this::most).reversed())
                .limit(rows)
                .forEach(spread -> table.row(
                        spread.key(),
                        tolerance.answers().stream()
                                .map(answer -> cell(answer, spread))
                                .toList()));
        return table.build();
    }

    /** The spreads that move nothing, in one sentence; empty where there are none. */
    String mattersNowhere() {
        List<String> keys = tolerance.spreads().stream()
                .filter(spread -> !matters(spread))
                .map(Spread::key)
                .toList();
        return keys.isEmpty()
                ? ""
                : "Less than " + Numbers.fixed(LEAST_SHOWN, 4) + " everywhere: " + String.join(", ", keys) + ".";
    }

    private boolean matters(Spread spread) {
        return most(spread) >= LEAST_SHOWN;
    }

    private double most(Spread spread) {
        return tolerance.answers().stream()
                .mapToDouble(answer -> weight(answer, spread).meanSize())
                .max()
                .orElse(0);
    }

    private static Weight weight(Answer answer, Spread spread) {
        return answer.ranking().stream()
                .filter(weight -> weight.spread().equals(spread))
                .findFirst()
                .orElseThrow();
    }

    private static String cell(Answer answer, Spread spread) {
        Weight weight = weight(answer, spread);
        if (weight.meanSize() < LEAST_SHOWN) {
            return "–";
        }
        boolean either = Math.abs(weight.mean()) < weight.meanSize() / 2;
        String sign = either ? "±" : weight.mean() < 0 ? "−" : "+";
        String end = end(answer.corner(), spread);
        return sign + Numbers.fixed(weight.meanSize(), 3) + (end == null ? "" : " " + end);
    }

    /** Where the worst car has a value: {@code low}, {@code high}, or null where it is the nominal one. */
    static String end(Corner corner, Spread spread) {
        return corner.ends().stream()
                .filter(end -> end.spread().equals(spread))
                .map(end -> end.high() ? "high" : "low")
                .findFirst()
                .orElse(null);
    }
}

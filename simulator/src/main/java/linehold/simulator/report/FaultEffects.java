package linehold.simulator.report;

import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import linehold.controller.DrivePermission;
import linehold.controller.safety.TroubleCode;
import linehold.simulator.build.Display;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Outcome;
import linehold.simulator.report.FaultsFacts.Group;

/** The failure-mode-and-effects table: for each fault one row an outcome. Then what its trouble codes mean. */
final class FaultEffects {
    private final FaultsFacts facts;
    private final Display display;
    private final Markup html;

    FaultEffects(FaultsFacts facts, Display display, Markup html) {
        this.facts = facts;
        this.display = display;
        this.html = html;
    }

    void write() {
        html.open("section", "class", "wide", "aria-labelledby", "effects");
        html.element("h2", "Failure modes and effects", "id", "effects").line();
        html.element(
                        "p",
                        "One row for all runs of a fault that came to the same. The effect is that of the worst of them;"
                                + " pressures and margin are the lowest and highest of all of them. Numbers behind words"
                                + " count runs. Drive unchanged: as in the healthy car. Pump: the controller's pump state"
                                + " one second after the notice, or after the fault if there was none. Margin: capacity"
                                + " over the demand of the torque still permitted.")
                .line();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", "effects");
        html.open("table", "class", "effects", "aria-labelledby", "effects")
                .open("thead")
                .open("tr");
        String unit = display.pressureScale().label();
        for (String head : List.of(
                "Fault",
                "Phases",
                "Effect",
                "Detection",
                "Reaction",
                "Lowest " + unit,
                "Highest " + unit,
                "Lowest margin",
                "Residual risk")) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().line();
        FaultKind.Part part = null;
        for (FaultKind kind : facts.byFault().keySet()) {
            html.open("tbody");
            if (kind.part() != part) {
                part = kind.part();
                html.open("tr").element("th", part.title(), "scope", "rowgroup", "colspan", "9", "class", "part");
                html.close();
            }
            fault(kind);
            html.close().line();
        }
        html.close().close().close().line();
    }

    private void fault(FaultKind kind) {
        List<Group> groups = facts.groups(kind);
        for (int i = 0; i < groups.size(); i++) {
            html.open("tr");
            if (i == 0) {
                html.element(
                        "th", FaultWords.name(kind), "scope", "rowgroup", "rowspan", String.valueOf(groups.size()));
            }
            row(groups.get(i));
            html.close();
        }
    }

    private void row(Group group) {
        html.open("td").text(FaultWords.phases(group.runs(), facts, display) + " ");
        html.element("span", Sentences.count(group.runs().size(), "run"), "class", "quiet");
        html.close();
        html.element("td", effect(group), "class", "effect");
        html.element("td", Sentences.whole(detection(group.runs())));
        html.element("td", reaction(group.runs()));
        number(group, FaultRun::lowestPressurePa, DoubleStream::min, display.pressureScale()::number);
        number(group, FaultRun::highestPressurePa, DoubleStream::max, pa -> FaultWords.highest(pa, display));
        number(group, FaultRun::lowestMargin, DoubleStream::min, margin -> Numbers.fixed(margin, 2));
        Outcome outcome = group.outcome();
        boolean harm = !outcome.covered() || overpressure(group);
        html.open("td", "class", harm ? "risk lostcell" : "risk");
        html.element("strong", FaultWords.sign(outcome) + " " + outcome.title());
        html.text(". " + risk(group)).close();
    }

    private boolean overpressure(Group group) {
        return group.runs().stream().anyMatch(facts::isOverpressure);
    }

    private void number(
            Group group,
            ToDoubleFunction<FaultRun> value,
            Function<DoubleStream, OptionalDouble> extreme,
            Function<Double, String> text) {
        DoubleStream finite = group.runs().stream().mapToDouble(value).filter(Double::isFinite);
        double found = extreme.apply(finite).orElse(Double.NaN);
        html.element("td", text.apply(found), "class", "n");
    }

    private String effect(Group group) {
        FaultRun worst = group.worst();
        return group.runs().size() == 1
                ? Sentences.whole(worst.effect())
                : Sentences.whole(FaultWords.where(worst, display) + ": " + worst.effect());
    }

    /** Codes and how long after the fault. */
    private String detection(List<FaultRun> runs) {
        double[] after = runs.stream()
                .mapToDouble(FaultRun::noticedAfterS)
                .filter(Double::isFinite)
                .sorted()
                .toArray();
        if (after.length == 0) {
            return "none";
        }
        String first = time(after[0]);
        String last = time(after[after.length - 1]);
        return codes(runs) + "; " + (first.equals(last) ? first : first + " to " + last) + " after it";
    }

    private static String codes(List<FaultRun> runs) {
        Map<String, Integer> counts = new TreeMap<>();
        runs.forEach(run -> run.codes().forEach(code -> counts.merge(code, 1, Integer::sum)));
        if (counts.isEmpty()) {
            return "no code, but drive restricted";
        }
        List<String> always = counts.keySet().stream()
                .filter(code -> counts.get(code) == runs.size())
                .toList();
        List<String> sometimes =
                counts.keySet().stream().filter(code -> !always.contains(code)).toList();
        long none = runs.stream().filter(run -> run.codes().isEmpty()).count();
        Set<String> texts = new LinkedHashSet<>();
        if (!always.isEmpty()) {
            texts.add(String.join(", ", always));
        }
        if (!sometimes.isEmpty()) {
            texts.add((always.isEmpty() ? "" : "in some runs ") + String.join(", ", sometimes));
        }
        if (none > 0) {
            texts.add("in " + Sentences.count(none, "run") + " no code, but drive restricted");
        } else if (always.isEmpty()) {
            texts.add("at least one of these in every run");
        }
        return String.join("; ", texts);
    }

    private String time(double s) {
        return s < 1 ? display.shortTime(s) : display.time(s);
    }

    private static String reaction(List<FaultRun> runs) {
        return "Drive: " + counted(runs, run -> permission(run.permission())) + ". Pump: "
                + counted(runs, run -> Words.of(run.state())) + ".";
    }

    private static String permission(DrivePermission permission) {
        return permission == DrivePermission.GRANTED ? "unchanged" : Words.of(permission);
    }

    /** The word, or where there are several each with its count, the most frequent first. */
    private static String counted(List<FaultRun> runs, Function<FaultRun, String> word) {
        Map<String, Long> counts =
                runs.stream().collect(Collectors.groupingBy(word, TreeMap::new, Collectors.counting()));
        if (counts.size() == 1) {
            return counts.keySet().iterator().next();
        }
        return counts.entrySet().stream()
                .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
                .map(entry -> entry.getKey() + " " + entry.getValue())
                .collect(Collectors.joining(", "));
    }

    private String risk(Group group) {
        FaultRun worst = group.worst();
        String text = switch (group.outcome()) {
            case HARMLESS ->
                Double.isInfinite(group.kind().usualDurationS())
                        ? "Nobody knows of it: a second fault may come on top."
                        : "None seen; it passes.";
            case NOTICED_IN_TIME -> afterNotice(group);
            case SLIP_DESPITE_NOTICE -> "The element slips and wears while drive is being taken back.";
            case SLIP_BEFORE_NOTICE -> "The element slips and wears before anything is done.";
            case NEVER_NOTICED ->
                Double.isNaN(worst.slipAfterS())
                        ? "Hold pressure is lost and nobody is told."
                        : "The element slips and wears and nobody is told.";
        };
        String over = overpressure(group) ? " Overpressure: a hose, a seal or the case may burst, with hot oil." : "";
        return text + over + (group.claimed() ? "" : " The build does not claim to cover it.");
    }

    private static String afterNotice(Group group) {
        Set<DrivePermission> seen =
                group.runs().stream().map(FaultRun::permission).collect(Collectors.toCollection(TreeSet::new));
        StringBuilder text = new StringBuilder();
        if (seen.contains(DrivePermission.WITHHELD)) {
            text.append("The car stays, or rolls on, without drive. ");
        }
        if (seen.contains(DrivePermission.REDUCED)) {
            text.append("The car goes on with less torque. ");
        }
        if (seen.contains(DrivePermission.GRANTED)) {
            text.append("Who drives on with the lamp lit has less left for a second fault. ");
        }
        return text.toString().strip();
    }

    /** What the codes of the table above mean. */
    void codes() {
        Set<String> raised = facts.byFault().values().stream()
                .flatMap(List::stream)
                .flatMap(run -> run.codes().stream())
                .collect(Collectors.toSet());
        if (raised.isEmpty()) {
            return;
        }
        html.open("section", "aria-labelledby", "codes");
        html.element("h2", "Trouble codes in this table", "id", "codes").line();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", "codes");
        html.open("table", "class", "facts", "aria-labelledby", "codes")
                .open("thead")
                .open("tr");
        for (String head : List.of("Code", "Title", "Raised when")) {
            html.element("th", head, "scope", "col");
        }
        html.close().close().open("tbody").line();
        Arrays.stream(TroubleCode.values())
                .filter(code -> raised.contains(code.number()))
                .sorted(Comparator.comparing(TroubleCode::number))
                .forEach(code -> {
                    html.open("tr").element("th", code.number(), "scope", "row");
                    html.element("td", code.title()).element("td", code.cause());
                    html.close().line();
                });
        html.close().close().close().close().line();
    }
}

package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import linehold.simulator.build.Display;
import linehold.simulator.build.Gear;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.RunVerdict;

/** What the page says about one drive: losses, figures, the whole drive, its worst two seconds, remarks. */
final class DriveSection {
    private final Display display;
    private final double safetyFactor;
    private final OverviewFigure overview;
    private final CloseUpFigure closeUp;

    DriveSection(Display display, double holdPressurePa, double safetyFactor) {
        this.display = display;
        this.safetyFactor = safetyFactor;
        this.overview = new OverviewFigure(display, holdPressurePa);
        this.closeUp = new CloseUpFigure(display, holdPressurePa);
    }

    /**
     * @param id anchor of the section, unique on the page
     * @param runs the drive's runs, coldest first
     */
    void write(Markup html, String id, List<RunVerdict> runs) {
        RunVerdict first = runs.get(0);
        boolean held = runs.stream().allMatch(RunVerdict::held);
        html.open("section", "class", "drive", "id", id, "aria-labelledby", id + "-h");
        html.open("h2", "id", id + "-h").text(first.drive()).text(" ");
        html.element("span", held ? "held" : "lost", "class", held ? "held" : "lost")
                .close()
                .line();
        html.element("p", first.source() + ", " + display.time(first.durationS()) + ".", "class", "quiet")
                .line();
        losses(html, runs);
        RunVerdict worst = runs.stream().min(Grid.WORST_FIRST).orElseThrow();
        html.open("p").element("strong", "Weakest moment. ").text(Sentences.whole(worst.weakest()));
        html.close().line();
        figures(html, id, runs);
        figure(
                html,
                "The whole drive",
                "Band: lowest to highest value in each moment of the drawing. Ring: lowest pressure"
                        + " of an engaged element. Cross: here the run was lost.",
                () -> overview.write(html, id, runs));
        runs.stream()
                .filter(run -> run.closeUp() != null && run.closeUp().timeS().length > 1)
                .min(Grid.WORST_FIRST)
                .ifPresent(run -> figure(
                        html,
                        "The worst two seconds, at " + display.temperature(run.oilC()),
                        "The upright line marks the moment.",
                        () -> closeUp.write(html, id + "-c", run)));
        remarks(html, runs);
        html.close().line();
    }

    private void losses(Markup html, List<RunVerdict> runs) {
        List<RunVerdict> lost = runs.stream().filter(run -> !run.held()).toList();
        if (lost.isEmpty()) {
            return;
        }
        html.open("ul", "class", "losses");
        for (RunVerdict run : lost) {
            for (Loss loss : run.losses()) {
                html.open("li").element("strong", "Lost at " + display.temperature(run.oilC()) + ": ");
                html.text(Sentences.loss(loss)).close();
            }
        }
        html.close().line();
    }

    private void figure(Markup html, String title, String caption, Runnable drawings) {
        html.element("h3", title);
        html.open("figure");
        html.element("figcaption", caption).line();
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-label", title);
        drawings.run();
        html.close().close().line();
    }

    /** One row a figure, one column an oil temperature: narrow enough for paper and telephone. */
    private void figures(Markup html, String id, List<RunVerdict> runs) {
        html.element("h3", "Figures", "id", id + "-f");
        html.open("div", "class", "scroll", "tabindex", "0", "role", "group", "aria-labelledby", id + "-f");
        html.open("table", "class", "figures", "aria-labelledby", id + "-f");
        html.open("thead").open("tr").element("th", "Oil temperature", "scope", "col");
        for (RunVerdict run : runs) {
            html.element("th", display.temperature(run.oilC()), "scope", "col");
        }
        html.close().close().open("tbody").line();
        Display.Scale pressure = display.pressureScale();
        row(html, runs, "Verdict", run -> run.held() ? "held" : "LOST");
        row(html, runs, "Lowest pressure, engaged and settled, " + pressure.label(), run -> number(pressure, run));
        row(
                html,
                runs,
                "    at, s",
                run -> moment(run.lowPoint().atS(), run.lowPoint().gear()));
        row(html, runs, "Lowest margin (at least " + Numbers.fixed(safetyFactor, 2) + ")", DriveSection::margin);
        row(html, runs, "    at, s", run -> moment(run.marginMinAtS(), run.marginMinGear()));
        row(html, runs, "Below hold pressure, s", run -> Numbers.fixed(run.belowHoldS(), 3));
        row(
                html,
                runs,
                "Longest engagement (limit), s",
                run -> Numbers.fixed(run.longestEngagementS(), 2) + " (" + Numbers.fixed(run.engagementLimitS(), 2)
                        + ")");
        row(html, runs, "Drive refused, s", run -> Numbers.fixed(run.refusedS(), 2));
        row(html, runs, "Primed at, s", run -> Numbers.fixed(run.primedAtS(), 2));
        row(
                html,
                runs,
                "Relay operations (per hour)",
                run -> run.relayOperations() + " (" + Numbers.fixed(run.relayOperationsPerHour(), 0) + ")");
        row(html, runs, "Electric pump on, %", run -> Numbers.fixed(run.pumpOnShare() * 100, 1));
        Display.Scale energy = display.energyScale();
        row(html, runs, "Energy of the electric pump, " + energy.label(), run -> energy.number(run.pumpEnergyJ()));
        row(html, runs, "Hand-overs", run -> Long.toString(run.handOvers()));
        Display.Scale volume = display.volumeScale();
        row(html, runs, "Air drawn, " + volume.label(), run -> volume.number(run.airDrawnM3()));
        row(html, runs, "Trouble codes", run -> run.codes().isEmpty() ? "none" : String.join(", ", run.codes()));
        html.close().close().close().line();
    }

    private static void row(Markup html, List<RunVerdict> runs, String name, Function<RunVerdict, String> cell) {
        html.open("tr");
        html.element("th", name.strip(), "scope", "row", "class", name.startsWith(" ") ? "sub" : "main");
        for (RunVerdict run : runs) {
            html.element("td", cell.apply(run), "class", run.held() ? "n" : "n lostcell");
        }
        html.close().line();
    }

    private static String number(Display.Scale scale, RunVerdict run) {
        return Double.isFinite(run.lowPoint().pressurePa())
                ? scale.number(run.lowPoint().pressurePa())
                : "none engaged";
    }

    private static String margin(RunVerdict run) {
        return Double.isFinite(run.marginMin()) ? Numbers.fixed(run.marginMin(), 2) : "no torque";
    }

    private static String moment(double atS, Gear gear) {
        if (!Double.isFinite(atS)) {
            return "–";
        }
        return Numbers.fixed(atS, 2) + (gear == null ? "" : ", " + Words.of(gear));
    }

    private void remarks(Markup html, List<RunVerdict> runs) {
        List<String> remarks = new ArrayList<>();
        // The log is read once; its repairs are the same at every temperature.
        remarks.addAll(Sentences.repairs(runs.get(0).repairs()));
        for (String warning :
                runs.stream().flatMap(run -> run.warnings().stream()).distinct().toList()) {
            List<String> at = runs.stream()
                    .filter(run -> run.warnings().contains(warning))
                    .map(run -> display.temperature(run.oilC()))
                    .toList();
            remarks.add(at.size() == runs.size() ? warning : String.join(", ", at) + ": " + warning);
        }
        if (remarks.isEmpty()) {
            return;
        }
        html.element("h3", "Warnings and repairs to the log");
        html.open("ul");
        remarks.forEach(remark -> html.element("li", Sentences.whole(remark)));
        html.close().line();
    }
}

package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.simulator.build.Display;
import linehold.simulator.certificate.Certificate.Switching;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Counterexample;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;

/** What a certification says in sentences, the same on terminal and page. */
final class CertifyWords {
    private final Report report;
    private final Display display;

    CertifyWords(Report report, Display display) {
        this.report = report;
        this.display = display;
    }

    String question() {
        Switching s = report.main().basis().switching();
        return "Build " + report.main().build().name() + ", "
                + (report.spreadsAsked() ? "any car within its spreads" : "the car as written") + ": pump on below "
                + display.speed(s.onRadPerS()) + " by the pickup alone, shaft falling no faster than "
                + display.acceleration(report.main().claim().fallRadPerS2()) + ", contact closed within "
                + display.shortTime(report.main().claim().closedAfterS()) + " of the last edge.";
    }

    String verdict() {
        Certification c = report.main();
        SliceProof weakest = c.weakest();
        String hold = display.pressure(c.basis().holdPa());
        if (c.certified()) {
            return "Certified: at no oil temperature does any such drive take the line below "
                    + display.pressure(c.claim().lowestPa()) + " (hold pressure " + hold + "). The least is set at "
                    + slice(weakest) + " by " + weakest.limit().words() + ".";
        }
        if (weakest.lowestPa() == 0) {
            return "Refused: at " + slice(weakest) + " no pressure is certain (hold pressure " + hold + ").";
        }
        return "Refused: at " + slice(weakest) + " only " + display.pressure(weakest.lowestPa())
                + " is certain (hold pressure " + hold + "); it is set by "
                + weakest.limit().words() + ".";
    }

    List<String> limits() {
        Certification c = report.main();
        List<String> lines = new ArrayList<>();
        lines.add(
                Double.isNaN(c.largestFallRadPerS2())
                        ? "No fall of 300 rpm/s or more is certain to keep the hold pressure."
                        : "With this switch-on speed the hold pressure is certain up to a fall of "
                                + display.acceleration(c.largestFallRadPerS2()) + ".");
        lines.add(
                Double.isNaN(c.lowestOnRadPerS())
                        ? "No switch-on speed makes it certain for the fall asked."
                        : "For the fall asked the lowest switch-on speed that makes it certain is "
                                + display.speed(c.lowestOnRadPerS()) + ".");
        Certification other = report.spreadsAsked() ? report.asWritten() : report.withSpreads();
        if (other != null) {
            lines.add((report.spreadsAsked() ? "The car as written: " : "With every spread of the file at its worst: ")
                    + (other.claim().lowestPa() == 0
                            ? "nothing"
                            : display.pressure(other.claim().lowestPa()))
                    + " is certain"
                    + (Double.isNaN(other.largestFallRadPerS2())
                            ? "."
                            : ", the hold pressure up to " + display.acceleration(other.largestFallRadPerS2()) + "."));
        }
        return lines;
    }

    String worst() {
        Counterexample worst = report.worst();
        if (worst == null) {
            return "No search for a counter-example was made.";
        }
        return "The lowest pressure that a search of " + report.runsEach() + " drives in each of "
                + report.found().size() + " slices found is " + display.pressure(worst.lowestPa()) + " at "
                + display.temperature(worst.oilC()) + " (seed " + report.seed() + "); "
                + (worst.boundPa() > 0
                        ? "the bound there is " + display.pressure(worst.boundPa()) + ", " + percent(worst.gap())
                                + " below it."
                        : "there is no bound there.");
    }

    String slice(SliceProof slice) {
        return display.temperatureScale().number(slice.coldC()) + " to " + display.temperature(slice.hotC());
    }

    static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }
}

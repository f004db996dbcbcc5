package linehold.simulator.report;

import java.util.Arrays;
import linehold.simulator.build.Display;
import linehold.simulator.certificate.Curve;
import linehold.simulator.certify.Counterexample;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;

/** The worst drive found, with the certified curve under its last fall. */
final class CertifyFigure {
    private static final double AFTER_S = 0.5;
    private static final double BEFORE_S = 0.4;

    private CertifyFigure() {}

    static void write(Report report, Display display, Markup html) {
        Counterexample worst = report.worst();
        double fromS = Math.max(worst.timeS()[0], worst.lastFallS() - BEFORE_S);
        double toS = Math.min(worst.timeS()[worst.timeS().length - 1], worst.lastFallS() + AFTER_S);
        int first = index(worst.timeS(), fromS);
        int end = index(worst.timeS(), toS);
        double[] timeS = Arrays.copyOfRange(worst.timeS(), first, end);
        Display.Scale pressure = display.pressureScale();
        Display.Scale speed = display.speedScale();
        double[] line = scaled(pressure, Arrays.copyOfRange(worst.linePa(), first, end));
        double[] shaft = scaled(speed, Arrays.copyOfRange(worst.shaftRadPerS(), first, end));

        Plot.open(
                html,
                "bound",
                292,
                "The worst drive found and the bound under it",
                "Line pressure of the worst drive that the search found, the certified lower curve of its oil temperature"
                        + " drawn from the moment of its last fall, the guaranteed lowest pressure, and the shaft speed.");
        Plot plot = new Plot(html, fromS, toS);
        plot.levelKey("guaranteed " + (worst.boundPa() > 0 ? pressure.text(worst.boundPa()) : "nothing"));
        plot.key(Plot.LEFT, "line pressure found", "pressure");
        plot.key(Plot.LEFT + 190, "certified lower curve", "element");
        plot.gap(15);
        double high = Arrays.stream(line).max().orElse(1) * 1.1;
        Axis axis = plot.panel(150, 0, high, pressure.label());
        plot.trace(axis, timeS, line, "pressure");
        Curve curve = curve(report, worst);
        if (curve != null) {
            int points = 1;
            while (points < curve.points() && worst.lastFallS() + curve.timeS()[points] < toS) {
                points++;
            }
            double[] curveS = new double[points];
            for (int i = 0; i < points; i++) {
                curveS[i] = worst.lastFallS() + curve.timeS()[i];
            }
            plot.trace(axis, curveS, scaled(pressure, Arrays.copyOf(curve.linePa(), points)), "element");
            plot.level(axis, pressure.value(worst.boundPa()));
        }
        plot.gap(4);
        plot.key(Plot.LEFT, "shaft speed", "speed");
        plot.gap(15);
        double lowest = Math.min(0, Arrays.stream(shaft).min().orElse(0));
        Axis speeds = plot.panel(64, lowest, Arrays.stream(shaft).max().orElse(1), speed.label());
        plot.trace(speeds, timeS, shaft, "speed");
        plot.timeAxis();
        html.close().line();
    }

    private static Curve curve(Report report, Counterexample worst) {
        return report.main().slices().stream()
                .filter(slice -> slice.coldC() == worst.coldC() && slice.slice() != null)
                .map(SliceProof::slice)
                .map(slice -> slice.fall())
                .findFirst()
                .orElse(null);
    }

    private static double[] scaled(Display.Scale scale, double[] si) {
        return Arrays.stream(si).map(scale::value).toArray();
    }

    private static int index(double[] rising, double value) {
        int i = Arrays.binarySearch(rising, value);
        return i >= 0 ? i : Math.min(rising.length, -i - 1);
    }
}

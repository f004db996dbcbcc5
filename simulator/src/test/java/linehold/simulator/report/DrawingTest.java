package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class DrawingTest {
    @Test
    void shouldPutTicksOnRoundValuesInsideTheAxis() {
        Axis axis = Axis.over(-3.2, 11.4, 100, 0, 5);
        assertThat(axis.ticks()).containsExactly(0, 5, 10);
        assertThat(axis.label(5)).isEqualTo("5");
        assertThat(Axis.over(8.1, 10.1, 0, 100, 10).ticks()).hasSize(10);
        assertThat(Axis.over(8.1, 10.1, 0, 100, 10).label(8.2)).isEqualTo("8.2");
        assertThat(axis.px(-3.2)).isEqualTo(100);
        assertThat(axis.px(11.4)).isEqualTo(0);
    }

    @Test
    void shouldDrawAnAxisWithoutExtent() {
        assertThat(Axis.over(0, 0, 0, 100, 4).ticks()).contains(0, 1);
    }

    @Test
    void shouldKeepADipOfOneSampleWhenColumnsAreJoined() {
        double[] low = new double[10_000];
        double[] high = new double[10_000];
        java.util.Arrays.fill(low, 5);
        java.util.Arrays.fill(high, 6);
        low[7777] = 1;

        Columns columns = Columns.ofSlots(0.1, low, high, 640);

        assertThat(columns.x()).hasSizeLessThanOrEqualTo(640);
        assertThat(columns.low()).contains(1).contains(5);
        assertThat(columns.high()).containsOnly(6);
        int dip = 0;
        while (columns.low()[dip] != 1) {
            dip++;
        }
        assertThat(columns.x()[dip]).isBetween(777.7 - 1.6, 777.7 + 1.6);
    }

    @Test
    void shouldLeaveAGapWhereNothingWasMeasured() {
        Columns columns = Columns.ofSlots(1, new double[] {1, Double.NaN, 3}, new double[] {2, Double.NaN, 4}, 640);
        assertThat(columns.low()[1]).isNaN();
        Markup svg = new Markup().open("svg");
        Plot plot = new Plot(svg, 0, 3);
        plot.band(plot.panel(50, 0, 5, "bar"), columns, "pressure");
        String band = svg.close().toString().replaceAll("(?s).*class=\"band pressure\" d=\"([^\"]*)\".*", "$1");
        assertThat(band).doesNotContain("NaN");
        assertThat(band.chars().filter(c -> c == 'M').count()).isEqualTo(2);
    }

    @Test
    void shouldKeepTheDipOfATraceDrawnFromManySamples() {
        int n = 100_000;
        double[] timeS = new double[n];
        double[] value = new double[n];
        for (int i = 0; i < n; i++) {
            timeS[i] = i * 2.0 / n;
            value[i] = 8;
        }
        value[34_567] = 1;
        Markup svg = new Markup().open("svg");
        Plot plot = new Plot(svg, 0, 2);
        Axis axis = plot.panel(100, 0, 10, "bar");
        plot.trace(axis, timeS, value, "pressure");
        String path = svg.close().toString().replaceAll("(?s).*class=\"trace pressure\" d=\"([^\"]*)\".*", "$1");

        assertThat(path.length()).isLessThan(10_000);
        // Seven units down and up again, one pixel of the panel being a tenth of a unit of pressure or so.
        String fall = Numbers.place(Math.round((axis.px(1) - axis.px(8)) * 10) / 10.0);
        assertThat(path).containsPattern("[v ]" + fall.replace(".", "\\.")).contains("-" + fall);
    }

    @Test
    void shouldNotLetRoundingAddUpAlongAPath() {
        PathData path = new PathData().moveTo(0, 0);
        for (int i = 1; i <= 1000; i++) {
            path.lineTo(i * 0.34, 0);
        }
        double x = 0;
        java.util.regex.Matcher step =
                java.util.regex.Pattern.compile("h([-.0-9]+)").matcher(path.toString());
        while (step.find()) {
            x += Double.parseDouble(step.group(1));
        }
        assertThat(x).isBetween(339.9, 340.1);
    }

    @Test
    void shouldWriteNumbersShortAndPlain() {
        assertThat(Numbers.place(0.04)).isEqualTo("0");
        assertThat(Numbers.place(-0.5)).isEqualTo("-.5");
        assertThat(Numbers.place(12.34)).isEqualTo("12.3");
        assertThat(Numbers.fixed(-0.001, 2)).isEqualTo("0.00");
        assertThat(Numbers.fixed(2.675, 2)).isEqualTo("2.68");
        assertThat(Numbers.fixed(1e22, 0)).isEqualTo("1" + "0".repeat(22));
        assertThat(Numbers.fixed(Double.NaN, 2)).isEqualTo("–");
        assertThat(Numbers.fixed(Double.POSITIVE_INFINITY, 2)).isEqualTo("–");
    }

    @Test
    void shouldRefuseAnElementThatIsStillOpen() {
        Markup markup = new Markup().open("p").text("x");
        assertThatThrownBy(markup::toString).isInstanceOf(IllegalStateException.class);
        assertThat(markup.close().toString()).isEqualTo("<p>x</p>");
    }
}

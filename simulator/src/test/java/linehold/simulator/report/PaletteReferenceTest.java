package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Contrast of the page's colours against W3C Web Content Accessibility Guidelines 2.2, level AA: 4.5:1 for text
 * (criterion 1.4.3), 3:1 for what carries meaning in a drawing (criterion 1.4.11).
 */
class PaletteReferenceTest {
    private static final List<String> TEXT = List.of("ink", "quiet", "hold", "lost", "held");
    private static final List<String> SHAPES =
            List.of("rule", "pressure", "element", "hold", "speed", "seen", "pump", "engaged", "lost");

    @Test
    void shouldReproduceTheRatioOfBlackOnWhite() {
        // WCAG 2.2, note to "contrast ratio": the range is 1:1 to 21:1.
        assertThat(contrast("#000000", "#ffffff")).isEqualTo(21);
        assertThat(contrast("#777777", "#ffffff")).isBetween(4.47, 4.49);
    }

    @Test
    void shouldMeetContrastInLightDarkAndPrint() throws IOException {
        String css = css();
        int dark = css.indexOf("prefers-color-scheme: dark");
        int print = css.indexOf("@media print");
        assertThat(dark).isPositive();
        assertThat(print).isGreaterThan(dark);
        check(colours(css.substring(0, dark)));
        check(colours(css.substring(dark, print)));
        // Print starts from the light colours; a dark screen keeps its own to itself.
        assertThat(css).contains("@media screen and (prefers-color-scheme: dark)");
        check(colours(css.substring(0, dark) + css.substring(print)));
    }

    private static void check(Map<String, String> colours) {
        for (String background : List.of("paper", "sheet", "lostpaper")) {
            for (String text : TEXT) {
                assertThat(contrast(colours.get(text), colours.get(background)))
                        .as("%s on %s", text, background)
                        .isGreaterThanOrEqualTo(4.5);
            }
        }
        for (String shape : SHAPES) {
            assertThat(contrast(colours.get(shape), colours.get("paper")))
                    .as("%s on paper", shape)
                    .isGreaterThanOrEqualTo(3);
        }
    }

    private static Map<String, String> colours(String css) {
        Map<String, String> colours = new HashMap<>();
        Matcher matcher = Pattern.compile("--([a-z]+): (#[0-9a-f]{6});").matcher(css);
        while (matcher.find()) {
            colours.put(matcher.group(1), matcher.group(2));
        }
        return colours;
    }

    /** WCAG 2.2, "contrast ratio" and "relative luminance". */
    private static double contrast(String one, String other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(String colour) {
        double[] weight = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double c = Integer.parseInt(colour.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
            sum += weight[i] * (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
        }
        return sum;
    }

    private static String css() throws IOException {
        try (InputStream in = VerdictHtml.class.getResourceAsStream("report.css")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}

package linehold.rig.adapter.web;

import static linehold.rig.adapter.web.LivePage.await;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Pattern;
import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.WebElement;

/** The live view in a real page.browser. Without Debian's chromium and chromium-driver it is skipped. */
class PageBrowserTest {
    private static final double PA_PER_BAR = 1e5;
    private static final double RPM_PER_RAD_S = 30 / Math.PI;

    @TempDir
    private Path folder;

    private LivePage page;

    @BeforeEach
    void start() {
        Chromium.assumeInstalled();
        page = new LivePage(folder.resolve("profile"), 6);
    }

    @AfterEach
    void stop() throws InterruptedException {
        if (page != null) {
            page.close();
        }
    }

    private static double[] numbers(String text) {
        return Pattern.compile("-?\\d+(\\.\\d+)?")
                .matcher(text)
                .results()
                .mapToDouble(match -> Double.parseDouble(match.group()))
                .toArray();
    }

    /** Lowest and highest value of a field in every tick that was published. */
    private CompletableFuture<double[]> record(TickField field, long rows) {
        TickRing.Cursor cursor = page.rig.ring.follow();
        return CompletableFuture.supplyAsync(() -> {
            double[] row = new double[TickRow.LENGTH];
            double[] extremes = {Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
            long read = 0;
            while (read < rows) {
                if (!cursor.read(row)) {
                    LockSupport.parkNanos(1_000_000);
                } else {
                    read++;
                    double value = row[TickRow.indexOf(field)];
                    extremes[0] = Math.min(extremes[0], Double.isNaN(value) ? extremes[0] : value);
                    extremes[1] = Math.max(extremes[1], Double.isNaN(value) ? extremes[1] : value);
                }
            }
            return extremes;
        });
    }

    @Test
    void shouldDrawALiveHandOverWithTheExtremesOfTheRecordedRun() throws Exception {
        page.browser.get(page.address());
        await(
                "the view is there",
                () -> !page.browser.findElements(By.id("extremes")).isEmpty());
        CompletableFuture<double[]> pressure = record(TickField.LINE_PRESSURE_PA, 9000);
        CompletableFuture<double[]> speed = record(TickField.SHAFT_SPEED_RAD_S, 9000);
        page.rig.start();
        await("the internal pump carries", () -> page.textOf("figure-carries").equals("internal pump"));
        double[] pa = pressure.get();
        double[] radPerS = speed.get();
        double[] wanted = {
            pa[0] / PA_PER_BAR, pa[1] / PA_PER_BAR, radPerS[0] * RPM_PER_RAD_S, radPerS[1] * RPM_PER_RAD_S
        };
        // The screen rounds to 0.01 bar and 1 rpm.
        await("the extremes of 45 s: " + Arrays.toString(wanted), () -> {
            double[] drawn = numbers(page.textOf("extremes"));
            return drawn.length == 4
                    && Math.abs(drawn[0] - wanted[0]) < 0.0101
                    && Math.abs(drawn[1] - wanted[1]) < 0.0101
                    && Math.abs(drawn[2] - wanted[2]) < 1.01
                    && Math.abs(drawn[3] - wanted[3]) < 1.01;
        });
        assertThat(page.textOf("figure-pressure")).endsWith(" bar");

        WebElement units = page.browser.findElement(By.id("units"));
        units.click();
        await("US units", () -> page.textOf("figure-pressure").endsWith(" psi"));
        assertThat(units.getDomAttribute("aria-pressed")).isEqualTo("true");
    }

    @Test
    void shouldSayThatTheRigIsGoneAndRecoverWhenItIsBack() throws Exception {
        page.rig.start();
        page.browser.get(page.address());
        await("live", () -> page.textOf("figure-pressure").endsWith(" bar"));
        page.unplug();
        await("it says so", () -> page.textOf("connection").contains("does not answer"));
        page.plugIn(Map.of());
        await("it recovers", () -> page.textOf("connection").isEmpty());
        String before = page.textOf("extremes");
        await("it is live again", () -> !page.textOf("extremes").equals(before));
    }

    @ParameterizedTest
    @CsvSource({"1200,light", "360,light", "360,dark", "1200,dark"})
    void shouldHaveNoSeriousFlawOfAccessAndNoSidewaysScroll(int widthPx, String scheme) throws Exception {
        page.browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        page.browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", widthPx, "height", 800, "deviceScaleFactor", 1, "mobile", false));
        page.browser.manage().window().setSize(new Dimension(1200, 800));
        page.rig.start();
        page.browser.get(page.address());
        await("live", () -> page.textOf("figure-pressure").endsWith(" bar"));
        assertThat((long) page.browser.executeScript("return document.documentElement.scrollWidth"))
                .isLessThanOrEqualTo(widthPx);
        assertThat(Chromium.seriousFlaws(page.browser)).isEmpty();
    }
}

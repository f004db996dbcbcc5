package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import linehold.controller.calibration.Key;
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
import org.openqa.selenium.chrome.ChromeDriver;

/** The live view in a real browser. Without Debian's chromium and chromium-driver it is skipped. */
class PageBrowserTest {
    private static final double PA_PER_BAR = 1e5;
    private static final double RPM_PER_RAD_S = 30 / Math.PI;

    @TempDir
    private Path folder;

    private FastRig rig;
    private PageServer server;
    private ChromeDriver browser;

    @BeforeEach
    void start() {
        Chromium.assumeInstalled();
        rig = new FastRig("stop-and-go", 6);
        server = server(0);
        browser = Chromium.open(folder.resolve("profile"));
    }

    private PageServer server(int port) {
        var calibration = rig.build.calibration();
        Map<String, Object> facts = new HashMap<>(Map.of(
                "build", rig.build.name(),
                "rig", "simulated: stop-and-go",
                "units", "metric",
                "holdPa", calibration.get(Key.HOLD_PRESSURE),
                "switchOnRadPerS", calibration.get(Key.SWITCH_ON_SPEED),
                "switchOffRadPerS", calibration.get(Key.SWITCH_OFF_SPEED)));
        facts.put("normallyClosed", true);
        facts.put("standbyFitted", true);
        facts.put("contactClosedFraction", 0.6);
        facts.put("nominalBusV", 13);
        facts.put("states", List.of("off", "prime", "electric", "overlap", "internal", "help"));
        facts.put("carriers", List.of("nothing", "electric", "electric", "both", "internal pump", "both"));
        facts.put("reasons", List.of("", "", "", "", "", "", "", "", "", "", "", "", "", "", ""));
        facts.put("permissions", List.of("granted", "reduced", "withheld"));
        facts.put("codes", List.of(Map.of("bit", 0, "number", "P0000", "title", "test")));
        facts.put("rigFaults", List.of());
        PageServer one = new PageServer(PageSettings.loopback(port), facts, rig.ring, List.of());
        one.start();
        return one;
    }

    @AfterEach
    void stop() throws InterruptedException {
        if (browser != null) {
            browser.quit();
        }
        if (server != null) {
            server.close();
            rig.close();
        }
    }

    private static void await(String what, Supplier<Boolean> reached) throws InterruptedException {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!reached.get()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            Thread.sleep(50);
        }
    }

    private String textOf(String id) {
        return browser.findElements(By.id(id)).stream()
                .map(WebElement::getText)
                .findFirst()
                .orElse("");
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
        TickRing.Cursor cursor = rig.ring.follow();
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
        browser.get(server.address());
        await(
                "the view is there",
                () -> !browser.findElements(By.id("extremes")).isEmpty());
        CompletableFuture<double[]> pressure = record(TickField.LINE_PRESSURE_PA, 9000);
        CompletableFuture<double[]> speed = record(TickField.SHAFT_SPEED_RAD_S, 9000);
        rig.start();
        await("the internal pump carries", () -> textOf("figure-carries").equals("internal pump"));
        double[] pa = pressure.get();
        double[] radPerS = speed.get();
        double[] wanted = {
            pa[0] / PA_PER_BAR, pa[1] / PA_PER_BAR, radPerS[0] * RPM_PER_RAD_S, radPerS[1] * RPM_PER_RAD_S
        };
        // The screen rounds to 0.01 bar and 1 rpm.
        await("the extremes of 45 s: " + Arrays.toString(wanted), () -> {
            double[] drawn = numbers(textOf("extremes"));
            return drawn.length == 4
                    && Math.abs(drawn[0] - wanted[0]) < 0.0101
                    && Math.abs(drawn[1] - wanted[1]) < 0.0101
                    && Math.abs(drawn[2] - wanted[2]) < 1.01
                    && Math.abs(drawn[3] - wanted[3]) < 1.01;
        });
        assertThat(textOf("figure-pressure")).endsWith(" bar");

        WebElement units = browser.findElement(By.id("units"));
        units.click();
        await("US units", () -> textOf("figure-pressure").endsWith(" psi"));
        assertThat(units.getDomAttribute("aria-pressed")).isEqualTo("true");
    }

    @Test
    void shouldSayThatTheRigIsGoneAndRecoverWhenItIsBack() throws Exception {
        rig.start();
        browser.get(server.address());
        await("live", () -> textOf("figure-pressure").endsWith(" bar"));
        int port = server.port();
        server.close();
        await("it says so", () -> textOf("connection").contains("does not answer"));
        server = server(port);
        await("it recovers", () -> textOf("connection").isEmpty());
        String before = textOf("extremes");
        await("it is live again", () -> !textOf("extremes").equals(before));
    }

    @ParameterizedTest
    @CsvSource({"1200,light", "360,light", "360,dark", "1200,dark"})
    void shouldHaveNoSeriousFlawOfAccessAndNoSidewaysScroll(int widthPx, String scheme) throws Exception {
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", widthPx, "height", 800, "deviceScaleFactor", 1, "mobile", false));
        browser.manage().window().setSize(new Dimension(1200, 800));
        rig.start();
        browser.get(server.address());
        await("live", () -> textOf("figure-pressure").endsWith(" bar"));
        assertThat((long) browser.executeScript("return document.documentElement.scrollWidth"))
                .isLessThanOrEqualTo(widthPx);
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
    }
}

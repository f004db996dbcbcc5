package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebDriverException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import tools.jackson.databind.JsonNode;

/** The Bench view in a real browser. Without Debian's chromium and chromium-driver it is skipped. */
@Timeout(300)
class BenchBrowserTest {
    /** A browser on a busy machine may be silent for longer than a person's would: the key waits ten times as long. */
    private static final int PATIENCE = 10;

    private static final int LEAST_TARGET_PX = 44;

    @TempDir
    private Path folder;

    private PacedBench bench;
    private PageServer server;
    private ChromeDriver browser;
    private ChromeDriver second;

    @BeforeEach
    void start() {
        Chromium.assumeInstalled();
        bench = new PacedBench(4, () -> System.nanoTime() / PATIENCE, folder.resolve("records"));
        server = serve(0, new BenchRoutes(bench.desk, true, false));
        browser = Chromium.open(folder.resolve("profile"));
        browser.get(server.address() + "#/bench");
    }

    private static PageServer serve(int port, PageServer.Routes routes) {
        PageServer one = new PageServer(
                PageSettings.loopback(port),
                Map.of("build", "demonstration", "rig", "bench, simulated", "units", "metric"),
                null,
                List.of(routes));
        one.start();
        return one;
    }

    @AfterEach
    void stop() throws InterruptedException {
        for (ChromeDriver one : new ChromeDriver[] {browser, second}) {
            if (one != null) {
                one.quit();
            }
        }
        if (bench != null) {
            server.close();
            bench.close();
        }
    }

    private static void await(String what, BooleanSupplier reached) {
        long endNs = System.nanoTime() + Duration.ofSeconds(90).toNanos();
        while (!reached.getAsBoolean()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            try {
                Thread.sleep(50);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IllegalStateException(e);
            }
        }
    }

    /** The view builds its parts anew as things change, so what was found may be gone a moment later. */
    private static boolean seen(ChromeDriver in, String xpath) {
        try {
            return in.findElements(By.xpath(xpath)).stream().anyMatch(WebElement::isDisplayed);
        } catch (WebDriverException gone) {
            return false;
        }
    }

    private static void click(ChromeDriver in, String xpath) {
        await(xpath, () -> {
            try {
                WebElement button = in.findElements(By.xpath(xpath)).stream()
                        .filter(one -> one.isDisplayed() && one.isEnabled())
                        .findFirst()
                        .orElseThrow(() -> new WebDriverException("not there yet"));
                // A driver scrolls as little as it can, and that ends under the bar with Stop.
                in.executeScript("arguments[0].scrollIntoView({ block: 'center' })", button);
                button.click();
                return true;
            } catch (WebDriverException gone) {
                return false;
            }
        });
    }

    private void click(String xpath) {
        click(browser, xpath);
    }

    private void awaitSeen(String xpath) {
        await(xpath, () -> seen(browser, xpath));
    }

    private void start(String title) {
        click("//button[.='All of this is so: take the bench key']");
        click("//button[.='" + title + "']");
        click("//button[.='Start: " + title + "']");
        click("//button[.='It is so']");
    }

    private void awaitPumpOff() {
        await("pump off", () -> !bench.mainFeeds());
    }

    private void assertStoppedAndSafe(String sentence) {
        awaitSeen("//p[@id='bench-outcome' and contains(., '■ Stopped: " + sentence + "')]");
        assertThat(bench.safe()).isTrue();
        assertThat(bench.unsafeTicks()).isZero();
    }

    @Test
    void shouldRunAProcedureToItsEndAndNameItsRecord() throws IOException {
        awaitSeen("//li[starts-with(., 'Park brake on, wheels chocked')]");
        click("//button[.='Wiring check']");
        awaitSeen("//p[.='The bench key comes first; it is above.']");
        assertThat(browser.getCurrentUrl()).contains("procedure=wiring");
        click("//button[.='All of this is so: take the bench key']");
        click("//button[.='Start: Wiring check']");
        click("//button[.='It is so']");
        awaitSeen("//p[@id='bench-step' and starts-with(., 'Step 7 of 7: Lamp and buzzer')]");
        click("//button[.='Yes']");
        awaitSeen("//p[@id='bench-outcome' and starts-with(., '✓ Passed.')]");

        Path file = folder.resolve("records/20260102T030405Z-wiring.json");
        assertThat(browser.findElement(By.id("bench-outcome")).getText()).endsWith(file.toString());
        JsonNode record = PageServer.JSON.readTree(Files.readAllBytes(file));
        assertThat(browser.findElements(By.cssSelector(".found li"))).hasSameSizeAs(record.get("findings"));
        assertThat(browser.findElements(By.cssSelector(".written li"))).hasSize(1);
        assertThat(bench.safe()).isTrue();
    }

    @Test
    void shouldTakeANumberFromTheSimulatedGauge() {
        start("Sender check");
        for (String step : List.of("Without pressure", "Under the pump")) {
            awaitSeen("//p[@id='bench-step' and contains(., '" + step + "')]");
            click("//button[.='Read the simulated gauge']");
            await(
                    "a number",
                    () -> !browser.findElement(By.id("bench-number"))
                            .getDomProperty("value")
                            .isEmpty());
            browser.findElement(By.id("bench-number")).sendKeys(Keys.ENTER);
        }
        awaitSeen("//p[@id='bench-outcome' and starts-with(., '✓ Passed.')]");
    }

    @Test
    void shouldStopInTheMiddleByEscapeAndByTheButton() {
        start("Hold at stall pressure");
        awaitSeen("//p[@id='bench-step' and starts-with(., 'Step 3 of 3')]");
        browser.findElement(By.id("view")).sendKeys(Keys.ESCAPE);
        assertStoppedAndSafe("Stopped from the page.");

        click("//button[.='Wiring check']");
        click("//button[.='Start: Wiring check']");
        click("//button[.='It is so']");
        awaitPumpOff();
        click("//button[starts-with(., 'Stop')]");
        assertStoppedAndSafe("Stopped from the page.");
        assertThat(browser.findElements(By.cssSelector(".written li"))).hasSize(2);
    }

    @Test
    void shouldStopWhenTheViewIsLeftButNotWhenUnitsAreChanged() {
        start("Hold at stall pressure");
        awaitSeen("//p[@id='bench-step' and starts-with(., 'Step 3 of 3')]");
        click("//button[@id='units']");
        awaitSeen("//dd[@id='bench-line' and contains(., ' psi')]");
        awaitSeen("//button[starts-with(., 'Stop') and not(@disabled)]");
        click("//a[.='Faults']");
        await("stopped", () -> !bench.desk.kept().isEmpty());
        assertThat(bench.desk.kept().get(0).result().sentence()).isEqualTo("The bench key was given back.");
        assertThat(bench.safe()).isTrue();
    }

    @Test
    void shouldLetASecondBrowserWatchAndStopButNotHoldTheKey() {
        start("Hold at stall pressure");
        second = Chromium.open(folder.resolve("second"));
        second.get(server.address() + "#/bench");
        await("it watches", () -> seen(second, "//p[@id='bench-step' and starts-with(., 'Step ')]"));
        assertThat(seen(second, "//button[.='It is so']")).isFalse();
        click(second, "//button[starts-with(., 'Stop')]");
        assertStoppedAndSafe("Stopped from the page.");
        await(
                "it is refused",
                () -> seen(second, "//p[starts-with(., 'Another browser (at 127.0.0.1) holds the bench key.')]"));
        assertThat(seen(second, "//button[starts-with(., 'All of this is so')]"))
                .isFalse();
        click("//button[.='Give the key back']");
        click(second, "//button[.='All of this is so: take the bench key']");
        awaitSeen("//p[starts-with(., 'Another browser')]");
    }

    @Test
    void shouldSayThatTheBenchIsGoneAndRecoverWhenItIsBack() {
        awaitSeen("//dd[@id='bench-line' and contains(., ' bar')]");
        int port = server.port();
        server.close();
        awaitSeen("//p[@id='connection' and contains(., 'The bench does not answer.')]");
        server = serve(port, new BenchRoutes(bench.desk, true, false));
        await(
                "it recovers",
                () -> browser.findElement(By.id("connection")).getText().isEmpty());
        start("Wiring check");
        awaitPumpOff();
    }

    @Test
    void shouldFallSilentWhereItsStopDoesNotGetThrough() {
        start("Sender check");
        // A step that waits for a person: nothing else ends it meanwhile.
        awaitSeen("//input[@id='bench-number']");
        browser.executeScript("const real = window.fetch; window.fetch = (path, options) =>"
                + " path === '/api/bench/stop' ? Promise.reject(new Error('lost')) : real(path, options)");
        click("//button[starts-with(., 'Stop')]");
        awaitSeen("//p[contains(., 'Stop did not get through') and contains(., 'falls silent')]");
        await("stopped by silence", () -> !bench.desk.kept().isEmpty());
        assertThat(bench.desk.kept().get(0).result().sentence()).contains("was not heard for 3 s");
        assertThat(bench.safe()).isTrue();
    }

    @Test
    void shouldBeReadingMatterInVehicleMode() throws IOException {
        int port = server.port();
        server.close();
        server = serve(port, new NoBenchRoutes(bench.build, true));
        browser.navigate().refresh();
        awaitSeen(
                "//p[contains(., 'procedures are refused in vehicle mode') and contains(., 'linehold bench --page')]");
        awaitSeen("//h3[.='Panic stop']");
        assertThat(seen(browser, "//div[@class='bench']//button")).isFalse();
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"1100,light", "360,light", "360,dark"})
    void shouldHaveNoSeriousFlawOfAccessNoSidewaysScrollAndLargeTargets(int widthPx, String scheme) throws IOException {
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", widthPx, "height", 760, "deviceScaleFactor", 1, "mobile", false));
        awaitSeen("//button[.='All of this is so: take the bench key']");
        assertFitsHands(widthPx);
        start("Sender check");
        awaitSeen("//input[@id='bench-number']");
        assertFitsHands(widthPx);
        WebElement stop = browser.findElement(By.cssSelector("button.stop"));
        assertThat(stop.getRect().getY()
                        + stop.getRect().getHeight()
                        - ((Number) browser.executeScript("return scrollY")).intValue())
                .as("Stop is in the picture")
                .isBetween(LEAST_TARGET_PX, 760);
        stop.click();
        awaitSeen("//p[@id='bench-outcome' and starts-with(., '■ Stopped')]");
        assertFitsHands(widthPx);
    }

    private void assertFitsHands(int widthPx) throws IOException {
        assertThat((long) browser.executeScript("return document.documentElement.scrollWidth"))
                .isLessThanOrEqualTo(widthPx);
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
        assertThat((List<?>) browser.executeScript(
                        "return [...document.querySelectorAll('.bench button, .bench input, .bench summary')]"
                                + ".filter(one => one.checkVisibility())"
                                + ".map(one => [one.textContent, one.getBoundingClientRect()])"
                                + ".filter(([, box]) => Math.min(box.width, box.height) < arguments[0])"
                                + ".map(([text]) => text)",
                        LEAST_TARGET_PX))
                .as("too small for oily hands")
                .isEmpty();
    }
}

package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import linehold.controller.calibration.Key;
import linehold.rig.paper.WindowDesk;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.cli.ProveCommand;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.interactions.Actions;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;

/**
 * The window view in a real browser, beside what the command says. Two oil temperatures, so that the map is there soon.
 * Without Debian's chromium and chromium-driver it is skipped.
 */
class WindowBrowserTest {
    private static final String LOSING = "?on=300+rpm&off=400+rpm&alone=yes";

    @TempDir
    private static Path folder;

    private static Path buildFile;
    private static Build build;
    private static PageServer server;
    private static ChromeDriver browser;

    @BeforeAll
    static void start() throws IOException {
        Chromium.assumeInstalled();
        String source = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8)
                .replaceFirst("oil-temperatures: \\[.*]", "oil-temperatures: [20 °C, 120 °C]")
                .replaceFirst("(?m)^name: .*", "name: proven");
        buildFile = Files.writeString(folder.resolve("proven.yaml"), source);
        build = BuildFile.load(buildFile);
        WindowDesk desk = new WindowDesk(build, new Worker("window"), new Worker("window-verdict"));
        Map<String, Object> facts = new HashMap<>();
        facts.put("build", build.name());
        facts.put("units", "metric");
        facts.put("holdPa", build.calibration().get(Key.HOLD_PRESSURE));
        server = new PageServer(
                PageSettings.loopback(0), facts, null, List.of(new WindowRoutes(desk, source, folder.resolve("out"))));
        server.start();
        browser = Chromium.open(folder.resolve("profile"));
    }

    @AfterAll
    static void stop() {
        if (browser != null) {
            browser.quit();
        }
        if (server != null) {
            server.close();
        }
    }

    @BeforeEach
    void clear() {
        Chromium.screen(browser, 1400, "light");
        browser.get(server.address());
        browser.executeScript("localStorage.clear()");
    }

    /** @param state of the address, with its question mark */
    private static void open(String state) {
        browser.get("about:blank");
        browser.get(server.address() + "#/window" + state);
        waitForVerdict();
    }

    private static <T> T until(String what, Supplier<T> found) {
        long endNs = System.nanoTime() + Duration.ofSeconds(180).toNanos();
        while (true) {
            try {
                T value = found.get();
                if (value != null && value != Boolean.FALSE) {
                    return value;
                }
            } catch (NoSuchElementException | StaleElementReferenceException e) {
                // It is drawn anew.
            }
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    private static WebElement find(String css) {
        return browser.findElement(By.cssSelector(css));
    }

    private static void waitForVerdict() {
        until("a verdict", () -> "false".equals(find("#verdicts").getDomAttribute("aria-busy")));
    }

    private static void waitForMap() {
        until("the map", () -> find(".window-map").isDisplayed());
        until(
                "the words",
                () -> !browser.findElements(By.cssSelector(".marked")).isEmpty());
    }

    private static String shown(String handle) {
        return find("output[for='handle-" + handle + "']").getText();
    }

    /** Each drive's verdict, lowest pressure, oil temperature and moment. */
    private static Map<String, List<String>> table() {
        Map<String, List<String>> table = new LinkedHashMap<>();
        for (WebElement row : browser.findElements(By.xpath("//section[@id='verdicts']//tbody/tr[th]"))) {
            List<String> cells = new ArrayList<>();
            row.findElements(By.tagName("td")).forEach(cell -> cells.add(cell.getText()));
            table.put(row.findElement(By.tagName("th")).getText(), cells);
        }
        return table;
    }

    /** What {@code prove} writes for that window. */
    private static JsonNode proved(Path file, String... options) throws IOException {
        Path out = Files.createTempDirectory(folder, "prove");
        List<String> all =
                new ArrayList<>(List.of("--build", file.toString(), "--out", out.toString(), "--units", "metric"));
        all.addAll(List.of(options));
        new CommandLine(new ProveCommand()).execute(all.toArray(String[]::new));
        return PageServer.JSON.readTree(Files.readString(out.resolve("verdict.json")));
    }

    private static void assertTableIs(JsonNode verdict) {
        Map<String, List<String>> expected = new LinkedHashMap<>();
        Map<String, Integer> lost = new LinkedHashMap<>();
        for (JsonNode run : verdict.get("runs")) {
            boolean held = run.get("verdict").stringValue().equals("held");
            lost.merge(run.get("drive").stringValue(), held ? 0 : 1, Integer::sum);
        }
        Map<String, Double> lowest = new HashMap<>();
        for (JsonNode run : verdict.get("runs")) {
            String drive = run.get("drive").stringValue();
            boolean held = run.get("verdict").stringValue().equals("held");
            double pa = run.get(held ? "settled_pressure_min_pa" : "engaged_pressure_min_pa")
                    .doubleValue();
            if (held != (lost.get(drive) == 0) || pa >= lowest.getOrDefault(drive, Double.POSITIVE_INFINITY)) {
                continue;
            }
            lowest.put(drive, pa);
            expected.put(
                    drive,
                    List.of(
                            held ? "✓ held" : "✕ lost " + lost.get(drive) + " of 2",
                            String.format(Locale.ROOT, "%.2f", pa / 1e5),
                            String.format(Locale.ROOT, "%.0f", run.get("oil_c").doubleValue())));
        }
        Map<String, List<String>> seen = new LinkedHashMap<>();
        table().forEach((drive, cells) -> seen.put(drive, cells.subList(0, 3)));
        assertThat(seen).hasSize(10).isEqualTo(expected);
    }

    @Test
    void shouldGiveTheVerdictOfTheCommandWhenAHandleIsDraggedOverTheMap() throws IOException {
        open("");
        waitForMap();
        assertThat(shown("on")).isEqualTo("700 rpm");
        browser.executeScript("arguments[0].scrollIntoView({block: 'center'})", find(".window-map"));
        new Actions(browser)
                .moveToElement(find(".grip.on rect"))
                .clickAndHold()
                .moveByOffset(0, 40)
                .moveByOffset(0, 60)
                .release()
                .perform();
        waitForVerdict();
        String on = shown("on");
        assertThat(Double.parseDouble(on.split(" ")[0])).isBetween(150.0, 600.0);
        assertThat(browser.getCurrentUrl()).contains("on=" + on.replace(' ', '+'));
        find("#alone").click();
        waitForVerdict();
        JsonNode verdict = proved(buildFile, "--switch-on", on, "--switch-off", "900 rpm", "--speed-alone");
        assertTableIs(verdict);
        assertThat(find("#verdict").getDomAttribute("data-verdict"))
                .isEqualTo(verdict.get("verdict").stringValue());
    }

    @Test
    void shouldShowWhichDriveALosingWindowLosesAndWhy() throws IOException {
        open(LOSING);
        JsonNode verdict = proved(buildFile, "--switch-on", "300 rpm", "--switch-off", "400 rpm", "--speed-alone");
        assertTableIs(verdict);
        assertThat(find("#verdict").getText()).startsWith("✕ Lost: ");
        for (JsonNode run : verdict.get("runs")) {
            if (run.get("verdict").stringValue().equals("lost")) {
                assertThat(find("#verdicts table").getText())
                        .contains(run.get("drive").stringValue())
                        .contains(run.get("weakest").stringValue());
            }
        }
        waitForMap();
        assertThat(find(".marked").getText())
                .contains("✕ not kept", "hardest stop", "✓ kept")
                .contains("bar");
    }

    @Test
    void shouldBeWorkedAndSavedByKeyboardAlone() throws IOException {
        open("");
        find("#handle-on").sendKeys(Keys.ARROW_RIGHT, Keys.ARROW_RIGHT);
        waitForVerdict();
        assertThat(shown("on")).isEqualTo("710 rpm");
        find("#handle-run").sendKeys(Keys.ARROW_RIGHT);
        find("#handle-help").sendKeys(Keys.ARROW_LEFT);
        waitForVerdict();
        assertThat(browser.getCurrentUrl()).contains("on=710+rpm", "run=2.1+s", "help=4.15+bar");
        assertTableIs(proved(saveAndCheck()));
    }

    /** Types a name, as far as the keyboard goes from the last handle, and looks at what is on the disk then. */
    private static Path saveAndCheck() throws IOException {
        find("#handle-help").sendKeys(Keys.TAB);
        browser.switchTo().activeElement().sendKeys(Keys.TAB);
        browser.switchTo().activeElement().sendKeys(Keys.TAB);
        // Only when the map is there can the button before it be reached.
        if (!browser.switchTo().activeElement().getTagName().equals("input")) {
            browser.switchTo().activeElement().sendKeys(Keys.TAB);
        }
        browser.switchTo().activeElement().sendKeys("wider", Keys.ENTER);
        String said = until("what was saved", () -> find("#saved .sums").getText());
        Path file = folder.resolve("out").resolve("wider.yaml");
        Build saved = BuildFile.load(file);
        assertThat(saved.calibration().get(Key.SWITCH_ON_SPEED)).isCloseTo(710 * Math.PI / 30, within(1e-9));
        assertThat(saved.calibration().get(Key.MINIMUM_RUN_TIME)).isEqualTo(2.1);
        assertThat(saved.calibration().get(Key.HELP_PRESSURE)).isCloseTo(4.15e5, within(1e-6));
        assertThat(said)
                .contains(file.toString(), saved.sha256())
                .contains(String.format(Locale.ROOT, "%08x", saved.calibration().checksum()));
        JsonNode proof = PageServer.JSON.readTree(Files.readString(file.resolveSibling("wider.verdict.json")));
        assertThat(proof.get("verdict").stringValue()).isEqualTo("held");
        assertThat(proof.get("build").get("sha256").stringValue()).isEqualTo(saved.sha256());
        return file;
    }

    @Test
    void shouldNeverSaveOverTheProvenBuild() throws IOException {
        open("?on=730+rpm");
        byte[] before = Files.readAllBytes(buildFile);
        for (String name : List.of("proven", "demonstration")) {
            find("#save-name").clear();
            find("#save-name").sendKeys(name, Keys.ENTER);
            String said = until("a refusal", () -> find("#saved .bad").getText());
            assertThat(said).contains("found '" + name + "'", "stays as it was proved");
        }
        assertThat(Files.readAllBytes(buildFile)).isEqualTo(before);
        assertThat(folder.resolve("out").resolve("proven.yaml")).doesNotExist();
    }

    @Test
    void shouldSpeakUsUnitsThroughout() {
        open(LOSING + "&oil=120");
        waitForMap();
        find("#units").click();
        waitForVerdict();
        waitForMap();
        assertThat(shown("help")).isEqualTo("60.9 psi");
        String all = find("main").getText();
        assertThat(all).contains("Lowest, psi", "248 °F").doesNotContain(" bar", "°C");
        assertThat(find(".window-map").getDomAttribute("aria-label")).contains("psi", "248 °F");
    }

    /** An address that is sent on shows a colleague the same. */
    @Test
    void shouldOpenWhatTheAddressHolds() {
        open("?on=640+rpm&off=1000+rpm&run=3.5+s&help=60.0+psi&alone=yes&oil=20");
        assertThat(List.of(shown("on"), shown("off"), shown("run"), shown("help")))
                .containsExactly("640 rpm", "1000 rpm", "3.5 s", "4.14 bar");
        assertThat(find("#alone").isSelected()).isTrue();
        waitForMap();
        assertThat(find("#map-oil").getDomProperty("value")).isEqualTo("20");
        assertThat(find(".window-map").getText()).contains("▼ on below 640", "▲ off above 1000", "Oil at 20 °C");
    }

    @Test
    void shouldTellARefusedWindowInWords() {
        open("?on=900+rpm&off=900+rpm");
        assertThat(find("#verdict").getText()).startsWith("No verdict: ").contains("must exceed by at least");
    }

    @ParameterizedTest
    @CsvSource({"1400, light", "1400, dark", "360, light", "360, dark"})
    void shouldHaveNoSeriousFlawOfAccess(int width, String colours) throws IOException {
        Chromium.screen(browser, width, colours);
        open(LOSING);
        waitForMap();
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
        assertThat((Boolean) browser.executeScript(
                        "return document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                .as("nothing but tables and the map goes beyond the screen")
                .isTrue();
    }
}

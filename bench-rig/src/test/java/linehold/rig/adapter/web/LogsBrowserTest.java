package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.OwnLogs;
import linehold.rig.paper.RecordingShelf;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.LogDrive;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.report.Words;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;

/** Own logs in a real browser. Without Debian's chromium and chromium-driver it is skipped. */
class LogsBrowserTest {
    private static final String DROP = "const data = new DataTransfer();"
            + "data.items.add(new File([arguments[1]], arguments[0], {type: 'text/csv'}));"
            + "for (const kind of ['dragover', 'drop']) document.querySelector('h1').dispatchEvent("
            + "new DragEvent(kind, {dataTransfer: data, bubbles: true, cancelable: true}));";

    @TempDir
    private Path folder;

    private final Build build = BuildFile.loadNamed("demonstration");
    private PageServer server;
    private ChromeDriver browser;

    private final RecordingShelf shelf = LogTexts.shelf(
            new RecordingShelf.Line(7, "2026-01-02 03:04:05", 30.0, 6000L, "simulated", "in order", null));

    private Path logs() {
        return folder.resolve("logs");
    }

    @BeforeEach
    void start() {
        Chromium.assumeInstalled();
        DriveBook book = new DriveBook(
                build, BuiltInDrives.all(build).subList(6, 7), new Worker("verdicts"), new Worker("drive-reading"));
        server = new PageServer(
                PageSettings.loopback(0),
                facts(),
                null,
                List.of(new DriveRoutes(book), new LogRoutes(new OwnLogs(book, logs(), shelf))));
        server.start();
        browser = Chromium.open(folder.resolve("profile"));
        browser.get(server.address() + "#/drives");
    }

    private Map<String, Object> facts() {
        Map<String, Object> facts = new HashMap<>();
        facts.put("build", build.name());
        facts.put("rig", null);
        facts.put("units", "metric");
        facts.put("holdPa", build.calibration().get(Key.HOLD_PRESSURE));
        facts.put("switchOnRadPerS", build.calibration().get(Key.SWITCH_ON_SPEED));
        facts.put("switchOffRadPerS", build.calibration().get(Key.SWITCH_OFF_SPEED));
        facts.put("states", Arrays.stream(PumpState.values()).map(Words::of).toList());
        return facts;
    }

    @AfterEach
    void stop() {
        if (browser != null) {
            browser.quit();
        }
        if (server != null) {
            server.close();
        }
    }

    private WebElement find(String xpath) {
        long endNs = System.nanoTime() + Duration.ofSeconds(120).toNanos();
        while (true) {
            Optional<WebElement> found = browser.findElements(By.xpath(xpath)).stream()
                    .filter(WebElement::isDisplayed)
                    .findFirst();
            if (found.isPresent()) {
                return found.get();
            }
            assertThat(System.nanoTime())
                    .as(
                            "%s in %s",
                            xpath, browser.findElement(By.tagName("main")).getText())
                    .isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    private void awaitGone(String xpath) {
        long endNs = System.nanoTime() + Duration.ofSeconds(30).toNanos();
        while (!browser.findElements(By.xpath(xpath)).isEmpty()) {
            assertThat(System.nanoTime()).as(xpath).isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    private void drop(String name, String log) {
        find("//th[.='Drive']");
        browser.executeScript(DROP, name, log);
    }

    private static void pick(WebElement list, String text) {
        list.findElements(By.tagName("option")).stream()
                .filter(option -> option.getText().startsWith(text))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + text))
                .click();
    }

    /** The verdict of each cell in a log's row, such as {@code held 4.12 bar}. */
    private List<String> verdicts(String file) {
        find("//tr[th[starts-with(., '" + file + "')]]//button[starts-with(., 'held') or starts-with(., 'LOST')]");
        return browser.findElements(By.xpath("//tr[th[starts-with(., '" + file + "')]]/td/button")).stream()
                .map(WebElement::getText)
                .toList();
    }

    /** The same by the prover that the command uses, from the file with what lies beside it. */
    private List<String> proved(String file) {
        OilIgnored drive = new OilIgnored(LogDrive.of(logs().resolve(file), build));
        return new Prover(build, 1)
                .proveWithoutCloseUps(Prover.grid(List.of(drive), build.limits().oilTemperaturesC())).runs().stream()
                        .map(LogsBrowserTest::words)
                        .toList();
    }

    private static String words(RunVerdict run) {
        return String.format(
                Locale.ROOT,
                "%s %.2f bar",
                run.held() ? "held" : "LOST",
                run.lowPoint().pressurePa() / 1e5);
    }

    @Test
    void shouldTellRowAndColumnOfABadLogThatIsDroppedAndRemoveIt() {
        drop("Bad run.csv", LogTexts.bad());
        WebElement told = find("//div[@role='alert']/p");
        assertThat(told.getText())
                .isEqualTo("bad-run.csv, line 202, column \"motor_speed_rpm\": found \"fast\","
                        + " expected a number in rpm between -30000 and 30000");
        find("//td[.='✗ cannot be proved']");
        find("//button[@aria-label='Remove bad-run.csv']").click();
        assertThat(browser.switchTo().alert().getText()).startsWith("Remove bad-run.csv?");
        browser.switchTo().alert().dismiss();
        assertThat(logs().resolve("bad-run.csv")).exists();
        find("//button[@aria-label='Remove bad-run.csv']").click();
        browser.switchTo().alert().accept();
        awaitGone("//th[starts-with(., 'bad-run.csv')]");
        awaitGone("//div[@role='alert']/p");
        assertThat(logs()).isEmptyDirectory();
    }

    @Test
    void shouldMapAForeignLogByPickingAndShowTheVerdictOfTheCommand() {
        drop("foreign.txt", LogTexts.foreign());
        find("//h2[.='Columns of foreign.csv']");
        // The obvious ones are picked already; the rest is picked here.
        assertThat(find("//select[@aria-label='Column of time']").getDomProperty("value"))
                .isEqualTo("Uhr [ms]");
        pick(find("//select[@aria-label='Column of brake']"), "Pedal");
        find("//section[@aria-label='Columns of a log']//th[.='brake']/ancestor::table//td[.='on']");
        pick(find("//select[@aria-label='Column of oil temperature']"), "T1");
        // 140 °F as the column's name says, in the units of the page.
        find("//div[@aria-label='The first rows as they are read']//td[.='60.0']");
        browser.findElement(By.id("units")).click();
        find("//h2[.='Columns of foreign.csv']");
        find("//div[@aria-label='The first rows as they are read']//th[.='road speed, mph']");
        browser.findElement(By.id("units")).click();

        find("//div[@aria-label='The first rows as they are read']//th[.='road speed, km/h']");
        pick(find("//select[@aria-label='Column of road speed']"), "not logged");
        find("//p[.='Still to be picked: the motor speed or the road speed.']");
        assertThat(browser.findElement(By.id("keep-columns")).isEnabled()).isFalse();
        pick(find("//select[@aria-label='Column of road speed']"), "v Rad");
        pick(find("//select[@aria-label='Column of brake']"), "Pedal");
        find("//div[@aria-label='The first rows as they are read'][.//th[.='road speed, km/h']]//th[.='brake']");
        find("//button[.='Prove with these columns']").click();
        assertThat(verdicts("foreign.csv")).isEqualTo(proved("foreign.csv"));
        assertThat(logs().resolve("foreign.map.yaml")).content().contains("column: Pedal", "separator: ;");

        find("//button[@id='run-foreign.csv-0']").click();
        find("//h2[starts-with(., 'foreign.csv, oil at')]");
        browser.navigate().refresh();
        assertThat(verdicts("foreign.csv")).isEqualTo(proved("foreign.csv"));
    }

    @Test
    void shouldDoWithoutAPointer() throws IOException {
        Path file = Files.writeString(folder.resolve("keys.csv"), LogTexts.foreign());
        find("//th[.='Drive']");
        WebElement chooser = browser.findElement(By.id("log-file"));
        browser.executeScript("arguments[0].focus()", chooser);
        assertThat(browser.switchTo().activeElement()).isEqualTo(chooser);
        chooser.sendKeys(file.toString());
        find("//h2[.='Columns of keys.csv']");
        // The form takes the focus: what is to be picked is the next thing that Tab reaches.
        assertThat(browser.switchTo().activeElement().getText()).isEqualTo("Columns of keys.csv");
        find("//select[@aria-label='Column of brake']");
        int tabs = 0;
        while (!"column-brake".equals(browser.switchTo().activeElement().getDomAttribute("id"))) {
            browser.switchTo().activeElement().sendKeys(Keys.TAB);
            assertThat(++tabs).isLessThan(40);
        }
        browser.switchTo().activeElement().sendKeys("Ped");
        find("//div[@aria-label='The first rows as they are read']//th[.='brake']");
        assertThat(browser.switchTo().activeElement().getDomAttribute("id")).isEqualTo("column-brake");
        while (!"keep-columns".equals(browser.switchTo().activeElement().getDomAttribute("id"))) {
            browser.switchTo().activeElement().sendKeys(Keys.TAB);
            assertThat(++tabs).isLessThan(60);
        }
        browser.switchTo().activeElement().sendKeys(Keys.ENTER);
        assertThat(verdicts("keys.csv")).isEqualTo(proved("keys.csv"));
        assertThat(browser.switchTo().activeElement().getDomAttribute("aria-label"))
                .isEqualTo("Columns of keys.csv");
    }

    @Test
    void shouldTakeARecordingAsADrive() {
        find("//button[.='Recordings of the rig']").click();
        find("//td[.='2026-01-02 03:04:05']");
        find("//td[.='0:00:30']");
        find("//button[@aria-label='Take recording 7 as a drive']").click();
        assertThat(verdicts("recording-7.csv")).isEqualTo(proved("recording-7.csv"));
    }

    @ParameterizedTest
    @CsvSource({"1200,light", "1200,dark", "360,light", "360,dark"})
    void shouldHaveNoSeriousFlawOfAccessAndNoSidewaysScroll(int widthPx, String scheme) throws IOException {
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", widthPx, "height", 800, "deviceScaleFactor", 1, "mobile", false));
        drop("bad.csv", LogTexts.bad());
        find("//div[@role='alert']/p");
        drop("foreign.csv", LogTexts.foreign().replace("on", "4").replace("off", "1"));
        find("//h2[.='Columns of foreign.csv']");
        pick(find("//select[@aria-label='Column of range']"), "Pedal");
        find("//select[@aria-label='Range 4']");
        find("//button[.='Recordings of the rig']").click();
        find("//td[.='2026-01-02 03:04:05']");
        assertThat((long) browser.executeScript("return document.documentElement.scrollWidth"))
                .isLessThanOrEqualTo(widthPx);
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
    }
}

package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.rig.paper.BuildShelf;
import linehold.rig.paper.DriveBook;
import linehold.rig.paper.OwnLogs;
import linehold.rig.paper.TraceBook;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.build.Display;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.BuiltInDrives;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.report.Words;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.interactions.WheelInput;

/**
 * A drive's run in a real browser, beside what the command says of it. Without Debian's chromium and chromium-driver it is
 * skipped.
 */
class DrivesBrowserTest {
    private static final Build BUILD = BuildFile.loadNamed("demonstration");
    private static final String DRIVE = "panic-stop-dry-slow";
    private static final double OIL_C = 120;

    @TempDir
    private static Path folder;

    private static DriveBook drives;
    private static PageServer server;
    private static ChromeDriver browser;

    @BeforeAll
    static void start() throws IOException {
        Chromium.assumeInstalled();
        String text = new String(BuildFile.bytesNamed("demonstration"), StandardCharsets.UTF_8);
        Files.writeString(
                folder.resolve("later.yaml"),
                text.replaceFirst("switch-on-speed: 700 rpm", "switch-on-speed: 500 rpm")
                        .replaceFirst("(?m)^name: .*", "name: later"));
        drives = new DriveBook(BUILD);
        BuildShelf builds = new BuildShelf(BUILD, folder);
        TraceBook traces =
                new TraceBook(drives, builds, List.of(new Worker("run-1"), new Worker("run-2")), System::nanoTime);
        server = new PageServer(
                PageSettings.loopback(0),
                facts(),
                null,
                List.of(
                        new DriveRoutes(drives),
                        new LogRoutes(new OwnLogs(drives, folder.resolve("logs"), null)),
                        new TraceRoutes(builds, traces)));
        server.start();
        browser = Chromium.open(folder.resolve("profile"));
    }

    private static Map<String, Object> facts() {
        Map<String, Object> facts = new HashMap<>();
        facts.put("build", BUILD.name());
        facts.put("units", "metric");
        facts.put("standbyFitted", true);
        facts.put("states", Arrays.stream(PumpState.values()).map(Words::of).toList());
        facts.put(
                "reasons",
                Arrays.stream(SwitchReason.values())
                        .map(one -> one.name().toLowerCase(Locale.ROOT))
                        .toList());
        facts.put(
                "permissions",
                Arrays.stream(DrivePermission.values()).map(Words::of).toList());
        facts.put("codes", List.of());
        return facts;
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

    private static void open(String more) {
        browser.get("about:blank");
        browser.get(server.address() + "#/drives?drive=" + DRIVE + "&oil=" + OIL_C + more);
    }

    private static WebElement find(String xpath) {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (true) {
            List<WebElement> found = browser.findElements(By.xpath(xpath));
            try {
                if (!found.isEmpty() && found.get(0).isDisplayed()) {
                    return found.get(0);
                }
            } catch (StaleElementReferenceException e) {
                // It has just been drawn anew.
            }
            assertThat(System.nanoTime()).as("looked for " + xpath).isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    private static String text(String xpath) {
        return find(xpath).getText();
    }

    /** A button that is in sight of the pointer. */
    private static void press(String name) {
        WebElement button = find("//button[.='" + name + "']");
        ((JavascriptExecutor) browser).executeScript("arguments[0].scrollIntoView({block: 'center'})", button);
        button.click();
    }

    private static String reading(String name) {
        return text("//dl[@class='reading']/div[dt='" + name + "']/dd");
    }

    private static double[] range() {
        long endNs = System.nanoTime() + Duration.ofSeconds(20).toNanos();
        while (true) {
            String address = browser.getCurrentUrl();
            if (address.contains("&from=") && address.contains("&to=")) {
                return new double[] {
                    Double.parseDouble(address.replaceFirst(".*&from=([-0-9.]+).*", "$1")),
                    Double.parseDouble(address.replaceFirst(".*&to=([-0-9.]+).*", "$1"))
                };
            }
            assertThat(System.nanoTime()).as(address).isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    private static Drive drive() {
        return new OilIgnored(BuiltInDrives.all(BUILD).stream()
                .filter(one -> one.name().equals(DRIVE))
                .findFirst()
                .orElseThrow());
    }

    private static RunVerdict proved(Build build) {
        return new Prover(build, 1)
                .proveWithoutCloseUps(Prover.grid(List.of(drive()), List.of(OIL_C)))
                .runs()
                .get(0);
    }

    @Test
    void shouldDrawTheExtremesOfTheRunAndTellTheVerdictOfTheCommand() {
        double[] extremes = {Double.MAX_VALUE, 0, Double.MAX_VALUE, 0};
        new Prover(BUILD, 1).run(drive(), OIL_C, moment -> {
            extremes[0] = Math.min(extremes[0], moment.lowestPressurePa);
            extremes[1] = Math.max(extremes[1], moment.lowestPressurePa);
            extremes[2] = Math.min(extremes[2], moment.shaftRadPerS);
            extremes[3] = Math.max(extremes[3], moment.shaftRadPerS);
            return true;
        });
        Display shown = new Display(UnitSystem.METRIC);
        open("");
        assertThat(text("//ul[@class='legend']/li"))
                .contains("build demonstration, window 700 to 900 rpm. Held. Weakest moment: "
                        + proved(BUILD.withUnits(UnitSystem.METRIC)).weakest());
        assertThat(text("//p[@id='extremes']"))
                .isEqualTo("In sight of the solid run: line pressure "
                        + shown.pressureScale().number(extremes[0]) + " to " + shown.pressure(extremes[1])
                        + ", shaft speed " + shown.speedScale().number(extremes[2]) + " to "
                        + shown.speed(extremes[3]) + ".");

        find("//button[@id='units']").click();
        assertThat(text("//ul[@class='legend']/li[contains(., ' psi ')]"))
                .contains(proved(BUILD.withUnits(UnitSystem.US)).weakest());
        find("//button[@id='units']").click();
        find("//ul[@class='legend']/li[contains(., ' bar ')]");
    }

    @Test
    void shouldGoToTheWorstMomentOfEitherRunDownToSingleTicks() {
        Build later = BuildFile.load(folder.resolve("later.yaml"));
        RunVerdict before = proved(BUILD);
        RunVerdict after = proved(later);
        open("");
        find("//ul[@class='legend']/li");
        find("//select/optgroup[@label='Another build or calibration']/option[contains(., 'later.yaml')]")
                .click();
        assertThat(text("//ul[@class='legend']/li[2]"))
                .startsWith("Dashed line, the run over it: oil at 120 °C, build later, window 500 to 900 rpm. "
                        + (after.held() ? "Held" : "LOST"));
        Display shown = new Display(UnitSystem.METRIC);
        assertThat(text("//p[starts-with(., 'Lowest line pressure with')]"))
                .contains(shown.pressure(before.lowPoint().pressurePa()) + " in the solid run, "
                        + shown.pressure(after.lowPoint().pressurePa()) + " in the dashed one");

        press("Worst moment");
        find("//p[contains(., '; every tick.')]");
        assertThat((range()[0] + range()[1]) / 2).isCloseTo(before.lowPoint().atS(), within(0.002));
        assertThat(reading("Line pressure"))
                .isEqualTo(shown.pressure(before.lowPoint().pressurePa()));

        press("Worst moment, dashed");
        find("//dl[@class='reading']/div[dt='Time']/dd[.='"
                + String.format(Locale.ROOT, "%.3f s", after.lowPoint().atS()) + "']");
        assertThat(reading("Dashed: line pressure"))
                .isEqualTo(shown.pressure(after.lowPoint().pressurePa()));

        // The same address shows a colleague the same picture.
        LockSupport.parkNanos(500_000_000);
        String address = browser.getCurrentUrl();
        assertThat(address).contains("overBuild=later.yaml");
        browser.get("about:blank");
        browser.get(address);
        assertThat(reading("Dashed: line pressure"))
                .isEqualTo(shown.pressure(after.lowPoint().pressurePa()));
    }

    @Test
    void shouldMoveAndZoomByWheelDragAndButtons() {
        open("&from=20&to=24");
        find("//ul[@class='legend']/li");
        WebElement chart = find("(//div[@class='u-over'])[1]");
        ((JavascriptExecutor) browser).executeScript("arguments[0].scrollIntoView({block: 'center'})", chart);
        int width = chart.getSize().getWidth();

        new Actions(browser)
                .clickAndHold(chart)
                .moveByOffset(-width / 4, 0)
                .release()
                .perform();
        find("//p[starts-with(., '21.00 s to 25.00 s')]");
        new Actions(browser)
                .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(chart), 0, -300)
                .perform();
        LockSupport.parkNanos(600_000_000);
        assertThat(range()[1] - range()[0]).isBetween(1.0, 3.9);
        assertThat(range()[0]).isGreaterThan(21);

        press("Whole drive");
        find("//p[starts-with(., '0.00 s to ')]");
        double before = Double.parseDouble(reading("Time").replace(" s", ""));
        press("Next change");
        find("//p[contains(., '; every tick.')]");
        assertThat(Double.parseDouble(reading("Time").replace(" s", ""))).isGreaterThan(before);
    }

    @Test
    void shouldLookCloserWhereAStretchOfTheWholeDriveIsDraggedOver() {
        open("");
        find("//ul[@class='legend']/li");
        WebElement chart = find("(//div[@class='u-over'])[2]");
        ((JavascriptExecutor) browser).executeScript("arguments[0].scrollIntoView({block: 'center'})", chart);
        int width = chart.getSize().getWidth();
        new Actions(browser)
                .moveToElement(chart)
                .clickAndHold()
                .moveByOffset(width / 8, 0)
                .moveByOffset(width / 8, 0)
                .release()
                .perform();
        double[] range = range();
        double endS = proved(BUILD).durationS();
        assertThat(range[0]).isCloseTo(endS / 2, within(endS / 50));
        assertThat(range[1] - range[0]).isCloseTo(endS / 4, within(endS / 50));
    }

    @Test
    void shouldTellHowFarALongRunIsAndLeaveItForAnother() {
        drives.put("endless.csv", new EndlessDrive());
        try {
            browser.get("about:blank");
            browser.get(server.address() + "#/drives?drive=endless.csv&oil=" + OIL_C);
            find("//p[contains(., 'This run is being computed: ') and contains(., ' of the drive so far')]");
            WebElement other = find("//button[@id='run-parking-0']");
            ((JavascriptExecutor) browser).executeScript("arguments[0].scrollIntoView({block: 'center'})", other);
            other.click();
            find("//h2[starts-with(., 'parking, ')]");
            find("//ul[@class='legend']/li");
        } finally {
            drives.remove("endless.csv");
        }
    }

    @ParameterizedTest
    @CsvSource({"1200,light", "1200,dark", "360,light", "360,dark"})
    void shouldHaveNoSeriousFlawOfAccess(int width, String colours) throws IOException {
        Chromium.screen(browser, width, colours);
        open("&overBuild=weak");
        find("//ul[@class='legend']/li[2]");
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();
        long widest = (Long) browser.executeScript("return Math.max(...[...document.querySelectorAll("
                + "'section[aria-label=\"The run\"] *')].map((one) => Math.ceil(one.getBoundingClientRect().right)))");
        assertThat(widest).isLessThanOrEqualTo(width);
        Chromium.screen(browser, 1200, "light");
    }
}

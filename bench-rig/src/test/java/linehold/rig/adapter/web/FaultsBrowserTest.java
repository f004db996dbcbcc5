package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import linehold.rig.loop.TickRing;
import linehold.rig.paper.FaultTable;
import linehold.rig.paper.Worker;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.faults.Phase;
import linehold.simulator.report.Words;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;

/** The faults view in a real browser. Without Debian's chromium and chromium-driver it is skipped. */
class FaultsBrowserTest {

    @TempDir
    private Path folder;

    private final Build build = BuildFile.loadNamed("demonstration");
    private final LiveFaults live = new LiveFaults(build);
    private PageServer server;
    private ChromeDriver browser;

    @BeforeEach
    void start() {
        Chromium.assumeInstalled();
        serve(null, live);
        browser = Chromium.open(folder.resolve("profile"));
    }

    /** @param ticks of a rig that runs; null where none does */
    private void serve(TickRing ticks, LiveFaults faults) {
        FaultTable table = new FaultTable(
                build,
                new Worker("campaign"),
                new Worker("run"),
                List.of(FaultKind.HOSE_LEAK, FaultKind.MAIN_RELAY_STUCK_OPEN),
                List.of(Phase.CREEPING));
        server = new PageServer(
                PageSettings.loopback(0), facts(), ticks, List.of(new FaultRoutes(table), new LiveFaultRoutes(faults)));
        server.start();
    }

    private Map<String, Object> facts() {
        Map<String, Object> facts = new HashMap<>();
        facts.put("build", build.name());
        facts.put("rig", "simulated: stop-and-go");
        facts.put("units", "metric");
        facts.put("holdPa", build.calibration().get(Key.HOLD_PRESSURE));
        facts.put("switchOnRadPerS", build.calibration().get(Key.SWITCH_ON_SPEED));
        facts.put("switchOffRadPerS", build.calibration().get(Key.SWITCH_OFF_SPEED));
        facts.put("states", Arrays.stream(PumpState.values()).map(Words::of).toList());
        facts.put(
                "permissions",
                Arrays.stream(DrivePermission.values()).map(Words::of).toList());
        facts.put(
                "codes",
                Arrays.stream(TroubleCode.values())
                        .map(code -> Map.of(
                                "bit",
                                Long.numberOfTrailingZeros(code.bit()),
                                "number",
                                code.number(),
                                "title",
                                code.title()))
                        .toList());
        facts.put(
                "reasons", Arrays.stream(SwitchReason.values()).map(Enum::name).toList());
        facts.put("carriers", Arrays.stream(PumpState.values()).map(Enum::name).toList());
        facts.put("rigFaults", List.of());
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
        WebElement[] found = new WebElement[1];
        until(xpath, () -> {
            found[0] = shown(xpath).orElse(null);
            return found[0] != null;
        });
        return found[0];
    }

    private Optional<WebElement> shown(String xpath) {
        try {
            return browser.findElements(By.xpath(xpath)).stream()
                    .filter(WebElement::isDisplayed)
                    .findFirst();
        } catch (StaleElementReferenceException e) {
            // The view is just drawn anew.
            return Optional.empty();
        }
    }

    private static void until(String what, BooleanSupplier done) {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!done.getAsBoolean()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            LockSupport.parkNanos(50_000_000);
        }
    }

    @Test
    void shouldTryEveryFaultSortByKeyboardAndOpenARun() throws IOException {
        browser.get(server.address() + "#/faults");
        find("//button[.='Try every fault']").click();
        find("//button[.='Lowest pressure']").sendKeys(Keys.ENTER);
        find("//th[@aria-sort='ascending' and .='Lowest pressure']");
        assertThat(browser.findElements(By.cssSelector("tbody tr"))).hasSize(4);
        assertThat(browser.getCurrentUrl()).contains("sort=lowest");

        find("//tbody//button[.='hose leaks']").sendKeys(Keys.ENTER);
        find("//output[contains(., 's after the fault)')]");
        assertThat(browser.getCurrentUrl()).contains("run=hose-leak");
        assertThat(browser.findElements(By.cssSelector("canvas.lanes"))).hasSize(1);
        for (String colours : List.of("light", "dark")) {
            for (int width : List.of(1300, 360)) {
                Chromium.screen(browser, width, colours);
                find("//output[contains(., 's after the fault)')]");
                assertThat(Chromium.seriousFlaws(browser))
                        .as(colours + " at " + width)
                        .isEmpty();
                assertThat((Boolean) browser.executeScript(
                                "return document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                        .as("nothing but the table goes beyond %s px", width)
                        .isTrue();
            }
        }

        // The same address shows a colleague the same run.
        browser.get("about:blank");
        browser.get(server.address() + "#/faults?run=hose-leak%40creeping%40"
                + build.limits().oilTemperaturesC().get(0));
        find("//h2[starts-with(., 'hose leaks, creeping')]");
    }

    @Test
    void shouldKeepSortFilterAndRunInTheAddress() {
        browser.get(server.address() + "#/faults");
        find("//button[.='Try every fault']").click();
        find("//button[.='Oil']").sendKeys(Keys.SPACE);
        find("//button[.='Oil']").sendKeys(Keys.SPACE);
        find("//th[@aria-sort='descending' and .='Oil']");
        find("//label[starts-with(., 'Part')]//option[.='relays']").click();
        find("//span[.='2 of 4 runs']");
        find("//tbody/tr[1]//button").sendKeys(Keys.ENTER);
        find("//output[contains(., 's after the fault)')]");
        String address = browser.getCurrentUrl();

        browser.get("about:blank");
        browser.get(address);
        find("//th[@aria-sort='descending' and .='Oil']");
        find("//span[.='2 of 4 runs']");
        find("//h2[starts-with(., 'main relay never closes, creeping, oil 120')]");
        assertThat(browser.findElements(By.cssSelector("tbody tr"))).hasSize(2);
    }

    /** Put in and cleared from the page while the car drives: its code comes and goes as a flag of the live view. */
    @Test
    void shouldShowALiveFaultInTheLiveViewUntilItIsCleared() throws Exception {
        server.close();
        try (FastRig rig = new FastRig("stop-and-go", 5).start()) {
            serve(rig.ring, rig.liveFaults());
            browser.get(server.address() + "#/faults");
            find("//optgroup[@label='pressure sender']/option[.='sender wire off']")
                    .click();
            find("//button[.='Put it in']").sendKeys(Keys.ENTER);
            find("//li[contains(., 'is there now')]");
            find("//nav//a[.='Now']").sendKeys(Keys.ENTER);
            find("//p[@id='connection' and .='Put into the simulated car: sender wire off.']");
            find("//ul[@aria-label='Active trouble codes']/li[contains(., 'P0840')]");

            find("//nav//a[.='Faults']").sendKeys(Keys.ENTER);
            find("//button[@aria-label='Clear: sender wire off']").sendKeys(Keys.ENTER);
            find("//p[.='No fault in the car.']");
            find("//nav//a[.='Now']").sendKeys(Keys.ENTER);
            until(
                    "no code any more",
                    () -> browser.findElements(
                                    By.xpath("//ul[@aria-label='Active trouble codes']/li[contains(., 'P0840')]"))
                            .isEmpty());
            assertThat(browser.findElement(By.id("connection")).getText()).isEmpty();
            assertThat(rig.running()).isTrue();
        }
    }

    @Test
    void shouldAskForAFaultAndClearItAgain() {
        browser.get(server.address() + "#/faults");
        WebElement put = find("//button[.='Put it in']");
        find("//optgroup[@label='pressure sender']/option[.='sender wire off']").click();
        put.click();
        find("//li[contains(., 'begins at the next tick')]");
        assertThat(live.state(FaultKind.SENDER_OPEN)).isEqualTo(LiveFaults.State.COMING);
        find("//button[@aria-label='Clear: sender wire off']").click();
        find("//p[.='No fault in the car.']");
        assertThat(live.state(FaultKind.SENDER_OPEN)).isEqualTo(LiveFaults.State.ABSENT);
    }
}

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
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.controller.switching.PumpState;
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
        FaultTable table = new FaultTable(
                build,
                new Worker("campaign"),
                new Worker("run"),
                List.of(FaultKind.HOSE_LEAK, FaultKind.MAIN_RELAY_STUCK_OPEN),
                List.of(Phase.CREEPING));
        server = new PageServer(
                PageSettings.loopback(0), facts(), null, List.of(new FaultRoutes(table), new LiveFaultRoutes(live)));
        server.start();
        browser = Chromium.open(folder.resolve("profile"));
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
        facts.put("codes", List.of());
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
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (true) {
            Optional<WebElement> found = browser.findElements(By.xpath(xpath)).stream()
                    .filter(WebElement::isDisplayed)
                    .findFirst();
            if (found.isPresent()) {
                return found.get();
            }
            assertThat(System.nanoTime()).as(xpath).isLessThan(endNs);
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
        assertThat(Chromium.seriousFlaws(browser)).isEmpty();

        // The same address shows a colleague the same run.
        browser.get("about:blank");
        browser.get(server.address() + "#/faults?run=hose-leak%40creeping%40"
                + build.limits().oilTemperaturesC().get(0));
        find("//h2[starts-with(., 'hose leaks, creeping')]");
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

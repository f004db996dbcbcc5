package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import linehold.controller.calibration.Key;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;

/** The page with a fast simulated rig behind it, in a real browser. */
final class LivePage implements AutoCloseable {
    static final List<String> STATES = List.of("off", "prime", "electric", "overlap", "internal", "help");

    final FastRig rig;
    final ChromeDriver browser;
    private PageServer server;
    private int port;

    /** @param profile of the browser, a folder of its own */
    LivePage(Path profile, double faster) {
        rig = new FastRig("stop-and-go", faster);
        serve(0, Map.of());
        browser = Chromium.open(profile);
    }

    /** @param otherFacts what is told otherwise than usual */
    private void serve(int port, Map<String, Object> otherFacts) {
        var calibration = rig.build.calibration();
        Map<String, Object> facts = new HashMap<>(Map.of(
                "build", rig.build.name(),
                "rig", "simulated: stop-and-go",
                "units", "metric",
                "holdPa", calibration.get(Key.HOLD_PRESSURE),
                "switchOnRadPerS", calibration.get(Key.SWITCH_ON_SPEED),
                "switchOffRadPerS", calibration.get(Key.SWITCH_OFF_SPEED),
                "normallyClosed", calibration.is(Key.NORMALLY_CLOSED_CONTACT),
                "standbyFitted", calibration.is(Key.STANDBY_RELAY_FITTED),
                "contactClosedFraction", calibration.get(Key.CONTACT_CLOSED_FRACTION),
                "nominalBusV", calibration.get(Key.NOMINAL_BUS_VOLTAGE)));
        facts.put("states", STATES);
        facts.put(
                "carriers",
                List.of("nothing", "electric pump", "electric pump", "both pumps", "internal pump", "both pumps"));
        facts.put("reasons", IntStream.range(0, 20).mapToObj(i -> "reason " + i).toList());
        facts.put("permissions", List.of("granted", "reduced", "withheld"));
        facts.put("codes", List.of(Map.of("bit", 0, "number", "P0000", "title", "test")));
        facts.put("rigFaults", List.of());
        facts.putAll(otherFacts);
        server = new PageServer(PageSettings.loopback(port), facts, rig.ring, List.of());
        server.start();
        this.port = server.port();
    }

    String address() {
        return server.address();
    }

    void unplug() {
        server.close();
    }

    /** At the address where it was. */
    void plugIn(Map<String, Object> otherFacts) {
        serve(port, otherFacts);
    }

    /** Empty where there is no such element. */
    String textOf(String id) {
        return String.valueOf(
                browser.executeScript("return document.getElementById(arguments[0])?.innerText ?? ''", id));
    }

    /** What the reading at the cursor says of something. */
    String reading(String name) {
        return String.valueOf(browser.executeScript(
                "return [...document.querySelectorAll('#reading div')].find(one => one.firstChild.textContent === arguments[0])"
                        + "?.lastChild.textContent ?? ''",
                name));
    }

    WebElement button(String words) {
        return browser.findElement(By.xpath("//button[normalize-space()='" + words + "']"));
    }

    static void await(String what, Supplier<Boolean> reached) throws InterruptedException {
        long endNs = System.nanoTime() + Duration.ofSeconds(60).toNanos();
        while (!reached.get()) {
            assertThat(System.nanoTime()).as(what).isLessThan(endNs);
            Thread.sleep(50);
        }
    }

    @Override
    public void close() throws InterruptedException {
        browser.quit();
        server.close();
        rig.close();
    }
}

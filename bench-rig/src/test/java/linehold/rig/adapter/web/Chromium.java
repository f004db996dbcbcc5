package linehold.rig.adapter.web;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** The browser of the page's tests: Debian's, without a window and without a word to the outside. */
final class Chromium {
    private static final Path BROWSER = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    private Chromium() {}

    /** Skips the test where it is not there. */
    static void assumeInstalled() {
        assumeTrue(
                Files.isExecutable(BROWSER) && Files.isExecutable(DRIVER),
                "chromium and chromium-driver are not installed");
    }

    /** @param profile a folder of its own */
    static ChromeDriver open(Path profile) {
        ChromeOptions options = new ChromeOptions();
        options.setBinary(BROWSER.toFile());
        options.addArguments(
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--user-data-dir=" + profile);
        return new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER.toFile())
                        .build(),
                options);
    }

    /** As on another screen: width in CSS pixels, and what the system is set to. */
    static void screen(ChromeDriver browser, int width, String colours) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", colours))));
    }

    /** The serious and critical flaws of access that axe finds in what is shown. */
    static List<?> seriousFlaws(ChromeDriver browser) throws IOException {
        try (InputStream in = Chromium.class.getResourceAsStream("/axe.min.js")) {
            browser.executeScript(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
        return (List<?>) browser.executeAsyncScript("const done = arguments[0]; axe.run().then(r => done(r.violations"
                + ".filter(v => ['serious', 'critical'].includes(v.impact))"
                + ".map(v => v.id + ': ' + v.nodes.map(n => n.html).join(' '))))");
    }
}

package linehold.rig.adapter.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.chrome.ChromeDriver;

/**
 * No test: makes the pictures of docs/pictures/ from the program itself, with the demonstration build and the simulated
 * stop-and-go. {@code mvn -q test -pl bench-rig -am -Dtest=PagePictures -Dsurefire.failIfNoSpecifiedTests=false}; it needs
 * chromium and chromium-driver and a few minutes. {@code -Dlinehold.pictures=now,drives} makes some of them only.
 */
class PagePictures {
    private static final Path PICTURES = Path.of("../docs/pictures");
    private static final Duration LONGEST = Duration.ofMinutes(15);
    /** Charts are drawn in the frame after their data have come. */
    private static final long SETTLE_MS = 600;

    /**
     * @param address what stands after the hash
     * @param ready tells whether it is whole; told again and again, so that it may also press what must be pressed
     * @param first what stands at the top of the picture
     */
    private record View(String name, String address, String ready, String first) {}

    /** What a page is made for; heights are the most that a picture shows. */
    private record Look(String name, int widthPx, int heightPx, double scale, String scheme) {}

    private static final List<View> VIEWS = List.of(
            new View(
                    "now",
                    "/now?from=36&to=52&at=40.12",
                    "return document.querySelector('#shown')?.textContent.startsWith('Stands still')",
                    "body"),
            new View("drives", "/drives", "return /drives (held|lost)/.test(document.body.innerText)", "body"),
            new View(
                    "drive",
                    "/drives?drive=hill-hold&oil=-20",
                    "return /drives (held|lost)/.test(document.body.innerText)"
                            + " && document.querySelectorAll('main canvas').length >= 2",
                    "section h2"),
            new View(
                    "window",
                    "/window",
                    "return document.querySelector('#verdict')?.textContent.match(/held|lost/i)"
                            + " && document.querySelector('main canvas, main svg') !== null",
                    "body"),
            new View(
                    "faults",
                    "/faults",
                    "const all = [...document.querySelectorAll('main button')].find(b => b.textContent === 'Try every fault'"
                            + " && !b.hidden); all?.click(); return document.querySelectorAll('main tbody tr').length > 100",
                    "body"),
            new View(
                    "fault",
                    "/faults?run=hose-leak@creeping@120",
                    "return document.querySelectorAll('main canvas').length >= 3",
                    "section h2[tabindex]"),
            new View("bench", "/bench", "return document.querySelectorAll('main li, main td').length > 5", "body"));

    private static final List<Look> LOOKS = List.of(
            new Look("light", 1280, 1200, 1, "light"),
            new Look("dark", 1280, 1200, 1, "dark"),
            new Look("phone", 360, 1200, 1.5, "light"));

    @TempDir
    private Path folder;

    @Test
    void make() throws Exception {
        Chromium.assumeInstalled();
        // The drive of the README ends after a few minutes; the other views take longer.
        pictures(List.of("rig", "--drive", "stop-and-go"), view -> view.name.equals("now"));
        pictures(
                List.of("rig", "--drive", "ece-r83"),
                view -> !List.of("now", "bench").contains(view.name));
        pictures(List.of("bench", "--page"), view -> view.name.equals("bench"));
        try (Stream<Path> files = Files.list(PICTURES)) {
            long bytes = files.mapToLong(file -> file.toFile().length()).sum();
            System.out.println("docs/pictures: " + bytes / 1000 + " kB");
            assertThat(bytes).isLessThan(2_000_000);
        }
    }

    private void pictures(List<String> command, Predicate<View> which) throws Exception {
        String wanted = System.getProperty("linehold.pictures", "");
        List<View> views = VIEWS.stream()
                .filter(which)
                .filter(view -> wanted.isEmpty() || List.of(wanted.split(",")).contains(view.name))
                .toList();
        if (views.isEmpty()) {
            return;
        }
        Path home = Files.createDirectory(folder.resolve(String.join("-", command)));
        List<String> line = new ArrayList<>(List.of("java", "-Xmx400m", "-XX:+UseZGC", "-XX:MetaspaceSize=96m"));
        line.addAll(List.of("-cp", System.getProperty("java.class.path"), "linehold.rig.app.Main"));
        line.addAll(command);
        line.addAll(List.of("--port", "0"));
        Process rig = new ProcessBuilder(line)
                .directory(home.toFile())
                .redirectErrorStream(true)
                .redirectOutput(home.resolve("said.txt").toFile())
                .start();
        ChromeDriver browser = Chromium.open(home.resolve("profile"));
        try {
            String base = base(rig, home.resolve("said.txt"));
            browser.executeCdpCommand("Emulation.setScrollbarsHidden", Map.of("hidden", true));
            for (View view : views) {
                picture(browser, base, view);
            }
        } finally {
            browser.quit();
            rig.destroy();
            rig.waitFor();
        }
    }

    private static String base(Process rig, Path said) throws Exception {
        while (rig.isAlive()) {
            for (String line : Files.readAllLines(said)) {
                if (line.startsWith("page: ")) {
                    return line.substring("page: ".length()).replaceAll("#.*", "");
                }
            }
            Thread.sleep(100);
        }
        throw new IOException("the rig has ended: " + Files.readString(said));
    }

    private static void picture(ChromeDriver browser, String base, View view) throws Exception {
        for (Look look : LOOKS) {
            browser.executeCdpCommand(
                    "Emulation.setEmulatedMedia",
                    Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", look.scheme))));
            size(browser, look, look.heightPx);
            browser.get("about:blank");
            browser.get(base + "#" + view.address);
            await(browser, view);
            Thread.sleep(SETTLE_MS);
            long topPx = number(browser.executeScript(
                    "document.activeElement?.blur(); return Math.max(0, document.querySelector(arguments[0])"
                            + ".getBoundingClientRect().top + scrollY - 8)",
                    view.first));
            long wholePx = number(browser.executeScript(
                    "return document.querySelector('footer').getBoundingClientRect().bottom + scrollY + 8"));
            size(browser, look, (int) Math.min(look.heightPx, wholePx - topPx));
            browser.executeScript("scrollTo(0, arguments[0])", topPx);
            Thread.sleep(SETTLE_MS);
            SmallPng.write(
                    browser.getScreenshotAs(OutputType.BYTES), PICTURES.resolve(view.name + "-" + look.name + ".png"));
        }
    }

    private static void size(ChromeDriver browser, Look look, int heightPx) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", look.widthPx, "height", heightPx, "deviceScaleFactor", look.scale, "mobile", false));
    }

    private static void await(ChromeDriver browser, View view) throws InterruptedException, IOException {
        long endNs = System.nanoTime() + LONGEST.toNanos();
        while (!isTrue(browser.executeScript(view.ready))) {
            assertThat(System.nanoTime())
                    .as(
                            "%s is whole: %s",
                            view.name,
                            browser.findElement(org.openqa.selenium.By.tagName("main"))
                                    .getText())
                    .isLessThan(endNs);
            Thread.sleep(200);
        }
    }

    private static long number(Object answer) {
        return Math.round(((Number) answer).doubleValue());
    }

    private static boolean isTrue(Object answer) {
        return answer != null && !Boolean.FALSE.equals(answer);
    }
}

package linehold.rig.adapter.web;

import static linehold.rig.adapter.web.LivePage.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import linehold.controller.tick.TickField;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;

/** What a person does in the live view, by mouse and by keyboard. Skipped without chromium and chromium-driver. */
class NowBrowserTest {
    private static final double TICK_S = 0.005;

    @TempDir
    private Path folder;

    private LivePage page;

    @BeforeEach
    void open() throws InterruptedException {
        Chromium.assumeInstalled();
        page = new LivePage(folder.resolve("profile"), 4);
    }

    @AfterEach
    void close() throws InterruptedException {
        if (page != null) {
            page.close();
        }
    }

    private void show(String hash) throws InterruptedException {
        page.browser.get(page.address() + hash);
        await("live", () -> page.textOf("figure-pressure").endsWith(" bar"));
    }

    private double readS() {
        return Double.parseDouble(page.reading("Time").replace(" s", ""));
    }

    /** From and to of what stands still, by the address. */
    private double[] range() {
        String address = page.browser.getCurrentUrl();
        return new double[] {
            Double.parseDouble(address.replaceAll(".*[?&]from=([^&]*).*", "$1")),
            Double.parseDouble(address.replaceAll(".*[?&]to=([^&]*).*", "$1"))
        };
    }

    private void press(CharSequence... keys) {
        page.browser.switchTo().activeElement().sendKeys(keys);
    }

    @Test
    void shouldStandStillLookCloserAndReadTickByTickByKeyboardAndKeepItInTheAddress() throws Exception {
        page.rig.start();
        show("#/now?last=15");
        await("some seconds are there", () -> page.rig.ring.published() > 6000);
        page.browser.executeScript("document.querySelector('.tools button').focus()");
        press(Keys.ENTER);
        await("it stands still", () -> page.textOf("shown").startsWith("Stands still"));
        String extremes = page.textOf("extremes");
        long ticks = page.rig.ring.published();
        double[] whole = range();
        assertThat(whole[1] - whole[0]).isCloseTo(15, within(0.01));

        press(Keys.TAB, Keys.ENTER);
        await("half of it", () -> range()[1] - range()[0] < 8);
        assertThat(range()[1] - range()[0]).isCloseTo(7.5, within(0.01));
        WebElement moment = page.browser.findElement(By.id("moment"));
        moment.sendKeys(Keys.HOME);
        // The fast rig leaves ticks out where the machine is busy.
        await("the first is read", () -> Math.abs(readS() - range()[0]) < 0.5);
        double beforeS = readS();
        for (int i = 0; i < 20; i++) {
            moment.sendKeys(Keys.ARROW_RIGHT);
        }
        assertThat(Double.parseDouble(moment.getDomProperty("value"))).isCloseTo(20 * TICK_S, within(1e-6));
        await("later ticks", () -> readS() > beforeS);
        assertThat(moment.getDomAttribute("aria-valuetext")).contains("Line pressure", "Pump state", "Main contact");

        await("the rig went on", () -> page.rig.ring.published() > ticks + 400);
        double atS = readS();
        page.button("Whole minute").click();
        await("all that was there", () -> range()[0] < whole[0] - 1);
        page.browser.navigate().to("about:blank");
        show(String.format(java.util.Locale.ROOT, "#/now?from=%.3f&to=%.3f&at=%.3f", whole[0], whole[1], atS));
        await("the same again", () -> page.textOf("shown").startsWith("Stands still"));
        assertThat(page.textOf("extremes")).isEqualTo(extremes);
        assertThat(readS()).isCloseTo(atS, within(0.011));

        page.button("Pause").click();
        await("it runs again", () -> page.textOf("shown").startsWith("The last"));
    }

    @Test
    void shouldLookCloserWhereTheMouseIsDragged() throws Exception {
        page.rig.start();
        show("#/now?last=15");
        await("some seconds are there", () -> page.rig.ring.published() > 4000);
        WebElement chart = page.browser.findElement(By.cssSelector(".chart .u-over"));
        int width = chart.getSize().getWidth();
        new Actions(page.browser)
                .moveToElement(chart, -width / 4, 0)
                .clickAndHold()
                .moveByOffset(width / 4, 5)
                .moveByOffset(width / 4, 0)
                .release()
                .perform();
        await("it stands still", () -> page.textOf("shown").startsWith("Stands still"));
        assertThat(range()[1] - range()[0]).isCloseTo(7.5, within(0.2));
        new Actions(page.browser).doubleClick(chart).perform();
        await("all again", () -> range()[1] - range()[0] > 15);
    }

    /** The recorded run is the rig's own ring of ticks. */
    @Test
    void shouldReadEveryLaneAtTheCursorAsTheRigHadIt() throws Exception {
        TickRing.Cursor cursor = page.rig.ring.recall();
        page.rig.start();
        show("#/now");
        await("the internal pump carries", () -> page.textOf("figure-carries").equals("internal pump"));
        page.button("Pause").click();
        await("it stands still", () -> page.textOf("shown").startsWith("Stands still"));
        List<double[]> rows = new ArrayList<>();
        double[] row = new double[TickRow.LENGTH];
        while (cursor.read(row)) {
            rows.add(row.clone());
        }
        assertThat(cursor.missed()).isZero();
        WebElement chart = page.browser.findElement(By.cssSelector(".chart .u-over"));
        List<String> statesRead = new ArrayList<>();
        for (int x : new int[] {-40, -20, -8, 0, 5, 10, 30, 45}) {
            new Actions(page.browser)
                    .moveToElement(chart, x * chart.getSize().getWidth() / 100, 0)
                    .perform();
            Thread.sleep(100);
            double s = readS();
            double[] was = rows.stream()
                    .filter(one -> Math.abs((one[TickRow.NOW_NS] - rows.get(0)[TickRow.NOW_NS]) * 1e-9 - s) < 6e-4)
                    .findFirst()
                    .orElseThrow();
            assertThat(page.reading("Line pressure")).isEqualTo(bar(was[TickRow.indexOf(TickField.LINE_PRESSURE_PA)]));
            assertThat(page.reading("Pump state"))
                    .isEqualTo(LivePage.STATES.get((int) was[TickRow.indexOf(TickField.STATE)]));
            assertThat(page.reading("Because")).isEqualTo("reason " + (int) was[TickRow.indexOf(TickField.REASON)]);
            assertThat(page.reading("Main coil"))
                    .isEqualTo(was[TickRow.indexOf(TickField.MAIN_RELAY_COIL)] != 0 ? "energised" : "off");
            assertThat(Double.parseDouble(page.reading("Main contact").replace(" V", "")))
                    .isCloseTo(was[TickRow.indexOf(TickField.MAIN_CONTACT_V)], within(0.051));
            statesRead.add(page.reading("Pump state"));
        }
        assertThat(statesRead).as("the run had more than one state").contains("electric");
    }

    private static String bar(double pa) {
        return String.format(java.util.Locale.ROOT, "%.2f bar", pa * 1e-5);
    }

    @Test
    void shouldRememberTheUnits() throws Exception {
        page.rig.start();
        show("");
        page.browser.findElement(By.id("units")).click();
        await("US units", () -> page.textOf("figure-pressure").endsWith(" psi"));
        assertThat(page.textOf("note-pressure")).endsWith("58.0 psi");
        page.browser.navigate().to("about:blank");
        page.browser.get(page.address());
        await("still US units", () -> page.textOf("figure-pressure").endsWith(" psi"));
        assertThat(page.browser.findElement(By.id("units")).getDomAttribute("aria-pressed"))
                .isEqualTo("true");
    }

    @Test
    void shouldReachEveryViewAndEveryToolByKeyboardAlone() throws Exception {
        page.rig.start();
        show("");
        List<String> reached = new ArrayList<>();
        page.browser.executeScript("document.activeElement.blur()");
        for (int i = 0; i < 30; i++) {
            new Actions(page.browser).sendKeys(Keys.TAB).perform();
            reached.add(String.valueOf(page.browser.executeScript(
                    "const at = document.activeElement; return at.id || at.textContent.trim()")));
        }
        assertThat(reached)
                .containsSubsequence("To the content", "Now", "Drives", "Window", "Faults", "units")
                .containsSubsequence("Pause", "Closer", "Further", "Earlier", "Later", "Whole minute", "moment");
        for (WebElement link : page.browser.findElements(By.cssSelector("#views a"))) {
            String name = link.getText();
            link.sendKeys(Keys.ENTER);
            await(name, () -> page.browser.getTitle().equals(name + " – linehold"));
            assertThat(link.getDomAttribute("aria-current")).isEqualTo("page");
        }
    }

    @Test
    void shouldNeverShowAnOldTickAsNow() throws Exception {
        page.rig.start();
        show("");
        page.rig.close();
        await("it says so", () -> page.textOf("connection").contains("No tick has come"));
        assertThat(page.textOf("figure-pressure")).isEqualTo("–");
        assertThat(page.textOf("figure-drive")).isEqualTo("–");
    }

    @Test
    void shouldTakeThePageAnewWhereAnotherBuildAnswers() throws Exception {
        page.rig.start();
        show("");
        page.unplug();
        await("it says so", () -> page.textOf("connection").contains("does not answer"));
        page.plugIn(Map.of("build", "another-build"));
        await("the other build is named", () -> page.textOf("build").startsWith("another-build"));
        await("live", () -> page.textOf("figure-pressure").endsWith(" bar"));
    }
}

package linehold.rig.app;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import linehold.controller.calibration.Key;
import linehold.rig.adapter.mqtt.MqttSettings;
import linehold.rig.adapter.mqtt.RigIdentity;
import linehold.rig.adapter.web.PageServer;
import linehold.rig.adapter.web.PageSettings;
import linehold.rig.loop.ControlLoop;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code linehold rig}: the controller in real time, against the simulated car or a real board. */
@Command(
        name = "rig",
        mixinStandardHelpOptions = true,
        description = {
            "Runs the controller in real time: against the simulated car, or a real board.",
            "Before it moves a real relay: park brake on, wheels chocked or off the ground on stands, nobody under the car,",
            "the pump's supply fused. Hot oil under pressure burns. This is no certified safety system.",
            "However it ends, the pump is left running.",
            "Exit status: 0 ended as asked, 2 bad input, 3 a defect."
        })
public final class RigCommand implements Callable<Integer> {
    private static final Logger LOG = LoggerFactory.getLogger(RigCommand.class);
    private static final long STATUS_EVERY_MS = 200;

    @Mixin
    private RigOptions options = new RigOptions();

    @Mixin
    private MqttOptions mqtt = new MqttOptions();

    @Mixin
    private RecordingOptions recording = new RecordingOptions();

    @Mixin
    private PageOptions page = new PageOptions();

    @Option(names = "--no-page", description = "Serve no page.")
    private boolean noPage;

    @Option(
            names = "--drive",
            paramLabel = "DRIVE",
            defaultValue = "stop-and-go",
            description = "What the simulated car drives: a built-in drive or a CSV log (default: ${DEFAULT-VALUE}).")
    private String drive;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = {
                "How long, such as '60 s'; without it until the drive ends (at a terminal its page then stays until",
                "Ctrl-C), on a board until it is stopped."
            })
    private String length;

    @Override
    public Integer call() {
        Build build = options.buildOption.load();
        Duration longest = length == null ? null : duration(length);
        Optional<MqttSettings> broker = mqtt.settings();
        PageSettings pageSettings = page.settings();
        List<Throwable> defects = new ArrayList<>();
        CountDownLatch told = new CountDownLatch(1);
        CountDownLatch closed = new CountDownLatch(1);
        try (Wiring wiring = Wiring.open(build, options, drive, recording)) {
            broker.ifPresent(settings -> wiring.publish(settings, identity(build)));
            ControlLoop loop = wiring.loop();
            Thread thread = new Thread(wiring::run, "control-loop");
            thread.setPriority(Thread.MAX_PRIORITY);
            thread.setUncaughtExceptionHandler((where, defect) -> defects.add(defect));
            Thread hook = new Thread(() -> end(loop, told, closed), "stop");
            Runtime.getRuntime().addShutdownHook(hook);
            StatusLine status = new StatusLine(build, wiring.ring(), Ansi.AUTO.enabled());
            thread.start();
            try (PageServer server = noPage ? null : openPage(build, wiring, pageSettings)) {
                follow(thread, status, longest);
                Stopping.end(loop, thread);
                boolean inOrder = defects.isEmpty() && !thread.isAlive();
                if (inOrder) {
                    wiring.endWatchdogs();
                }
                status.end(loop.lateness());
                if (inOrder && server != null && longest == null && Ansi.AUTO.enabled()) {
                    stay(told);
                }
            }
            Stopping.removeHook(hook);
        } finally {
            closed.countDown();
        }
        for (Throwable defect : defects) {
            LOG.error("the control loop has ended by a defect; the pump was left running", defect);
        }
        return defects.isEmpty() ? 0 : Main.DEFECT;
    }

    /** The rig goes on without a page that cannot be opened: null then. */
    private PageServer openPage(Build build, Wiring wiring, PageSettings settings) {
        PageServer server = new PageServer(
                settings,
                PageFacts.of(build, source()),
                wiring.ring(),
                PageParts.rig(build, options.buildOption.name(), recording.folder, wiring.liveFaults()));
        try {
            server.start();
            System.out.println("page: " + server.address());
            return server;
        } catch (InputException e) {
            server.close();
            LOG.warn("{}; the rig goes on without it", e.getMessage());
            return null;
        }
    }

    private String source() {
        return options.io == RigOptions.Io.SIMULATED ? "simulated: " + drive : "board: " + options.board;
    }

    private RigIdentity identity(Build build) {
        return new RigIdentity(
                Main.RELEASE,
                source(),
                build.name(),
                build.sha256(),
                build.calibration().checksum(),
                build.calibration().ns(Key.CONTROL_PERIOD));
    }

    private static void follow(Thread thread, StatusLine status, Duration longest) {
        long endNs = longest == null ? Long.MAX_VALUE : System.nanoTime() + longest.toNanos();
        try {
            while (thread.isAlive() && System.nanoTime() < endNs) {
                thread.join(STATUS_EVERY_MS);
                status.update();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Whoever looks at the page of a drive that has ended is not left without it; at a terminal somebody can end it. */
    private static void stay(CountDownLatch told) {
        if (told.getCount() > 0) {
            System.out.println("The drive has ended; the page stays until Ctrl-C.");
        }
        try {
            told.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** The program was told to stop: it goes on until the lines have been let go of in good order. */
    private static void end(ControlLoop loop, CountDownLatch told, CountDownLatch closed) {
        told.countDown();
        loop.stop();
        try {
            closed.await(Stopping.LONGEST_STOP_MS, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static Duration duration(String typed) {
        double seconds = Quantities.parse(typed, Quantity.TIME)
                .orElseThrow(() -> new InputException("--for: found '" + typed + "', expected a time such as '60 s'"));
        if (!(seconds > 0 && seconds <= TimeUnit.DAYS.toSeconds(3650))) {
            throw new InputException("--for: found '" + typed + "', expected a time above 0 s and below ten years");
        }
        return Duration.ofNanos(Math.round(seconds * 1e9));
    }
}

package linehold.rig.app;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import linehold.rig.adapter.web.PageServer;
import linehold.simulator.build.Build;
import linehold.simulator.cli.BuildOption;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code linehold page}: the paper side of the bench page, without a rig. */
@Command(
        name = "page",
        mixinStandardHelpOptions = true,
        description = {
            "Serves the bench page without a rig, until it is stopped.",
            "Exit status: 0 ended as asked, 2 bad input."
        })
public final class PageCommand implements Callable<Integer> {
    @Mixin
    private PageOptions page = new PageOptions();

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--recordings",
            paramLabel = "FOLDER",
            defaultValue = RecordingsCommand.DEFAULT_FOLDER,
            description = "Recordings of rigs that can be taken as drives (default: ${DEFAULT-VALUE}).")
    private Path recordings;

    @Override
    public Integer call() throws InterruptedException {
        Build build = buildOption.load();
        try (PageServer server = new PageServer(
                page.settings(),
                PageFacts.of(build, null),
                null,
                PageParts.alone(build, buildOption.name(), recordings))) {
            server.start();
            System.out.println("page: " + server.address());
            Runtime.getRuntime().addShutdownHook(new Thread(server::close, "stop"));
            new CountDownLatch(1).await();
        }
        return 0;
    }
}

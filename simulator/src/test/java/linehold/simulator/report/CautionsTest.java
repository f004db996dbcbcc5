package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CautionsTest {
    /** What neither the first page nor any report may leave out. */
    private static final List<String> WORDS = List.of(
            "hot and under pressure",
            "can move by itself",
            "chock the wheels",
            "stands",
            "park brake as well as",
            "helper on the brake",
            "never work under a car that is held by hydraulics",
            "fuse the",
            "no certified safety system",
            "local codes, vehicle approval rules and licensed practice prevail");

    @Test
    void shouldStandInTheReadme() throws IOException {
        String readme = Files.readString(Path.of("../README.md")).replaceAll("\\s*\n> ?", " ");
        assertThat(readme.toLowerCase(Locale.ROOT)).contains(WORDS);
    }

    @Test
    void shouldStandInWhatEveryReportShares() {
        String cautions =
                Stream.concat(Cautions.WORK.stream(), Cautions.RESULT.stream()).collect(Collectors.joining(" "));
        assertThat(cautions.toLowerCase(Locale.ROOT)).contains(WORDS);
    }
}

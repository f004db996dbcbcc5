package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** docs/install/linehold-rig.service says what docs/install.md promises, in options that Java and the program know. */
class ServiceUnitTest {
    private static final Path UNIT =
            Path.of(System.getProperty("linehold.root", ".."), "docs/install/linehold-rig.service");

    private static List<String> start() throws IOException {
        String unit = Files.readString(UNIT).replaceAll("\\\\\n\\s*", "");
        String line = unit.lines()
                .filter(text -> text.startsWith("ExecStart="))
                .findFirst()
                .orElseThrow();
        return Arrays.asList(line.substring("ExecStart=".length()).split(" +"));
    }

    @Test
    void shouldStartTheRigWithOptionsThatItHas() throws IOException {
        List<String> command = start();
        String[] options =
                command.subList(command.indexOf("-jar") + 2, command.size()).toArray(new String[0]);

        assertThat(Main.commandLine().parseArgs(options).errors()).isEmpty();
        assertThat(options).startsWith("rig", "--io", "pi");
    }

    @Test
    void shouldStartJavaWithOptionsThatItHas() throws Exception {
        List<String> command = start();
        List<String> java = new ArrayList<>(command.subList(0, command.indexOf("-jar")));
        java.set(0, Path.of(System.getProperty("java.home"), "bin", "java").toString());
        java.add("-version");
        Process process = new ProcessBuilder(java).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(said).isZero();
    }

    @Test
    void shouldRestartAlwaysUnderAWatchdogInRealTimeAndShutIn() throws IOException {
        assertThat(Files.readAllLines(UNIT))
                .contains(
                        "Restart=always",
                        "StartLimitIntervalSec=0",
                        "Type=notify",
                        "WatchdogSec=1s",
                        "WatchdogSignal=SIGKILL",
                        "CPUSchedulingPolicy=rr",
                        "LimitMEMLOCK=infinity",
                        "NoNewPrivileges=yes",
                        "ProtectSystem=strict",
                        "DevicePolicy=closed");
    }
}

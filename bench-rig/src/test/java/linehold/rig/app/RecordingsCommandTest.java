package linehold.rig.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import linehold.controller.safety.TroubleCode;
import linehold.rig.adapter.store.Recorder;
import linehold.rig.adapter.store.RecordingLimits;
import linehold.rig.adapter.store.TestRig;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecordingsCommandTest {
    @TempDir
    private Path folder;

    private record Outcome(int status, String out, String err) {}

    private Outcome run(String... args) {
        PrintStream out = System.out;
        PrintStream err = System.err;
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        ByteArrayOutputStream complained = new ByteArrayOutputStream();
        try {
            System.setOut(new PrintStream(told, true, StandardCharsets.UTF_8));
            System.setErr(new PrintStream(complained, true, StandardCharsets.UTF_8));
            int status = Main.commandLine().execute(args);
            return new Outcome(
                    status, told.toString(StandardCharsets.UTF_8), complained.toString(StandardCharsets.UTF_8));
        } finally {
            System.setOut(out);
            System.setErr(err);
        }
    }

    private Outcome recordings(String command, String... args) {
        String[] all = new String[args.length + 4];
        all[0] = "recordings";
        all[1] = command;
        all[2] = "--folder";
        all[3] = folder.toString();
        System.arraycopy(args, 0, all, 4, args.length);
        return run(all);
    }

    private void record(List<Fault> faults) {
        TestRig rig = new TestRig();
        try (Recorder recorder =
                Recorder.open(folder, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT)) {
            recorder.start();
            rig.drive("stop-and-go", faults, 8000);
        }
    }

    @Test
    void shouldListWhatWasRecordedWithStatesAndCodes() {
        record(List.of());
        record(List.of(Fault.usual(FaultKind.SENDER_OPEN, 20)));
        Outcome outcome = recordings("list");
        assertThat(outcome.status).as(outcome.err).isZero();
        List<String> lines = outcome.out.lines().toList();
        assertThat(lines).hasSize(3);
        assertThat(lines.get(0)).contains("id", "start", "length", "MB", "pump", "codes");
        assertThat(lines.get(1)).contains("0:00:39", "in order", "prime electric", "none", "simulated");
        assertThat(lines.get(2)).contains(TroubleCode.SENDER_LOST.number()).doesNotContain("none");
    }

    @Test
    void shouldRecordARigInRealTimeAndReplayIt() {
        Outcome rig = run("rig", "--for", "2 s", "--record", folder.toString());
        assertThat(rig.status).as(rig.err).isZero();
        assertThat(folder.resolve("trouble-codes.bin")).isNotEmptyFile();
        assertThat(recordings("list").out).contains("in order", "simulated stop-and-go");
        Outcome replay = recordings("replay");
        assertThat(replay.status).as(replay.out).isZero();

        Path nothing = folder.resolve("nothing");
        run("rig", "--for", "0.1 s", "--no-record", "--record", nothing.toString());
        assertThat(nothing).doesNotExist();
    }

    @Test
    void shouldExportADriveThatProveReadsDirectly() {
        record(List.of());
        Path csv = folder.resolve("again.csv");
        Outcome export = recordings("export", "--out", csv.toString());
        assertThat(export.status).as(export.err).isZero();
        assertThat(export.out).contains("written: " + csv + ", 8000 rows");
        Outcome prove = run(
                "prove",
                csv.toString(),
                "--oil",
                "60 °C",
                "--out",
                folder.resolve("out").toString());
        assertThat(prove.status).as(prove.out + prove.err).isZero();
        assertThat(prove.out).contains("again", "HELD");

        Path ticks = folder.resolve("ticks.csv");
        assertThat(recordings("export", "1", "--ticks", "--out", ticks.toString()).status)
                .isZero();
        assertThat(ticks).isNotEmptyFile();
    }

    @Test
    void shouldEndWithStatusOneWhereAReplayDiffers() throws Exception {
        record(List.of());
        Outcome same = recordings("replay");
        assertThat(same.status).as(same.out).isZero();
        assertThat(same.out).contains("bit-identical: 8000 ticks");

        Path file = folder.resolve("000001.lhrec");
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement()) {
            statement.execute("DELETE FROM block WHERE first_tick > 3000 AND first_tick < 4000");
        }
        Outcome gap = recordings("replay", "1");
        assertThat(gap.status).isEqualTo(1);
        assertThat(gap.out).contains("ENDS at tick 3", "ticks were not recorded there");
    }

    @Test
    void shouldPruneByNumberSizeAndAge() {
        for (int i = 0; i < 4; i++) {
            record(List.of());
        }
        assertThat(recordings("prune", "2").out).contains("deleted: 2");
        assertThat(recordings("prune", "--older-than", "1").out).contains("deleted: nothing");
        assertThat(recordings("prune", "--older-than", "0").out).contains("deleted: 1, 3, 4");
        record(List.of());
        assertThat(recordings("prune", "--down-to", "0").out).contains("deleted: 1");
        assertThat(recordings("list").out.lines()).hasSize(1);
    }

    @Test
    void shouldEndWithStatusTwoAndOneSentenceForBadInput() throws Exception {
        for (String[] args : new String[][] {
            {"export"},
            {"export", "7"},
            {"replay"},
            {"prune"},
            {"prune", "9"},
            {"prune", "--older-than", "-1"},
            {"prune", "--down-to", "much"},
        }) {
            Outcome outcome = recordings(args[0], Arrays.copyOfRange(args, 1, args.length));
            assertThat(outcome.status).as(String.join(" ", args)).isEqualTo(2);
            assertThat(outcome.err.strip().lines()).as(outcome.err).hasSize(1);
            assertThat(outcome.err).startsWith("linehold: ");
        }
        assertThat(run("recordings").status).isEqualTo(2);

        Files.writeString(folder.resolve("000001.lhrec"), "not a recording, although it is called like one");
        assertThat(recordings("replay").status).isEqualTo(2);
        Outcome list = recordings("list");
        assertThat(list.status).isZero();
        assertThat(list.out).contains("cannot be read as a recording");
    }
}

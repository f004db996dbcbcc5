package linehold.rig.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.build.BuildFile;
import linehold.simulator.fault.FaultKind;
import linehold.simulator.faults.FaultCampaign;
import linehold.simulator.faults.FaultRun;
import linehold.simulator.faults.Phase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

class FaultTableTest {
    private static final List<FaultKind> KINDS = List.of(FaultKind.HOSE_LEAK, FaultKind.SENDER_OPEN);
    private static final List<Phase> PHASES = List.of(Phase.CREEPING, Phase.HOLD_ON_HILL);

    private final Build build = BuildFile.loadNamed("demonstration");

    private FaultTable finished() throws InterruptedException {
        FaultTable table = new FaultTable(build, new Worker("campaign"), new Worker("run"), KINDS, PHASES);
        assertThat(table.progress().state()).isEqualTo("idle");
        assertThat(table.runs()).isEmpty();
        table.start();
        table.start();
        while (table.progress().state().equals("running")) {
            Thread.sleep(Duration.ofMillis(20).toMillis());
        }
        return table;
    }

    /** A campaign that hangs fails by this alone. */
    @Test
    @Timeout(300)
    void shouldHoldWhatTheCampaignFinds() throws InterruptedException {
        FaultTable table = finished();
        List<FaultRun> expected =
                new FaultCampaign(build, 1, KINDS, PHASES).run(() -> {}).singles();
        assertThat(table.runs()).isEqualTo(expected).hasSize(8);
        assertThat(table.progress().state()).isEqualTo("done");
        assertThat(table.progress().done()).isEqualTo(table.progress().steps());
    }
}

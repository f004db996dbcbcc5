package linehold.controller.documentation;

import java.io.IOException;
import linehold.controller.Requirement;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.Transition;
import org.junit.jupiter.api.Test;

/** docs/states.md and docs/trouble-codes.md say what the code does. */
class GeneratedPagesTest {
    @Test
    @Requirement({"LH-SW-1", "LH-SW-2", "LH-SW-9"})
    void shouldDescribeTheStatesAndMovesAsTheyAre() throws IOException {
        StringBuilder page = new StringBuilder("# Pump states\n\nWritten from the transition table; do not edit.\n\n");
        page.append("| state | electric pump | meaning |\n|---|---|---|\n");
        for (PumpState state : PumpState.values()) {
            page.append("| ").append(state).append(" | ").append(state.pumpRuns() ? "runs" : "off");
            page.append(" | ").append(state.meaning()).append(" |\n");
        }
        page.append(
                "\nThe controller starts in OFF. From each state the first move whose condition holds is made, at most one a");
        page.append(" tick. No other move exists.\n\n");
        page.append(
                "\"Pump may stop\": the minimum run time is over and no cool-down runs (LH-SW-4, LH-SW-8). \"Asks for");
        page.append(
                " help\": pressure lost or below the help pressure, carry speed near, or brake applied at low speed.\n\n");
        page.append("| from | to | when | reason recorded |\n|---|---|---|---|\n");
        for (Transition row : Transition.TABLE) {
            page.append("| ")
                    .append(row.from())
                    .append(" | ")
                    .append(row.to())
                    .append(" | ")
                    .append(row.when());
            page.append(" | ").append(row.reason()).append(" |\n");
        }
        page.append("\n```mermaid\nstateDiagram-v2\n    [*] --> OFF\n");
        for (PumpState from : PumpState.values()) {
            for (PumpState to : PumpState.values()) {
                String reasons = Transition.TABLE.stream()
                        .filter(row -> row.from() == from && row.to() == to)
                        .map(row -> row.reason()
                                .name()
                                .toLowerCase(java.util.Locale.ROOT)
                                .replace('_', ' '))
                        .reduce((a, b) -> a + ", " + b)
                        .orElse("");
                if (!reasons.isEmpty()) {
                    page.append("    ")
                            .append(from)
                            .append(" --> ")
                            .append(to)
                            .append(": ")
                            .append(reasons)
                            .append('\n');
                }
            }
        }
        page.append("```\n");
        Page.check("states.md", page.toString());
    }

    @Test
    void shouldDescribeTheTroubleCodesAsTheyAre() throws IOException {
        StringBuilder page = new StringBuilder("# Trouble codes\n\nWritten from the code table; do not edit.\n\n");
        page.append(
                "Numbers and titles are SAE J2012's where one fits, taken from a public list of the generic codes (the");
        page.append(
                " standard's own annex was not read). P1 numbers are from the range left to the maker, with titles of");
        page.append(
                " our own. A warning lights the lamp; a stop code sounds the buzzer as well: stop where it is safe and");
        page.append(" find the cause before driving on. No code ever switches the electric pump off.\n\n");
        page.append("| number | title | seen | severity | reaction | active until | requirement |\n");
        page.append("|---|---|---|---|---|---|---|\n");
        for (TroubleCode code : TroubleCode.values()) {
            page.append("| ")
                    .append(code.number())
                    .append(" | ")
                    .append(code.title())
                    .append(" | ");
            page.append(code.cause()).append(" | ");
            page.append(code.severity().name().toLowerCase(java.util.Locale.ROOT))
                    .append(" | ");
            page.append(code.reaction().meaning())
                    .append(" | ")
                    .append(code.clearing().meaning())
                    .append(" | ");
            page.append(code.requirement()).append(" |\n");
        }
        Page.check("trouble-codes.md", page.toString());
    }
}

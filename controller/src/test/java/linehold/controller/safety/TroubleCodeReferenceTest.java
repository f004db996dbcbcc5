package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Numbers and titles against SAE J2012. The standard's annex with the titles was not read: they are from a public generic
 * list (Wal33D/dtc-database, data/source-data/p_codes.txt, commit 04c43d72), a secondary source; no carmaker's list was
 * used.
 */
class TroubleCodeReferenceTest {
    private static final Map<String, String> GENERIC = Map.ofEntries(
            Map.entry("P0607", "Control Module Performance"),
            Map.entry("P0716", "Input/Turbine Shaft Speed Sensor A Circuit Range/Performance"),
            Map.entry("P0717", "Input/Turbine Shaft Speed Sensor A Circuit No Signal"),
            Map.entry("P0840", "Transmission Fluid Pressure Sensor/Switch A Circuit"),
            Map.entry("P0868", "Transmission Fluid Pressure Low"),
            Map.entry("P2797", "Electric/Auxiliary Transmission Fluid Pump A Performance/Stuck Off"),
            Map.entry("P27A1", "Electric/Auxiliary Transmission Fluid Pump A Stuck On"),
            Map.entry("P27E1", "Electric/Auxiliary Transmission Fluid Pump A Pressure Too Low"),
            Map.entry("P0562", "System Voltage Low"),
            Map.entry("P0563", "System Voltage High"),
            Map.entry("P0841", "Transmission Fluid Pressure Sensor/Switch A Circuit Range/Performance"),
            Map.entry("P0B09", "Electric/Auxiliary Transmission Fluid Pump A Motor Supply Voltage Circuit/Open"),
            Map.entry("P0C27", "Electric/Auxiliary Transmission Fluid Pump A Motor Current Low"),
            Map.entry("P0C2A", "Electric/Auxiliary Transmission Fluid Pump A Motor Stalled"),
            Map.entry("P2796", "Electric/Auxiliary Transmission Fluid Pump A Control Circuit/Open"));

    @Test
    void shouldUseGenericTitlesForGenericNumbers() {
        for (TroubleCode code : TroubleCode.values()) {
            if (!code.number().startsWith("P1")) {
                assertThat(code.title()).as(code.number()).isEqualTo(GENERIC.get(code.number()));
            }
        }
    }

    @Test
    void shouldHaveWellFormedAndUniqueNumbers() {
        assertThat(Arrays.stream(TroubleCode.values()).map(TroubleCode::number))
                .doesNotHaveDuplicates()
                .allMatch(number -> number.matches("P[0-3][0-9A-F]{3}"));
    }

    @Test
    void shouldFitTheBitsOfALong() {
        assertThat(TroubleCode.values().length).isLessThanOrEqualTo(64);
        assertThat(Arrays.stream(TroubleCode.values())
                        .mapToLong(TroubleCode::bit)
                        .distinct())
                .hasSize(TroubleCode.values().length)
                .allMatch(bit -> Long.bitCount(bit) == 1);
    }

    @Test
    void shouldSayCauseReactionAndClearing() {
        for (TroubleCode code : TroubleCode.values()) {
            assertThat(code.cause()).isNotBlank();
            assertThat(code.reaction().meaning()).isNotBlank();
            assertThat(code.clearing().meaning()).isNotBlank();
            assertThat(code.requirement()).matches("LH-[A-Z]{2}-\\d");
        }
    }
}

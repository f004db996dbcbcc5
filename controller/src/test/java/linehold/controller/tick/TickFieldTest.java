package linehold.controller.tick;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.lang.reflect.Modifier;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.Range;
import linehold.controller.Requirement;
import linehold.controller.switching.PumpState;
import linehold.controller.switching.SwitchReason;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

@Requirement({"LH-TK-2", "LH-TK-3"})
class TickFieldTest {
    private final Inputs in = new Inputs();
    private final Outputs out = new Outputs();

    private static List<TickField> inputs() {
        return Arrays.stream(TickField.values()).filter(TickField::isInput).toList();
    }

    private static long publicFields(Class<?> frame) {
        return Stream.of(frame.getFields())
                .filter(field -> !Modifier.isStatic(field.getModifiers()))
                .count();
    }

    @Test
    void shouldListEveryFieldOfBothFramesOnce() {
        assertThat(inputs()).hasSize((int) publicFields(Inputs.class));
        assertThat(TickField.values()).hasSize((int) (publicFields(Inputs.class) + publicFields(Outputs.class)));
        assertThat(Arrays.stream(TickField.values()).map(TickField::columnName)).doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @EnumSource(TickField.class)
    void shouldSetOnlyTheOneInputItNames(TickField field) {
        if (!field.isInput()) {
            assertThatThrownBy(() -> field.set(in, 1))
                    .isInstanceOf(IllegalStateException.class)
                    .hasMessageContaining(field.columnName());
            return;
        }
        for (TickField input : inputs()) {
            input.set(in, 0);
        }
        field.set(in, 1);
        for (TickField input : inputs()) {
            assertThat(input.get(in, out)).as(input.columnName()).isEqualTo(input == field ? 1 : 0);
        }
    }

    @Test
    void shouldKeepARangeThatIsNotKnown() {
        in.selectedRange = null;
        double value = TickField.SELECTED_RANGE.get(in, out);
        assertThat(TickField.SELECTED_RANGE.text(in, out)).isEmpty();

        in.selectedRange = Range.DRIVE;
        TickField.SELECTED_RANGE.set(in, value);

        assertThat(in.selectedRange).isNull();
    }

    /** Changes each output alone and sees which column shows it. */
    @Test
    void shouldShowEachOutputInItsOwnColumn() throws IllegalAccessException {
        List<TickField> outputs =
                Arrays.stream(TickField.values()).filter(f -> !f.isInput()).toList();
        var fields = Arrays.stream(Outputs.class.getFields()).toList();
        assertThat(fields).hasSameSizeAs(outputs);
        for (int i = 0; i < fields.size(); i++) {
            Outputs changed = new Outputs();
            Class<?> type = fields.get(i).getType();
            if (type == boolean.class) {
                fields.get(i).set(changed, true);
            } else if (type == double.class) {
                fields.get(i).set(changed, 3.0);
            } else if (type == long.class) {
                fields.get(i).set(changed, 3L);
            } else if (type == int.class) {
                fields.get(i).set(changed, 3);
            } else {
                Object[] values = type.getEnumConstants();
                fields.get(i).set(changed, fields.get(i).get(changed) == values[0] ? values[1] : values[0]);
            }
            for (int k = 0; k < outputs.size(); k++) {
                double before = outputs.get(k).get(in, out);
                double after = outputs.get(k).get(in, changed);
                assertThat(Double.compare(before, after) != 0)
                        .as("%s and %s", fields.get(i).getName(), outputs.get(k))
                        .isEqualTo(i == k);
            }
        }
    }

    @Test
    void shouldWriteChoicesByNameAndWholeNumbersWithoutPoint() {
        in.selectedRange = Range.REVERSE;
        in.pickupEdgeCount = 4_503_599_627_370_495L;
        in.busVolts = 12.6;
        out.permission = DrivePermission.REDUCED;
        out.state = PumpState.OVERLAP;
        out.reason = SwitchReason.KEY_ON;
        out.torqueLimitNm = Double.POSITIVE_INFINITY;
        out.pumpWanted = true;

        assertThat(TickField.SELECTED_RANGE.text(in, out)).isEqualTo("REVERSE");
        assertThat(TickField.PICKUP_EDGE_COUNT.text(in, out)).isEqualTo("4503599627370495");
        assertThat(TickField.BUS_V.text(in, out)).isEqualTo("12.6");
        assertThat(TickField.PERMISSION.text(in, out)).isEqualTo("REDUCED");
        assertThat(TickField.STATE.text(in, out)).isEqualTo("OVERLAP");
        assertThat(TickField.REASON.text(in, out)).isEqualTo("KEY_ON");
        assertThat(TickField.TORQUE_LIMIT_NM.text(in, out)).isEqualTo("Infinity");
        assertThat(TickField.PUMP_WANTED.text(in, out)).isEqualTo("1");
        assertThat(TickField.OIL_C.text(in, out)).isEqualTo("NaN");
    }

    @Test
    void shouldEndAColumnNameWithItsUnit() {
        assertThat(TickField.LINE_PRESSURE_PA.columnName()).isEqualTo("line_pressure_pa");
        assertThat(TickField.LINE_PRESSURE_PA.unit()).isEqualTo("Pa");
        assertThat(TickField.KEY_ON.unit()).isEmpty();
    }
}

package linehold.controller.safety;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.Requirement;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Requirement("LH-PR-1")
class SenderCheckTest {
    private static final long MS = 1_000_000;
    private final SenderCheck sender = new SenderCheck(Calibration.builder().build());

    /**
     * Published behaviour of 0.5 to 4.5 V senders on a 5 V supply, p = (V/Vs − 0.1)/0.8·FS; makers' data sheets agree on
     * 10 and 90 %. Full scale 2000 kPa: 0.5 V is 0, 2.5 V is 1000, 4.5 V is 2000 kPa, and 2.45 V of 4.9 V is 1000 kPa.
     */
    @ParameterizedTest
    @CsvSource({"0.5, 5, 0", "2.5, 5, 1e6", "4.5, 5, 2e6", "2.45, 4.9, 1e6"})
    void shouldReadPressureAsAShareOfItsSupply(double volts, double supplyVolts, double pascal) {
        sender.update(0, volts, supplyVolts);

        assertThat(sender.pressurePa()).isCloseTo(pascal, within(1e-6));
        assertThat(sender.lost()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "0.249, 5, true",
        "0.25, 5, false",
        "4.75, 5, false",
        "4.751, 5, true",
        "NaN, 5, true",
        "2.5, NaN, true",
        "2.5, 0, true",
        "0, 0, true",
        "2.5, -5, true"
    })
    void shouldBeLostOutsideItsBandOnceConfirmed(double volts, double supplyVolts, boolean lost) {
        sender.update(0, volts, supplyVolts);
        sender.update(49 * MS, volts, supplyVolts);
        assertThat(sender.lost()).isFalse();
        sender.update(50 * MS, volts, supplyVolts);

        assertThat(sender.lost()).isEqualTo(lost);
        assertThat(Double.isNaN(sender.pressurePa())).isEqualTo(lost);
    }

    @Test
    void shouldKeepTheLastGoodPressureUntilTheLossIsConfirmed() {
        assertThat(sender.pressurePa()).isNaN();
        sender.update(0, 2.5, 5);
        sender.update(5 * MS, 5, 5);
        assertThat(sender.pressurePa()).isCloseTo(1e6, within(1e-6));
        sender.update(10 * MS, 2.1, 5);
        assertThat(sender.pressurePa()).isCloseTo(8e5, within(1e-6));
    }

    @Test
    void shouldTrustAReturnedSenderOnlyAfterAWhile() {
        sender.update(0, 0, 5);
        sender.update(50 * MS, 0, 5);
        sender.update(100 * MS, 2.5, 5);
        sender.update(2099 * MS, 2.5, 5);
        assertThat(sender.lost()).isTrue();
        assertThat(sender.pressurePa()).isNaN();
        sender.update(2100 * MS, 2.5, 5);
        assertThat(sender.lost()).isFalse();
        assertThat(sender.pressurePa()).isCloseTo(1e6, within(1e-6));
    }

    @Test
    void shouldNeitherReadNorLoseASenderThatIsNotFitted() {
        SenderCheck none = new SenderCheck(
                Calibration.builder().set(Key.SENDER_FITTED, false).build());
        none.update(0, 0, 5);
        none.update(1000 * MS, 0, 5);
        none.update(2000 * MS, 2.5, 5);

        assertThat(none.lost()).isFalse();
        assertThat(none.pressurePa()).isNaN();
    }
}

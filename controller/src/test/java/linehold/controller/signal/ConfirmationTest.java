package linehold.controller.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ConfirmationTest {
    @Test
    void shouldConfirmOnlyWhatLastsForTheRiseTime() {
        Confirmation confirmation = new Confirmation(20, 0);

        assertThat(confirmation.update(true, 100)).isFalse();
        assertThat(confirmation.update(true, 119)).isFalse();
        assertThat(confirmation.update(true, 120)).isTrue();
        assertThat(confirmation.confirmed()).isTrue();
    }

    @Test
    void shouldStartAnewAfterEveryInterruption() {
        Confirmation confirmation = new Confirmation(20, 0);
        confirmation.update(true, 100);
        confirmation.update(false, 115);

        assertThat(confirmation.update(true, 116)).isFalse();
        assertThat(confirmation.update(true, 135)).isFalse();
        assertThat(confirmation.update(true, 136)).isTrue();
    }

    @Test
    void shouldConfirmInTheSameTickWhenTheTimeIsZero() {
        Confirmation confirmation = new Confirmation(0, 0);

        assertThat(confirmation.update(true, 7)).isTrue();
        assertThat(confirmation.update(false, 7)).isFalse();
    }

    @Test
    void shouldGoOnlyAfterTheFallTime() {
        Confirmation confirmation = new Confirmation(0, 50);
        confirmation.update(true, 0);

        assertThat(confirmation.update(false, 10)).isTrue();
        assertThat(confirmation.update(true, 40)).isTrue();
        assertThat(confirmation.update(false, 50)).isTrue();
        assertThat(confirmation.update(false, 99)).isTrue();
        assertThat(confirmation.update(false, 100)).isFalse();
    }

    @Test
    void shouldForgetEverythingOnReset() {
        Confirmation confirmation = new Confirmation(20, 20);
        confirmation.update(true, 0);
        confirmation.update(true, 20);
        confirmation.reset();

        assertThat(confirmation.confirmed()).isFalse();
        assertThat(confirmation.update(true, 30)).isFalse();
        confirmation.reset();
        assertThat(confirmation.update(true, 55)).isFalse();
        assertThat(confirmation.update(true, 75)).isTrue();
    }
}

package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class OutboxTest {
    private final Outbox outbox =
            new Outbox(4, loss -> bytes("lost " + loss.count() + " " + loss.first() + "-" + loss.last()));
    private long seq;

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private void event() {
        outbox.event(seq, bytes("event " + seq));
        seq++;
    }

    private void sample(String name) {
        outbox.sample(bytes("sample " + name));
    }

    private static String text(Message message) {
        return message == null ? null : new String(message.payload(), StandardCharsets.UTF_8);
    }

    private List<String> rest() throws InterruptedException {
        List<String> texts = new ArrayList<>();
        for (Message next = outbox.take(0); next != null; next = outbox.take(0)) {
            texts.add(text(next));
        }
        return texts;
    }

    @Test
    void shouldGiveEventsAndSamplesInTheOrderInWhichTheyCame() throws InterruptedException {
        sample("a");
        event();
        sample("b");
        event();
        assertThat(rest()).containsExactly("sample a", "event 0", "sample b", "event 1");
    }

    @Test
    void shouldDropTheOldestSampleBeforeAnyEvent() throws InterruptedException {
        event();
        sample("a");
        sample("b");
        event();
        event();
        assertThat(rest()).containsExactly("event 0", "sample b", "event 1", "event 2");
        assertThat(outbox.lostEvents()).isZero();
    }

    @Test
    void shouldNotTakeASampleWhereItIsFullOfEvents() throws InterruptedException {
        for (int i = 0; i < 4; i++) {
            event();
        }
        sample("a");
        assertThat(rest()).containsExactly("event 0", "event 1", "event 2", "event 3");
    }

    @Test
    void shouldTellInTheirPlaceWhichEventsWereDropped() throws InterruptedException {
        for (int i = 0; i < 7; i++) {
            event();
        }
        assertThat(rest()).containsExactly("lost 3 0-2", "event 3", "event 4", "event 5", "event 6");
        assertThat(outbox.lostEvents()).isEqualTo(3);
    }

    @Test
    void shouldTellALossAgainWhereTellingItFailedAndItHasGrown() throws InterruptedException {
        for (int i = 0; i < 5; i++) {
            event();
        }
        Message notice = outbox.take(0);
        assertThat(text(notice)).isEqualTo("lost 1 0-0");
        event();
        outbox.putBack(notice);
        assertThat(rest()).containsExactly("lost 2 0-1", "event 2", "event 3", "event 4", "event 5");
    }

    @Test
    void shouldKeepTheEventThatIsUnderWayWhereLaterOnesAreDropped() throws InterruptedException {
        for (int i = 0; i < 4; i++) {
            event();
        }
        Message underWay = outbox.take(0);
        for (int i = 0; i < 3; i++) {
            event();
        }
        outbox.putBack(underWay);
        assertThat(rest()).containsExactly("event 0", "lost 2 1-2", "event 3", "event 4", "event 5", "event 6");
    }

    @Test
    void shouldGiveBackInOrderWhatCouldNotBeDelivered() throws InterruptedException {
        sample("a");
        event();
        Message sample = outbox.take(0);
        outbox.putBack(sample);
        assertThat(text(outbox.take(0))).isEqualTo("sample a");
        Message event = outbox.take(0);
        sample("b");
        outbox.putBack(event);
        assertThat(rest()).containsExactly("event 0", "sample b");
    }

    @Test
    void shouldGiveTheNewestStateAloneAndBehindItsEvents() throws InterruptedException {
        event();
        outbox.state(bytes("state 0"));
        event();
        outbox.state(bytes("state 1"));
        event();
        assertThat(rest()).containsExactly("event 0", "event 1", "state 1", "event 2");
        outbox.tellStateAgain();
        assertThat(rest()).containsExactly("state 1");
    }

    @Test
    void shouldTellAStateAgainThatCouldNotBeDelivered() throws InterruptedException {
        outbox.state(bytes("state"));
        outbox.putBack(outbox.take(0));
        assertThat(rest()).containsExactly("state");
    }

    @Test
    void shouldStillGiveWhatIsThereAfterItsEnd() throws InterruptedException {
        event();
        outbox.close();
        outbox.pause(60_000);
        assertThat(text(outbox.take(60_000))).isEqualTo("event 0");
        assertThat(outbox.take(60_000)).isNull();
    }
}

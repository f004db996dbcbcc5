package linehold.simulator.electrics;

import static org.assertj.core.api.Assertions.assertThat;

import linehold.simulator.build.RelaySpec;
import linehold.simulator.electrics.RelayContact.Failure;
import org.junit.jupiter.api.Test;

class RelayContactTest {
    /** Pull-in 12 ms, drop-out 8 ms, bounce 2 ms. */
    private static final RelaySpec RELAY = new RelaySpec(0.012, 0.008, 0.002, 0.005);

    /** One letter for each quarter of a millisecond from 0: C closed, o open, read just after each instant. */
    private static String timeline(RelayContact contact, double toS) {
        StringBuilder letters = new StringBuilder();
        for (int i = 0; i * 0.25e-3 < toS - 1e-9; i++) {
            double nowS = i * 0.25e-3 + 1e-7;
            while (contact.nextChangeS() <= nowS) {
                contact.change(contact.nextChangeS());
            }
            letters.append(contact.isClosed() ? 'C' : 'o');
        }
        return letters.toString();
    }

    @Test
    void shouldEqualWhatIsAskedAtTheFirstInstant() {
        assertThat(new RelayContact(RELAY, true, true).isClosed()).isTrue();
        assertThat(new RelayContact(RELAY, true, false).isClosed()).isFalse();
    }

    @Test
    void shouldCloseAfterThePullInTimeAndBounceEveryHalfMillisecond() {
        RelayContact contact = new RelayContact(RELAY, true, false);
        contact.ask(0, true);
        assertThat(timeline(contact, 0.016)).isEqualTo("o".repeat(48) + "CCooCCoo" + "C".repeat(8));
        assertThat(contact.moves()).isEqualTo(1);
    }

    @Test
    void shouldCloseAtOnceAfterThePullInTimeWithoutBounce() {
        RelayContact contact = new RelayContact(RELAY, false, false);
        contact.ask(0, true);
        assertThat(timeline(contact, 0.016)).isEqualTo("o".repeat(48) + "C".repeat(16));
    }

    @Test
    void shouldOpenAfterTheDropOutTimeWithoutBounce() {
        RelayContact contact = new RelayContact(RELAY, true, true);
        contact.ask(0, false);
        assertThat(timeline(contact, 0.010)).isEqualTo("C".repeat(32) + "o".repeat(8));
    }

    @Test
    void shouldEndClosedWhenTheBounceTimeIsNoMultipleOfAPhase() {
        RelayContact contact = new RelayContact(new RelaySpec(0, 0.008, 0.00075, 0.005), true, false);
        contact.ask(0, true);
        assertThat(timeline(contact, 0.0015)).isEqualTo("CCoCCC");
    }

    @Test
    void shouldNotMoveOnAPulseShorterThanThePullInTime() {
        RelayContact contact = new RelayContact(RELAY, true, false);
        contact.ask(0, true);
        contact.ask(0.0119, false);
        assertThat(timeline(contact, 0.05)).isEqualTo("o".repeat(200));
        assertThat(contact.moves()).isZero();
    }

    @Test
    void shouldNotMoveOnAGapShorterThanTheDropOutTime() {
        RelayContact contact = new RelayContact(RELAY, true, true);
        contact.ask(0, false);
        contact.ask(0.0079, true);
        assertThat(timeline(contact, 0.05)).isEqualTo("C".repeat(200));
    }

    @Test
    void shouldCountTheDelayFromTheLastChangeOfTheCoil() {
        RelayContact contact = new RelayContact(RELAY, false, false);
        contact.ask(0, true);
        contact.ask(0.010, false);
        contact.ask(0.011, true);
        contact.ask(0.011, true);
        assertThat(contact.nextChangeS()).isEqualTo(0.011 + 0.012);
    }

    @Test
    void shouldOpenFromTheMiddleOfItsBounceAndStayOpen() {
        RelayContact contact = new RelayContact(new RelaySpec(0, 0.001, 0.002, 0.005), true, false);
        contact.ask(0, true);
        contact.change(0);
        contact.ask(0.0002, false);
        // closed at 0, bounced open at 0.5 ms, closed at 1 ms, dropped out at 1.2 ms
        assertThat(timeline(contact, 0.003)).isEqualTo("CCooC" + "o".repeat(7));
    }

    @Test
    void shouldMoveAtTheSameInstantWithoutDelays() {
        RelayContact contact = new RelayContact(new RelaySpec(0, 0, 0, 0), true, false);
        contact.ask(0.5, true);
        assertThat(contact.nextChangeS()).isEqualTo(0.5);
        contact.change(0.5);
        assertThat(contact.isClosed()).isTrue();
        assertThat(contact.nextChangeS()).isInfinite();
    }

    @Test
    void shouldStayClosedWhenWeldedAndOpenWhenStuckAndRecover() {
        RelayContact contact = new RelayContact(RELAY, false, false);
        contact.setFailure(Failure.WELDED);
        assertThat(contact.isClosed()).isTrue();
        contact.ask(0, true);
        contact.change(0.012);
        contact.setFailure(Failure.STUCK_OPEN);
        assertThat(contact.isClosed()).isFalse();
        contact.setFailure(Failure.NONE);
        assertThat(contact.isClosed()).isTrue();
    }

    @Test
    void shouldShareTheCurrentBetweenTwoClosedContacts() {
        PumpFeed feed = new PumpFeed(RELAY, RELAY, false, true);
        feed.setResistance(Relay.MAIN, 0.03);
        assertThat(feed.resistanceOhm()).isEqualTo(0.03);
        feed.contact(Relay.STANDBY).ask(0, true);
        feed.change(feed.nextChangeS());
        feed.setResistance(Relay.STANDBY, 0.06);
        assertThat(feed.resistanceOhm()).isEqualTo(0.02);
        feed.setResistance(Relay.STANDBY, 0);
        feed.setResistance(Relay.MAIN, 0);
        assertThat(feed.resistanceOhm()).isZero();
    }
}

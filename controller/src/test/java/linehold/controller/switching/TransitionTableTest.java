package linehold.controller.switching;

import static linehold.controller.switching.PumpState.ELECTRIC;
import static linehold.controller.switching.PumpState.HELP;
import static linehold.controller.switching.PumpState.INTERNAL;
import static linehold.controller.switching.PumpState.OFF;
import static linehold.controller.switching.PumpState.OVERLAP;
import static linehold.controller.switching.PumpState.PRIME;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import linehold.controller.Requirement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Every state against every state, in every situation there can be. */
class TransitionTableTest {
    private static final int FACTS = 12;

    /** Written by hand from the requirements, not from the table. */
    private static final Map<PumpState, Set<PumpState>> LEGAL = new EnumMap<>(Map.of(
            OFF, EnumSet.of(PRIME),
            PRIME, EnumSet.of(OFF, ELECTRIC),
            ELECTRIC, EnumSet.of(OFF, OVERLAP),
            OVERLAP, EnumSet.of(ELECTRIC, INTERNAL),
            INTERNAL, EnumSet.of(ELECTRIC, HELP),
            HELP, EnumSet.of(ELECTRIC, OVERLAP)));

    private static Situation situation(int bits) {
        Situation s = new Situation();
        s.keyOn = (bits & 1) != 0;
        s.standstillConfirmed = (bits & 2) != 0;
        s.belowSwitchOn = (bits & 4) != 0;
        s.aboveSwitchOff = (bits & 8) != 0;
        s.handOverReady = (bits & 16) != 0;
        s.pressureLow = (bits & 32) != 0;
        s.pressureLost = (bits & 64) != 0;
        s.carrySpeedNear = (bits & 128) != 0;
        s.braking = (bits & 256) != 0;
        s.primed = (bits & 512) != 0;
        s.mayStop = (bits & 1024) != 0;
        s.restarted = (bits & 2048) != 0;
        return s;
    }

    private static List<Situation> everySituation() {
        List<Situation> all = new ArrayList<>();
        for (int bits = 0; bits < 1 << FACTS; bits++) {
            all.add(situation(bits));
        }
        return all;
    }

    private static PumpState next(PumpState from, Situation s) {
        for (Transition row : Transition.leaving(from)) {
            if (row.guard().holds(s)) {
                return row.to();
            }
        }
        return from;
    }

    @Test
    @Requirement({"LH-SW-1", "LH-SW-2", "LH-SW-9"})
    void shouldHaveARowForExactlyTheLegalPairs() {
        for (PumpState from : PumpState.values()) {
            for (PumpState to : PumpState.values()) {
                assertThat(Transition.TABLE.stream().anyMatch(row -> row.from() == from && row.to() == to))
                        .as("%s to %s", from, to)
                        .isEqualTo(LEGAL.get(from).contains(to));
            }
        }
    }

    @Test
    @Requirement({"LH-SW-1", "LH-SW-2", "LH-SW-9"})
    void shouldReachEveryLegalPairAndNoOther() {
        for (PumpState from : PumpState.values()) {
            Set<PumpState> reached = EnumSet.noneOf(PumpState.class);
            for (Situation s : everySituation()) {
                reached.add(next(from, s));
            }
            reached.remove(from);
            assertThat(reached).as("from %s", from).isEqualTo(LEGAL.get(from));
        }
    }

    @Test
    @Requirement({"LH-SW-1", "LH-SW-4"})
    void shouldSwitchOnInTheSameTickWheneverTheShaftIsSlow() {
        for (Situation s : everySituation()) {
            if (s.belowSwitchOn) {
                assertThat(next(INTERNAL, s)).isEqualTo(ELECTRIC);
                assertThat(next(HELP, s)).isEqualTo(ELECTRIC);
            }
        }
    }

    @Test
    @Requirement({"LH-SW-5", "LH-SW-6", "LH-SW-7", "LH-PR-2"})
    void shouldSwitchOnInTheSameTickWheneverHelpIsWanted() {
        for (Situation s : everySituation()) {
            boolean wanted = s.pressureLow || s.pressureLost || s.carrySpeedNear || s.braking;
            if (wanted) {
                assertThat(next(INTERNAL, s).pumpRuns()).isTrue();
            } else if (!s.belowSwitchOn) {
                assertThat(next(INTERNAL, s)).isEqualTo(INTERNAL);
            }
        }
    }

    @Test
    @Requirement({"LH-SW-2", "LH-SW-4", "LH-SW-8"})
    void shouldNeverStopThePumpUnlessItMayStopAndNothingWantsIt() {
        for (PumpState from : PumpState.values()) {
            for (Situation s : everySituation()) {
                if (!from.pumpRuns() || next(from, s).pumpRuns()) {
                    continue;
                }
                assertThat(s.mayStop).isTrue();
                if (next(from, s) == OFF) {
                    assertThat(s.keyOn).isFalse();
                    assertThat(s.standstillConfirmed).isTrue();
                } else {
                    assertThat(s.handOverReady && s.aboveSwitchOff).isTrue();
                    assertThat(s.pressureLow || s.pressureLost || s.carrySpeedNear || s.braking)
                            .isFalse();
                }
            }
        }
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldStayOffUntilTheKeyIsOnOrTheUnitRestartsInARollingCar() {
        for (Situation s : everySituation()) {
            assertThat(next(OFF, s)).isEqualTo(s.keyOn || s.restarted ? PRIME : OFF);
        }
    }

    @Test
    @Requirement("LH-SW-9")
    void shouldNeverLeavePrimeTowardsDriveWithTheKeyOff() {
        for (Situation s : everySituation()) {
            assertThat(next(PRIME, s) == ELECTRIC).isEqualTo(s.keyOn && s.primed);
        }
    }

    @Test
    void shouldReturnFromHelpOnlyAtSpeedAndWithNothingWanted() {
        for (Situation s : everySituation()) {
            boolean wanted = s.pressureLow || s.pressureLost || s.carrySpeedNear || s.braking;
            assertThat(next(HELP, s) == OVERLAP).isEqualTo(!s.belowSwitchOn && s.aboveSwitchOff && !wanted);
        }
    }

    @Test
    void shouldGiveEveryReasonButPowerUpAndNoneTwiceFromOneState() {
        Set<SwitchReason> given = EnumSet.of(SwitchReason.POWER_UP);
        for (PumpState from : PumpState.values()) {
            Set<SwitchReason> ofState = EnumSet.noneOf(SwitchReason.class);
            for (Transition row : Transition.leaving(from)) {
                assertThat(ofState.add(row.reason())).as("%s", row).isTrue();
                assertThat(row.when()).isNotBlank();
            }
            given.addAll(ofState);
        }
        assertThat(given).isEqualTo(EnumSet.allOf(SwitchReason.class));
    }

    @ParameterizedTest
    @EnumSource(PumpState.class)
    void shouldRunThePumpInEveryStateButOffAndInternal(PumpState state) {
        assertThat(state.pumpRuns()).isEqualTo(state != OFF && state != INTERNAL);
        assertThat(state.meaning()).endsWith(".");
    }
}

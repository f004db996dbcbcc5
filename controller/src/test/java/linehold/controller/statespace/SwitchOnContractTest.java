package linehold.controller.statespace;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import linehold.controller.Controller;
import linehold.controller.Requirement;
import linehold.controller.TestCar;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.statespace.ControllerMemory.Saved;
import linehold.controller.switching.PumpState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the certificate asks of the controller (docs/certificate.md): as soon as the edges show a speed below the switch-on
 * speed the pump is commanded, {@link Controller#SWITCH_ON_TICKS} tick later at most, and not off again while the shaft
 * stays below the switch-off speed. Tried with the real controller in every pump state after PRIME with its timers in every
 * stage, at every phase of the teeth and of the tick (in steps), for gentle to hardest falls, without a fault.
 */
class SwitchOnContractTest {
    private static final double RPM = Math.PI / 30;
    private static final double ON_RPM = 500;
    private static final double OFF_RPM = 600;
    private static final double PERIOD_S = TestCar.PERIOD_NS * 1e-9;
    private static final double HISTORY_RPM_PER_S = 2000;
    private static final int TOOTH_PHASES = 8;
    private static final int TICK_PHASES = 5;
    private static final double[] FALLS_RPM_PER_S = {400, 1500, 4500, 15_000, 60_000};
    private static final double[] ENDS_RPM = {0, ON_RPM - 1};

    /** Where a fall begins: the controller and the car around it. */
    private record Before(
            Saved memory,
            PumpState state,
            long nowNs,
            double rpm,
            double pulses,
            long edges,
            long lastEdgeNs,
            double shownRpm,
            double contactVolts,
            double senderVolts) {}

    private final Map<PumpState, Integer> begun = new EnumMap<>(PumpState.class);
    private TestCar car;
    private ControllerMemory memory;
    private int mostTicks;
    private long falls;

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 120})
    @Requirement({"LH-SW-1", "LH-SP-1"})
    void shouldCommandThePumpInTheTickThatTheEdgesAllowInEveryState(int pulsesPerRev) {
        for (Calibration calibration : calibrations(pulsesPerRev)) {
            for (int i = 0; i < TOOTH_PHASES; i++) {
                for (Before before : history(calibration, (double) i / TOOTH_PHASES)) {
                    begun.merge(before.state(), 1, Integer::sum);
                    fallAtEveryTickPhase(before, pulsesPerRev);
                }
            }
        }
        System.out.printf("Switch-on contract, %d pulses: %d falls from %s.%n", pulsesPerRev, falls, begun);
        assertThat(begun).containsOnlyKeys(PumpState.ELECTRIC, PumpState.OVERLAP, PumpState.INTERNAL, PumpState.HELP);
        assertThat(mostTicks).isEqualTo(Controller.SWITCH_ON_TICKS);
    }

    @Test
    @Requirement({"LH-SW-1", "LH-SW-2"})
    void shouldNotSwitchOffWhileTheShaftStaysBelowTheSwitchOffSpeed() {
        for (Calibration calibration : calibrations(4)) {
            for (Before before : history(calibration, 0.3)) {
                restore(before);
                double rpm = before.rpm();
                while (car.rpm > ON_RPM - 50) {
                    car.rampTick(ON_RPM - 50, 4500);
                }
                // Seen by now; then everything below the switch-off speed, far longer than the minimum run time.
                car.run(0.1);
                for (double target : new double[] {0, OFF_RPM - 1, ON_RPM + 1, OFF_RPM - 1}) {
                    while (car.rpm != target) {
                        car.rampTick(target, 3000);
                        assertThat(car.out.pumpWanted)
                                .as("from %s at %s rpm", before.state(), rpm)
                                .isTrue();
                    }
                    for (int i = 0; i < 600; i++) {
                        car.tick();
                        assertThat(car.out.pumpWanted)
                                .as("from %s at %s rpm", before.state(), rpm)
                                .isTrue();
                    }
                }
            }
        }
    }

    private static List<Calibration> calibrations(int pulsesPerRev) {
        Calibration.Builder plain = Calibration.builder().set(Key.PULSES_PER_REVOLUTION, pulsesPerRev);
        Calibration all = plain.build();
        return List.of(
                all,
                all.toBuilder()
                        .set(Key.NORMALLY_CLOSED_CONTACT, true)
                        .set(Key.STANDBY_RELAY_FITTED, true)
                        .set(Key.RELAY_OPERATIONS_PER_MINUTE, 4)
                        .build(),
                all.toBuilder()
                        .set(Key.SENDER_FITTED, false)
                        .set(Key.HELP_PRESSURE, 0)
                        .set(Key.BRAKE_FITTED, false)
                        .set(Key.BRAKE_SWITCH_ON_SPEED, 0)
                        .set(Key.FALLING_SPEED_PREDICTION, false)
                        .build());
    }

    /** A drive through every state; one beginning of each kind. */
    private List<Before> history(Calibration calibration, double toothPhase) {
        car = new TestCar(calibration);
        car.phasePulses = toothPhase;
        memory = new ControllerMemory(car.controller, Set.of());
        List<Before> found = new ArrayList<>();
        Set<String> kinds = new HashSet<>();
        car.run(1);
        for (int round = 0; round < 3; round++) {
            drive(found, kinds, 1200, 3.5);
            car.in.brakeApplied = true;
            drive(found, kinds, 1200, 2.6);
            car.in.brakeApplied = false;
            drive(found, kinds, 1200, 1);
            car.pressureBar(4.1);
            drive(found, kinds, 900, 0.5);
            car.pressureBar(8);
            drive(found, kinds, 900, 3);
            drive(found, kinds, OFF_RPM + 5, 1);
            drive(found, kinds, ON_RPM + 5, 0.5);
            drive(found, kinds, 300, 0.3);
            drive(found, kinds, OFF_RPM - 5, 0.5);
        }
        return found;
    }

    private void drive(List<Before> found, Set<String> kinds, double rpm, double seconds) {
        int ticks = (int) Math.round(seconds / PERIOD_S);
        int sinceChange = 0;
        PumpState state = car.out.state;
        for (int i = 0; i < ticks; i++) {
            car.rampTick(rpm, HISTORY_RPM_PER_S);
            sinceChange = car.out.state == state ? sinceChange + 1 : 0;
            state = car.out.state;
            boolean begins = state != PumpState.OFF && state != PumpState.PRIME && car.rpm > ON_RPM;
            // The first ticks of a state, then at growing distances: its timers are then in every stage.
            boolean stage = sinceChange < 3 || Integer.bitCount(sinceChange) == 1;
            if (begins && stage && car.out.activeCodes == 0 && kinds.add(state + " " + sinceChange + " " + rpm)) {
                found.add(new Before(
                        memory.save(),
                        state,
                        car.nowNs,
                        car.rpm,
                        car.phasePulses,
                        car.in.pickupEdgeCount,
                        car.in.pickupLastEdgeNs,
                        car.seenRpm(),
                        car.in.mainContactVolts,
                        car.in.pressureSenderVolts));
            }
        }
    }

    private void restore(Before before) {
        memory.restore(before.memory());
        car.nowNs = before.nowNs();
        car.rpm = before.rpm();
        car.phasePulses = before.pulses();
        car.in.pickupEdgeCount = before.edges();
        car.in.pickupLastEdgeNs = before.lastEdgeNs();
        car.in.mainContactVolts = before.contactVolts();
        car.in.standbyContactVolts = before.contactVolts();
        car.in.pressureSenderVolts = before.senderVolts();
        car.in.brakeApplied = false;
    }

    private void fallAtEveryTickPhase(Before before, int pulsesPerRev) {
        for (int i = 0; i < TICK_PHASES; i++) {
            for (double rate : FALLS_RPM_PER_S) {
                for (double end : ENDS_RPM) {
                    restore(before);
                    new Fall(before, pulsesPerRev, i * PERIOD_S / TICK_PHASES, rate, end).run();
                    falls++;
                }
            }
        }
    }

    /** One fall in closed form, its edges, and what they show by LH-SP-1, reckoned here and not by the controller. */
    private final class Fall {
        private final Before before;
        private final double pulsesPerRpmS;
        private final double pitchRad;
        private final double beginS;
        private final double rate;
        private final double end;
        private long lastEdgeNs;
        /** Edge time that ended the last mean of the switch-on speed or more, s after the beginning. */
        private double showsOnS = Double.NaN;

        private double shownRpm = Double.NaN;

        Fall(Before before, int pulsesPerRev, double beginS, double rate, double end) {
            this.before = before;
            this.beginS = beginS;
            this.rate = rate;
            this.end = end;
            pulsesPerRpmS = pulsesPerRev / 60.0;
            pitchRad = 2 * Math.PI / pulsesPerRev;
            lastEdgeNs = before.lastEdgeNs();
        }

        void run() {
            double pulseS = pitchRad / (ON_RPM * RPM);
            double longestS = (before.rpm() - ON_RPM) / rate + 3 * pulseS + 0.1;
            int below = 0;
            for (int k = 1; k * PERIOD_S < longestS; k++) {
                tick(k);
                boolean shows = shown(k) < ON_RPM * (1 - 1e-6);
                below = shows ? below + 1 : 0;
                if (shows && car.out.pumpWanted) {
                    mostTicks = Math.max(mostTicks, below);
                    if (below == 1) {
                        checkWorstBeginning(k * PERIOD_S, pulseS);
                    }
                    return;
                }
            }
            throw new AssertionError("not switched on: " + before + ", " + rate + " rpm/s from " + beginS + " s");
        }

        private void tick(int k) {
            double fromS = (k - 1) * PERIOD_S;
            double toS = k * PERIOD_S;
            long first = (long) Math.floor(pulses(fromS)) + 1;
            long last = (long) Math.floor(pulses(toS));
            if (last >= first) {
                double low = fromS;
                double high = toS;
                for (int i = 0; i < 60; i++) {
                    double middle = 0.5 * (low + high);
                    if (pulses(middle) < last) {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                long edgeNs = before.nowNs() + Math.round(high * 1e9);
                double spanS = (edgeNs - lastEdgeNs) * 1e-9;
                shownRpm = (last - first + 1) * pitchRad / spanS / RPM;
                if (shownRpm >= ON_RPM) {
                    showsOnS = high;
                }
                lastEdgeNs = edgeNs;
                car.in.pickupEdgeCount += last - first + 1;
                car.in.pickupLastEdgeNs = edgeNs;
            }
            car.nowNs = before.nowNs() + k * TestCar.PERIOD_NS;
            car.step();
        }

        /** LH-SP-1: the mean to the last edge, or one pulse over the time since. */
        private double shown(int k) {
            double sinceS = (before.nowNs() + k * TestCar.PERIOD_NS - lastEdgeNs) * 1e-9;
            double bound = pitchRad / sinceS / RPM;
            return Math.min(Double.isNaN(shownRpm) ? before.shownRpm() : shownRpm, bound);
        }

        /** Pulses turned at a time after the last tick before the fall. */
        private double pulses(double s) {
            double steady = Math.min(s, beginS);
            double fallingS = Math.max(0, s - beginS);
            double untilEndS = Math.min(fallingS, (before.rpm() - end) / rate);
            double turned = before.rpm() * steady
                    + before.rpm() * untilEndS
                    - rate * untilEndS * untilEndS / 2
                    + end * (fallingS - untilEndS);
            return before.pulses() + pulsesPerRpmS * turned;
        }

        private double rpm(double s) {
            return Math.max(end, before.rpm() - rate * Math.max(0, s - beginS));
        }

        /** The certificate's worst beginning: n at that edge at least n_on − α·W/2, commanded P + one tick after it. */
        private void checkWorstBeginning(double commandedS, double pulseS) {
            if (Double.isNaN(showsOnS)) {
                return;
            }
            double window = pulseS >= PERIOD_S ? pulseS : pulseS + PERIOD_S;
            assertThat(rpm(showsOnS))
                    .as("%s", before)
                    .isGreaterThanOrEqualTo(ON_RPM - Math.max(rate, HISTORY_RPM_PER_S) * window / 2 - 1e-3);
            assertThat(commandedS).as("%s", before).isLessThanOrEqualTo(showsOnS + pulseS + PERIOD_S + 1e-6);
        }
    }
}

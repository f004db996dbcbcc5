package linehold.simulator.fault;

import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicIntegerArray;
import linehold.simulator.build.Build;

/**
 * Faults that come and go while a car drives. Any thread may ask; the thread that drives does it at its next tick. There is
 * one place for each kind, so that no number of requests takes room or time from a tick. Nothing is allocated after
 * construction and nobody waits.
 */
public final class LiveFaults {
    /** Where one kind stands. */
    public enum State {
        ABSENT,
        /** Asked for, begins at the next tick. */
        COMING,
        PRESENT,
        /** Cleared, ends at the next tick. */
        GOING
    }

    private static final FaultKind[] KINDS = FaultKind.values();
    private static final State[] STATES = State.values();

    private final List<FaultKind> possible;
    private final AtomicIntegerArray states = new AtomicIntegerArray(KINDS.length);
    /** Since when, s; of the driving thread. */
    private final double[] sinceS = new double[KINDS.length];

    /** For a rig whose control unit is the program itself: faults of the unit cannot be put into it. */
    public LiveFaults(Build build) {
        possible = Arrays.stream(KINDS)
                .filter(kind -> kind.isIn(build) && kind.part() != FaultKind.Part.UNIT)
                .toList();
    }

    /** What can be asked for. */
    public List<FaultKind> possible() {
        return possible;
    }

    public State state(FaultKind kind) {
        return STATES[states.get(kind.ordinal())];
    }

    /**
     * The fault begins at the next tick, of its usual size, and lasts as long as is usual for it. One that is there already
     * goes on.
     *
     * @throws IllegalArgumentException for a kind that is not {@link #possible}
     */
    public void begin(FaultKind kind) {
        if (!possible.contains(kind)) {
            throw new IllegalArgumentException(kind.title() + " is not possible here");
        }
        move(kind, State.ABSENT, State.COMING);
    }

    /** The fault is gone at the next tick. One that is not there stays away. */
    public void clear(FaultKind kind) {
        if (!move(kind, State.COMING, State.ABSENT)) {
            move(kind, State.PRESENT, State.GOING);
        }
    }

    /** Brings every fault to the state that was asked for. For the thread that drives the car. */
    public void update(double nowS, FaultTargets targets) {
        boolean ended = false;
        for (FaultKind kind : KINDS) {
            int i = kind.ordinal();
            if (move(kind, State.COMING, State.PRESENT)) {
                sinceS[i] = nowS;
                kind.begin(targets, kind.usualSize());
            }
            boolean over = state(kind) == State.PRESENT && nowS - sinceS[i] >= kind.usualDurationS();
            if (over || state(kind) == State.GOING) {
                kind.end(targets);
                states.set(i, State.ABSENT.ordinal());
                ended = true;
            }
        }
        for (FaultKind kind : KINDS) {
            if (state(kind) == State.PRESENT) {
                sustain(kind, nowS, targets, ended);
            }
        }
    }

    /** Two faults can break the same thing: where one has ended, what the others do is done again. */
    private void sustain(FaultKind kind, double nowS, FaultTargets targets, boolean again) {
        if (again) {
            kind.begin(targets, kind.usualSize());
        }
        kind.during(targets, kind.usualSize(), nowS - sinceS[kind.ordinal()]);
    }

    private boolean move(FaultKind kind, State from, State to) {
        return states.compareAndSet(kind.ordinal(), from.ordinal(), to.ordinal());
    }
}

package linehold.rig.paper;

import java.nio.ByteBuffer;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/**
 * A whole run, tick by tick, from which a chart takes as many places as it can show. Where there are more ticks than
 * places, a place is two to some power of ticks, counted from the start of the run: as the picture moves, places keep
 * their ticks, and nothing flickers.
 */
public final class Trace implements TickListener, AutoCloseable {
    private final long periodNs;
    private final TickFile ticks = new TickFile();
    private final Extremes extremes = new Extremes();
    private final TraceLanes lanes;
    private int length;

    /**
     * A part of a run. Where {@code tickCount} is above one, a place holds the extremes of so many ticks, so that no dip is
     * lost between two points. The arrays have the same length.
     *
     * @param tickCount ticks in a place
     * @param periodS time between two ticks, s
     * @param endS last tick of the whole run, s; the first is at 0
     * @param stateBeforeS last change of the pump's state before the middle of what was asked, s; null where there is none
     * @param stateAfterS first change after it, s; null likewise
     * @param t time of the first tick of each place, s
     * @param pLow lowest line pressure, Pa
     * @param pHigh highest line pressure, Pa
     * @param nLow lowest shaft speed, rad/s, signed
     * @param nHigh highest shaft speed, rad/s, signed
     */
    public record Part(
            int tickCount,
            double periodS,
            double endS,
            Double stateBeforeS,
            Double stateAfterS,
            double[] t,
            float[] pLow,
            float[] pHigh,
            float[] nLow,
            float[] nHigh,
            TraceLanes.Part lanes) {
        private void put(int place, double atS, Extremes.Span span) {
            t[place] = atS;
            pLow[place] = span.pLow;
            pHigh[place] = span.pHigh;
            nLow[place] = span.nLow;
            nHigh[place] = span.nHigh;
        }
    }

    /** @param calibration of the controller that runs */
    public Trace(Calibration calibration) {
        periodNs = Math.round(calibration.get(Key.CONTROL_PERIOD) * 1e9);
        lanes = new TraceLanes(calibration.get(Key.CONTACT_CLOSED_FRACTION));
    }

    @Override
    public boolean tick(Moment moment) {
        if (Math.abs(moment.timeS - timeS(length)) > 1e-6) {
            throw new IllegalStateException("the ticks of a run must be evenly spaced, found one at " + moment.timeS);
        }
        lanes.add(length, moment);
        add((float) moment.lowestPressurePa, (float) moment.shaftRadPerS);
        return true;
    }

    void add(float pressurePa, float speedRadPerS) {
        ticks.add(pressurePa, speedRadPerS);
        extremes.add(pressurePa, speedRadPerS);
        length++;
    }

    /** After the last tick, before the first question. */
    void end() {
        ticks.flush();
        extremes.end();
    }

    private double timeS(long tick) {
        return tick * periodNs * 1e-9;
    }

    /** What it takes of disk and memory. */
    long bytes() {
        return ticks.bytes() + extremes.bytes() + lanes.bytes();
    }

    /** At most {@code points} places between two times, s; single ticks where they are no more than that. */
    public Part part(double fromS, double toS, int points) {
        int first = indexAt(fromS);
        int end = indexAt(Math.nextUp(toS));
        int shift = 0;
        while (end - first > points && (end - 1 >> shift) - (first >> shift) >= points) {
            shift++;
        }
        int places = end > first ? (end - 1 >> shift) - (first >> shift) + 1 : 0;
        double middle = (fromS + toS) / 2 / timeS(1);
        Part part = new Part(
                1 << shift,
                timeS(1),
                timeS(Math.max(0, length - 1)),
                known(lanes.stateBefore(middle - 1)),
                known(lanes.stateAfter(middle + 1)),
                new double[places],
                new float[places],
                new float[places],
                new float[places],
                new float[places],
                lanes.part(first, end, 1 << shift, timeS(1)));
        if (shift < Extremes.BASE_SHIFT) {
            fillFromTicks(part, first, end, shift);
        } else {
            fillFromBlocks(part, first, end, shift);
        }
        return part;
    }

    private Double known(int tick) {
        return tick < 0 ? null : timeS(tick);
    }

    private void fillFromTicks(Part part, int first, int end, int shift) {
        ByteBuffer read = ticks.read(first, end - first);
        Extremes.Span span = new Extremes.Span();
        int tick = first;
        for (int place = 0; place < part.t.length; place++) {
            double atS = timeS(tick);
            span.clear();
            int next = Math.min(end, (tick >> shift) + 1 << shift);
            for (; tick < next; tick++) {
                span.add(read.getFloat(), read.getFloat());
            }
            part.put(place, atS, span);
        }
    }

    private void fillFromBlocks(Part part, int first, int end, int shift) {
        Extremes.Span span = new Extremes.Span();
        for (int place = 0; place < part.t.length; place++) {
            int block = (first >> shift) + place;
            int from = Math.max(first, block << shift);
            int to = Math.min(end, block + 1 << shift);
            span.clear();
            if (to - from == 1 << shift) {
                extremes.addBlock(shift, block, span);
            } else {
                addAny(from, to, span);
            }
            part.put(place, timeS(from), span);
        }
    }

    /** A place at the edge, which is not a whole block. */
    private void addAny(int from, int to, Extremes.Span span) {
        int size = 1 << Extremes.BASE_SHIFT;
        int blocksFrom = (from + size - 1) / size;
        int blocksTo = to / size;
        if (blocksFrom >= blocksTo) {
            addTicks(from, to, span);
            return;
        }
        addTicks(from, blocksFrom * size, span);
        for (int block = blocksFrom; block < blocksTo; block++) {
            extremes.addBlock(Extremes.BASE_SHIFT, block, span);
        }
        addTicks(blocksTo * size, to, span);
    }

    private void addTicks(int from, int to, Extremes.Span span) {
        ByteBuffer read = ticks.read(from, to - from);
        while (read.hasRemaining()) {
            span.add(read.getFloat(), read.getFloat());
        }
    }

    /** The first tick that is not before a time. */
    private int indexAt(double atS) {
        int tick = (int) Math.max(0, Math.min(length, atS / timeS(1)));
        while (tick > 0 && timeS(tick - 1) >= atS) {
            tick--;
        }
        while (tick < length && timeS(tick) < atS) {
            tick++;
        }
        return tick;
    }

    @Override
    public void close() {
        ticks.close();
    }
}

package linehold.rig.paper;

import java.util.Arrays;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/** A whole run, tick by tick, from which a chart takes as many points as it can show. */
public final class Trace implements TickListener {
    private static final int FIRST_LENGTH = 1 << 14;

    private int length;
    private double[] timeS = new double[FIRST_LENGTH];
    private float[] pressurePa = new float[FIRST_LENGTH];
    private float[] speedRadPerS = new float[FIRST_LENGTH];
    private byte[] state = new byte[FIRST_LENGTH];

    /**
     * A part of a run. Where {@code single} is false, each place holds the extremes of the samples around it, so that no
     * dip is lost between two points. All arrays have the same length.
     *
     * @param t time of the first sample of each place, s
     * @param pLow lowest line pressure, Pa
     * @param pHigh highest line pressure, Pa
     * @param nLow lowest shaft speed, rad/s, signed
     * @param nHigh highest shaft speed, rad/s, signed
     * @param state ordinal of the controller's pump state at the first sample
     */
    public record Part(
            boolean single,
            double startS,
            double endS,
            double[] t,
            float[] pLow,
            float[] pHigh,
            float[] nLow,
            float[] nHigh,
            int[] state) {}

    @Override
    public boolean tick(Moment moment) {
        add(moment.timeS, moment.lowestPressurePa, moment.shaftRadPerS, moment.outputs.state.ordinal());
        return true;
    }

    void add(double atS, double pa, double radPerS, int stateOrdinal) {
        if (length == timeS.length) {
            int more = length * 2;
            timeS = Arrays.copyOf(timeS, more);
            pressurePa = Arrays.copyOf(pressurePa, more);
            speedRadPerS = Arrays.copyOf(speedRadPerS, more);
            state = Arrays.copyOf(state, more);
        }
        timeS[length] = atS;
        pressurePa[length] = (float) pa;
        speedRadPerS[length] = (float) radPerS;
        state[length] = (byte) stateOrdinal;
        length++;
    }

    /** At most {@code points} places between two times, s; single samples where they are no more than that. */
    public Part part(double fromS, double toS, int points) {
        int first = indexAt(fromS);
        int end = indexAt(Math.nextUp(toS));
        int samples = Math.max(0, end - first);
        int places = Math.min(samples, points);
        Part part = new Part(
                samples <= points,
                length == 0 ? 0 : timeS[0],
                length == 0 ? 0 : timeS[length - 1],
                new double[places],
                new float[places],
                new float[places],
                new float[places],
                new float[places],
                new int[places]);
        for (int place = 0; place < places; place++) {
            int from = first + (int) ((long) samples * place / places);
            int to = first + (int) ((long) samples * (place + 1) / places);
            fill(part, place, from, to);
        }
        return part;
    }

    private void fill(Part part, int place, int from, int to) {
        part.t[place] = timeS[from];
        part.state[place] = state[from];
        part.pLow[place] = part.pHigh[place] = pressurePa[from];
        part.nLow[place] = part.nHigh[place] = speedRadPerS[from];
        for (int i = from + 1; i < to; i++) {
            part.pLow[place] = Math.min(part.pLow[place], pressurePa[i]);
            part.pHigh[place] = Math.max(part.pHigh[place], pressurePa[i]);
            part.nLow[place] = Math.min(part.nLow[place], speedRadPerS[i]);
            part.nHigh[place] = Math.max(part.nHigh[place], speedRadPerS[i]);
        }
    }

    /** The first sample that is not before a time. */
    private int indexAt(double atS) {
        int found = Arrays.binarySearch(timeS, 0, length, atS);
        return found >= 0 ? found : -found - 1;
    }
}

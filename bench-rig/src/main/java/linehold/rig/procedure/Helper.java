package linehold.rig.procedure;

/** Who turns the shaft and stands at the gauges of a simulated bench. At a real one that is the person. */
public interface Helper {
    /** Whether what the step asks of the shaft has been done. */
    boolean handDone(View view);

    /** What the gauge shows where a number is asked for, SI (°C for a temperature); 1, a yes, for all else. */
    double value(Ask ask);
}

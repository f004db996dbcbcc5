package linehold.simulator.run;

/** Watches a run tick by tick. */
public interface TickListener {
    /**
     * @param moment valid during the call only
     * @return false to end the run here
     */
    boolean tick(Moment moment);

    /** Both listeners see every tick; the run goes on while both want it. */
    default TickListener and(TickListener other) {
        return moment -> tick(moment) & other.tick(moment);
    }
}

package linehold.rig.procedure;

/** What a step looks at. */
interface Work {
    /** Nothing but the answer. */
    Work ANSWERED = (now, findings) -> now.answered();

    /**
     * Called at every tick of the step.
     *
     * @return true where the step is over
     */
    boolean done(Reading now, Findings findings);
}

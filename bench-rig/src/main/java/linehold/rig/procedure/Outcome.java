package linehold.rig.procedure;

/** How a procedure stands. */
public enum Outcome {
    RUNNING("running"),
    PASSED("pass"),
    FAILED("fail"),
    /** A person, or the loss of the terminal, ended it. */
    STOPPED("stopped");

    private final String word;

    Outcome(String word) {
        this.word = word;
    }

    /** As records have it. */
    public String word() {
        return word;
    }
}

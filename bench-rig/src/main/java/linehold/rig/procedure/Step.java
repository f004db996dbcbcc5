package linehold.rig.procedure;

import java.util.function.Function;

/**
 * One step of a procedure.
 *
 * @param title what is done, in a few words
 * @param instruction what a person is to do; empty where there is nothing to do but to wait
 * @param ask what the person is to answer
 * @param command what the outputs do meanwhile
 * @param shaft what the shaft does meanwhile
 * @param longestS after this the step has failed, s
 * @param late the sentence to fail with then
 */
public record Step(
        String title,
        String instruction,
        Ask ask,
        Command command,
        Shaft shaft,
        double longestS,
        Function<Reading, String> late,
        Work work) {

    /** A person who has not answered by then has left, s; assumed. */
    static final double PATIENCE_S = 600;

    /** A step that a person ends. */
    static Step asking(String title, String instruction, Ask ask, Command command, Shaft shaft, Work work) {
        return new Step(
                title,
                instruction,
                ask,
                command,
                shaft,
                PATIENCE_S,
                now -> "Nobody has answered for ten minutes.",
                work);
    }

    /** A step that ends by itself. */
    static Step of(
            String title, Command command, Shaft shaft, double longestS, Function<Reading, String> late, Work work) {
        return new Step(title, "", Ask.NOTHING, command, shaft, longestS, late, work);
    }

    /** The same with something for a person to do. */
    Step telling(String newInstruction) {
        return new Step(title, newInstruction, ask, command, shaft, longestS, late, work);
    }
}

package linehold.rig.procedure;

/**
 * What a person has answered.
 *
 * @param question {@link View#question} of the question that was shown; an answer to an older one is ignored
 * @param value 1 for yes or confirmed, 0 for no, else the number asked for, SI (°C for a temperature)
 */
public record Answer(long question, double value) {
    public static Answer yes(long question) {
        return new Answer(question, 1);
    }

    public static Answer no(long question) {
        return new Answer(question, 0);
    }
}

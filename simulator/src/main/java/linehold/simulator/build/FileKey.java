package linehold.simulator.build;

import java.util.List;

/**
 * One key of the build file: reading, messages, JSON Schema, the page and the starting file all follow from it.
 *
 * @param path section and name: {@code line.volume}
 * @param type what the value looks like
 * @param quantity what it measures; {@link Quantity#RATIO} for plain numbers, null where it is no number
 * @param least smallest allowed value, SI
 * @param most largest allowed value, SI
 * @param leastText the same as a person types it
 * @param mostText the same as a person types it
 * @param choices the allowed words of a {@link Type#CHOICE}
 * @param example a value as a person types it
 * @param presence whether the file must have it
 * @param standard the value that counts where the file does not have it, as typed; null where there is none
 * @param provenance where a good value comes from; null where {@code meaning} says so itself
 * @param meaning one sentence
 * @param usual where values of cars lie; null where nothing can be said
 */
record FileKey(
        String path,
        Type type,
        Quantity quantity,
        double least,
        double most,
        String leastText,
        String mostText,
        List<String> choices,
        String example,
        Presence presence,
        String standard,
        Provenance provenance,
        String meaning,
        Usual usual) {

    /**
     * Where values of cars lie. Outside it a value is possible, but more often a slip.
     *
     * @param least lower end, SI
     * @param most upper end, SI
     * @param leastText the same as a person types it
     * @param mostText the same as a person types it
     * @param provenance where the range comes from
     */
    record Usual(double least, double most, String leastText, String mostText, Provenance provenance) {
        boolean has(double si) {
            double slack = 1e-9 * Math.max(Math.abs(least), Math.abs(most));
            return si >= least - slack && si <= most + slack;
        }

        /** {@code 0.2 L to 2 L (assumed)}. */
        String text() {
            return leastText + " to " + mostText + " (" + provenance.text() + ")";
        }
    }

    /** What a value looks like. */
    enum Type {
        /** {@code 130 psi}. */
        QUANTITY,
        /** A quantity without fractions: {@code 4}, {@code 12 bit}. */
        COUNT,
        /** {@code true} or {@code false}, {@code yes} or {@code no}. */
        FLAG,
        /** One of a few words. */
        CHOICE,
        /** Free text of one line. */
        TEXT,
        /** {@code [-20 °C, 20 °C]}, rising. */
        LIST,
        /** {@code [hose-leak, pump-worn@creeping]}, may be empty. */
        WORDS,
        /** {@code {-20 °C: 50 rpm, 120 °C: 260 rpm}} over oil temperature, or one quantity. */
        CURVE
    }

    /** Whether the file must have the key. */
    enum Presence {
        REQUIRED,
        /** {@link FileKey#standard} counts where it is absent. */
        DEFAULT,
        /** The part it describes is not there where it is absent. */
        OPTIONAL
    }

    /** A required key without bounds or meaning yet. */
    static FileKey of(String path, Type type, Quantity quantity, String example) {
        return new FileKey(
                path, type, quantity, 0, 0, null, null, List.of(), example, Presence.REQUIRED, null, null, null, null);
    }

    static FileKey quantity(String path, Quantity quantity, String least, String most, String example) {
        return of(path, Type.QUANTITY, quantity, example).between(least, most);
    }

    static FileKey count(String path, Quantity quantity, String least, String most, String example) {
        return of(path, Type.COUNT, quantity, example).between(least, most);
    }

    static FileKey list(String path, Quantity quantity, String least, String most, String example) {
        return of(path, Type.LIST, quantity, example).between(least, most);
    }

    static FileKey words(String path, String example) {
        return of(path, Type.WORDS, null, example);
    }

    static FileKey flag(String path) {
        return of(path, Type.FLAG, null, "true");
    }

    static FileKey text(String path, String example) {
        return of(path, Type.TEXT, null, example);
    }

    static FileKey choice(String path, String... choices) {
        FileKey key = of(path, Type.CHOICE, null, choices[0]);
        return key.with(key.presence, null, null, null, List.of(choices));
    }

    private FileKey between(String least, String most) {
        return between(
                Quantities.parse(least, quantity).orElseThrow(),
                Quantities.parse(most, quantity).orElseThrow(),
                least,
                most);
    }

    FileKey between(double newLeast, double newMost, String newLeastText, String newMostText) {
        return new FileKey(
                path,
                type,
                quantity,
                newLeast,
                newMost,
                newLeastText,
                newMostText,
                choices,
                example,
                presence,
                standard,
                provenance,
                meaning,
                usual);
    }

    FileKey usual(String usualLeast, String usualMost, Provenance usualProvenance) {
        Usual range = new Usual(
                Quantities.parse(usualLeast, quantity).orElseThrow(),
                Quantities.parse(usualMost, quantity).orElseThrow(),
                usualLeast,
                usualMost,
                usualProvenance);
        return new FileKey(
                path,
                type,
                quantity,
                least,
                most,
                leastText,
                mostText,
                choices,
                example,
                presence,
                standard,
                provenance,
                meaning,
                range);
    }

    FileKey byDefault(String newStandard) {
        return with(Presence.DEFAULT, newStandard, provenance, meaning, choices);
    }

    FileKey optional() {
        return with(Presence.OPTIONAL, null, provenance, meaning, choices);
    }

    FileKey from(Provenance newProvenance, String newMeaning) {
        return with(presence, standard, newProvenance, newMeaning, choices);
    }

    FileKey meaning(String newMeaning) {
        return from(null, newMeaning);
    }

    private FileKey with(
            Presence newPresence,
            String newStandard,
            Provenance newProvenance,
            String newMeaning,
            List<String> newChoices) {
        return new FileKey(
                path,
                type,
                quantity,
                least,
                most,
                leastText,
                mostText,
                newChoices,
                example,
                newPresence,
                newStandard,
                newProvenance,
                newMeaning,
                usual);
    }

    /** The path without the name: {@code line}; empty for a key of the top level, {@code a.b} for a nested section. */
    String section() {
        int dot = path.lastIndexOf('.');
        return dot < 0 ? "" : path.substring(0, dot);
    }

    /** Whether the value may have a spread: a property of the car does, a limit or a setting is exact. */
    boolean mayHaveSpread() {
        String part = path.substring(0, Math.max(0, path.indexOf('.')));
        return type == Type.QUANTITY && !EXACT.contains(part);
    }

    /** Sections of limits, settings, and parts with tolerances of their own. */
    private static final List<String> EXACT = List.of("limits", "installation", "controller", "calibration");

    /** The last part of the path: {@code volume}. */
    String name() {
        return path.substring(path.lastIndexOf('.') + 1);
    }

    /** The end of a message: what a person may type here. */
    String expected() {
        return switch (type) {
            case QUANTITY -> quantity.noun() + " such as '" + example + "' (" + quantity.labels() + ")" + bounds();
            case COUNT ->
                (quantity == Quantity.RATIO ? "a whole number" : quantity.noun()) + " such as '" + example + "'"
                        + bounds();
            case LIST -> "a rising list such as '" + example + "' (" + quantity.labels() + "), each" + bounds();
            case CURVE ->
                quantity.noun() + " or a mapping from rising oil temperatures such as '" + example + "' ("
                        + quantity.labels() + ")" + bounds();
            case WORDS -> "a list of words such as '" + example + "'";
            case FLAG -> "true or false";
            case CHOICE -> String.join(" or ", choices);
            case TEXT -> "a text of 1 to " + MAX_TEXT + " characters such as '" + example + "'";
        };
    }

    /** Longest free text. */
    static final int MAX_TEXT = 200;

    private String bounds() {
        return " between " + leastText + " and " + mostText;
    }
}

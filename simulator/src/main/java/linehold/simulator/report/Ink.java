package linehold.simulator.report;

/**
 * Bold red and bold green where the terminal shows colour.
 *
 * @param colour whether it does
 */
record Ink(boolean colour) {
    String bad(String text) {
        return paint("\u001b[1;31m", text);
    }

    String good(String text) {
        return paint("\u001b[1;32m", text);
    }

    private String paint(String code, String text) {
        return colour ? code + text + "\u001b[0m" : text;
    }
}

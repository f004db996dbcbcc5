package linehold.simulator.build;

/** The builds that come with the program. */
public final class Builds {
    private Builds() {}

    /** An invented car that holds on every demonstration drive. */
    public static Build demonstration() {
        return BuildFile.loadNamed("demonstration");
    }

    /** The same car switched over at a fixed 500/600 rpm, with nothing but a one-pulse pickup to go by. */
    public static Build ruleOfThumb() {
        return BuildFile.loadNamed("rule-of-thumb");
    }

    /** The same car with too small an electric pump on a thin cable and a one-pulse pickup: no window exists. */
    public static Build weak() {
        return BuildFile.loadNamed("weak");
    }
}

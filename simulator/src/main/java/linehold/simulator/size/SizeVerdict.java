package linehold.simulator.size;

/** What a line of the sizing sheet finds. */
public enum SizeVerdict {
    /** Within its limit with the reserve that is usual. */
    OK("ok"),
    /** Within its limit, but with less reserve than is usual. */
    TIGHT("tight"),
    /** Beyond its limit. */
    NOT_ENOUGH("not enough"),
    /** A figure without a limit. */
    INFORMATION("for information"),
    /** The build file lacks what it takes; does not count. */
    NOT_GIVEN("not given");

    private final String text;

    SizeVerdict(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }
}

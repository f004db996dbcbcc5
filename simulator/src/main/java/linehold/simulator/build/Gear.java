package linehold.simulator.build;

/** The gear the transmission is in or going to: which apply element is commanded. */
public enum Gear {
    NEUTRAL(null),
    FIRST(Element.LOW_BAND),
    TOP(Element.HIGH_CLUTCH),
    REVERSE(Element.REVERSE_CLUTCH);

    private final Element element;

    Gear(Element element) {
        this.element = element;
    }

    /** The apply element that carries this gear; null in neutral. */
    public Element element() {
        return element;
    }
}

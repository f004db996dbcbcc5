package linehold.simulator.run;

/** How far the commanded apply element has got. */
public enum Engagement {
    /** No element is commanded. */
    NONE,
    /** The element is filling, or has touched but not yet seen the hold pressure. */
    ENGAGING,
    /** The element has touched and its piston pressure has reached the hold pressure since. */
    ENGAGED
}

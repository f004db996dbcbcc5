package linehold.simulator.prove;

/**
 * One way in which a run failed the verdict.
 *
 * @param criterion the rule that was broken
 * @param atS when it was first broken, s
 * @param cause one sentence: what happened and why, numbers in the units asked for by the caller are added by the report
 */
public record Loss(Criterion criterion, double atS, String cause) {
    /** What "held" asks for, in the order of severity. */
    public enum Criterion {
        /** Prime did not reach the hold pressure before the drive asked for torque, or at all. */
        NEVER_PRIMED("prime pressure"),
        /** Line pressure fell below the hold pressure while an element was engaged. */
        PRESSURE_LOST("line pressure"),
        /** Capacity of an engaged element fell below demand times safety factor. */
        MARGIN_LOST("capacity margin"),
        /** An element took longer than its limit to engage. */
        ENGAGEMENT_LATE("engagement time"),
        /** Drive was withheld or reduced while the drive asked for torque. */
        DRIVE_REFUSED("drive permission");

        private final String title;

        Criterion(String title) {
            this.title = title;
        }

        public String title() {
            return title;
        }
    }
}

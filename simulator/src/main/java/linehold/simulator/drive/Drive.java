package linehold.simulator.drive;

import linehold.simulator.build.Build;

/** Something that can be driven any number of times: a log, a schedule, a manoeuvre. */
public interface Drive {
    /** Short name in lower case with hyphens, unique within a run. */
    String name();

    /** Where it comes from: the standard, "invented", or the log's file name. */
    String source();

    DriveReader open();

    /** The same drive in the car of another build, where it is read by the car's gears and weight; else itself. */
    default Drive inCarOf(Build build) {
        return this;
    }
}

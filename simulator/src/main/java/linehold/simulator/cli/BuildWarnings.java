package linehold.simulator.cli;

import linehold.simulator.build.Build;

/** Tells a person which values of the build file look unusual; the command goes on. */
final class BuildWarnings {
    private BuildWarnings() {}

    /** One line each to standard error, so that they are not taken for a result. */
    static void show(Build build) {
        build.warnings().forEach(warning -> System.err.println("warning: " + warning));
    }
}

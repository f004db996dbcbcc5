package linehold.rig.adapter.system;

import com.sun.jna.LastErrorException;

/**
 * What a program asks of Linux so that nothing ordinary delays its ticks. Both need a permission that docs/install.md gives
 * to the service; without it they change nothing and say so.
 */
public final class RealTime {
    /** MCL_CURRENT, MCL_FUTURE, MCL_ONFAULT: each page stays once it has been used. */
    private static final int ALL_PAGES_ONCE_USED = 1 | 2 | 4;

    private static final int FIRST_IN_FIRST_OUT = 1;
    private static final int LEAST_URGENT = 19;

    private RealTime() {}

    /** @return whether the program's memory is now kept from being paged out */
    public static boolean lockMemory() {
        try {
            return CLibrary.C.mlockall(ALL_PAGES_ONCE_USED) == 0;
        } catch (LastErrorException | LinkageError e) {
            return false;
        }
    }

    /**
     * Puts the calling thread before every ordinary one (SCHED_FIFO).
     *
     * @param priority 1 to 99; interrupt threads of the kernel have 50
     * @return whether that was allowed
     */
    public static boolean urgent(int priority) {
        try {
            return CLibrary.C.sched_setscheduler(0, FIRST_IN_FIRST_OUT, new int[] {priority}) == 0;
        } catch (LastErrorException | LinkageError e) {
            return false;
        }
    }

    /**
     * Puts the calling thread, and those that it will start, behind every other (niceness 19), which needs no permission.
     * Where that is not possible nothing changes. A thread's priority in Java has no effect on Linux. Not beside a control
     * loop: a pause of the whole program waits for a thread that gets no processor (docs/decisions/0069).
     */
    public static void modest() {
        try {
            CLibrary.C.setpriority(0, 0, LEAST_URGENT);
        } catch (LastErrorException | LinkageError e) {
            // It works as fast as the others then.
        }
    }
}

package linehold.rig.adapter.system;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;

/** The few calls of Linux's C library that the JDK has no door to. */
interface CLibrary extends Library {
    CLibrary C = Native.load("c", CLibrary.class);

    int socket(int domain, int type, int protocol) throws LastErrorException;

    int sendto(int descriptor, byte[] message, NativeLong length, int flags, byte[] address, int addressLength)
            throws LastErrorException;

    int close(int descriptor) throws LastErrorException;

    int mlockall(int flags) throws LastErrorException;

    /** @param process 0 is the calling thread */
    int sched_setscheduler(int process, int policy, int[] priority) throws LastErrorException;

    /** @param which 0: a process, which on Linux is a thread; @param who 0 is the calling one */
    int setpriority(int which, int who, int niceness) throws LastErrorException;
}

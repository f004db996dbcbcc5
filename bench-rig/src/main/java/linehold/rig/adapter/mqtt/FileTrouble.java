package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;

/** Why a file cannot be read, for people. */
final class FileTrouble {
    private FileTrouble() {}

    static String of(IOException e) {
        if (e instanceof NoSuchFileException) {
            return "there is no such file";
        }
        if (e instanceof AccessDeniedException) {
            return "permission denied";
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}

package linehold.rig.adapter.system;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.IntConsumer;

/**
 * Keys as they are pressed, read on a thread of their own, so that a screen that blocks cannot hold up the one that stops.
 * On a terminal of Linux or macOS it asks the terminal for single keys (POSIX stty) and gives it
 * back as it was; elsewhere, and from a pipe, keys arrive with the end of their line.
 */
public final class Keyboard implements AutoCloseable {
    /** Nothing has been pressed. */
    public static final int NONE = -1;
    /** There is no keyboard any more: end of the input, or an error. */
    public static final int LOST = -2;

    public static final int ESCAPE = 27;
    public static final int ENTER = '\n';
    public static final int BACKSPACE = 127;

    private static final int MOST_WAITING = 256;
    private static final long STTY_PATIENCE_S = 2;

    private final ArrayBlockingQueue<Integer> keys = new ArrayBlockingQueue<>(MOST_WAITING);
    private final String before;
    private volatile IntConsumer urgent = key -> {};
    private volatile boolean lost;

    private Keyboard(String before) {
        this.before = before;
    }

    /** Reads the standard input from now on. */
    public static Keyboard open() {
        String before = stty("-g");
        Keyboard keyboard = new Keyboard(before);
        if (keyboard.isTerminal()) {
            // No key may suspend the program, which would leave the coils as they are, nor its output.
            stty("-icanon", "-echo", "min", "1", "susp", "undef", "-ixon");
            // However the program ends, the terminal is given back.
            Runtime.getRuntime().addShutdownHook(new Thread(keyboard::close, "terminal"));
        }
        Thread reader = new Thread(() -> keyboard.read(System.in), "keyboard");
        reader.setDaemon(true);
        reader.start();
        return keyboard;
    }

    /** Whether keys come singly, and are not shown by the terminal itself. */
    public boolean isTerminal() {
        return !before.isEmpty();
    }

    /**
     * Who is told of {@link #ESCAPE} and {@link #LOST} at once, on the reading thread; {@link #poll} gives them, too.
     */
    public void onStop(IntConsumer listener) {
        urgent = listener;
        if (lost) {
            listener.accept(LOST);
        }
    }

    /** The next key, {@link #NONE} or {@link #LOST}; a letter is its ASCII code. Never waits. */
    public int poll() {
        Integer key = keys.poll();
        if (key != null) {
            return key;
        }
        return lost ? LOST : NONE;
    }

    private void read(InputStream in) {
        try {
            for (int c = in.read(); c >= 0; c = in.read()) {
                // A full queue drops keys but for the one that stops.
                int key = c == '\r' ? ENTER : c == '\b' ? BACKSPACE : c;
                if (key == ESCAPE) {
                    urgent.accept(key);
                }
                if (!keys.offer(key) && key == ESCAPE) {
                    keys.clear();
                    keys.offer(key);
                }
            }
        } catch (IOException e) {
            // as the end of the input
        } finally {
            lost = true;
            urgent.accept(LOST);
        }
    }

    /** What stty printed; empty where there is no terminal, or no stty. */
    private static String stty(String... arguments) {
        String[] command = new String[arguments.length + 1];
        command[0] = "stty";
        System.arraycopy(arguments, 0, command, 1, arguments.length);
        try {
            Process process = new ProcessBuilder(command)
                    .redirectInput(ProcessBuilder.Redirect.INHERIT)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
            boolean over = process.waitFor(STTY_PATIENCE_S, TimeUnit.SECONDS);
            return over && process.exitValue() == 0 ? text : "";
        } catch (IOException | UncheckedIOException e) {
            return "";
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return "";
        }
    }

    @Override
    public void close() {
        if (isTerminal()) {
            stty(before);
        }
    }
}

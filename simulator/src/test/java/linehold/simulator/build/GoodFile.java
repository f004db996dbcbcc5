package linehold.simulator.build;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** A build file that loads, kept apart from the shipped ones so that tuning those moves no line. */
final class GoodFile {
    static final String TEXT = read();

    private GoodFile() {}

    private static String read() {
        try (InputStream in = GoodFile.class.getResourceAsStream("/linehold/builds/good.yaml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

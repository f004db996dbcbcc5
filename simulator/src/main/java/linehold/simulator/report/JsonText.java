package linehold.simulator.report;

import java.io.ByteArrayOutputStream;
import java.util.List;
import java.util.function.Consumer;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/** Writes JSON the way all our files have it: indented, the same bytes on every machine and JDK, "never" as null. */
public final class JsonText {
    private static final ObjectWriter WRITER = JsonMapper.builder()
            .build()
            .writer()
            .with(prettyPrinter())
            // Double.toString is not the shortest before JDK 19; this writer is, and is the same on all of them.
            .with(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
            .with(StreamWriteFeature.STRICT_DUPLICATE_DETECTION);

    private final JsonGenerator json;

    private JsonText(JsonGenerator json) {
        this.json = json;
    }

    /** The bytes of a file: UTF-8 text, lines ended by a line feed. */
    public static byte[] bytes(Consumer<JsonText> content) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator generator = WRITER.createGenerator(bytes)) {
            content.accept(new JsonText(generator));
        }
        bytes.write('\n');
        return bytes.toByteArray();
    }

    private static DefaultPrettyPrinter prettyPrinter() {
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        return new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
    }

    public void startObject() {
        json.writeStartObject();
    }

    public void startObject(String name) {
        json.writeObjectPropertyStart(name);
    }

    public void endObject() {
        json.writeEndObject();
    }

    public void startArray(String name) {
        json.writeArrayPropertyStart(name);
    }

    public void endArray() {
        json.writeEndArray();
    }

    /** JSON knows neither NaN nor infinity: both mean "never", and never is null. */
    public void number(String name, double value) {
        if (Double.isFinite(value)) {
            json.writeNumberProperty(name, value);
        } else {
            json.writeNullProperty(name);
        }
    }

    public void count(String name, long value) {
        json.writeNumberProperty(name, value);
    }

    public void flag(String name, boolean value) {
        json.writeBooleanProperty(name, value);
    }

    public void text(String name, String value) {
        if (value == null) {
            json.writeNullProperty(name);
        } else {
            json.writeStringProperty(name, value);
        }
    }

    public void texts(String name, List<String> values) {
        json.writeArrayPropertyStart(name);
        values.forEach(json::writeString);
        json.writeEndArray();
    }
}

package linehold.rig.adapter.mqtt;

import java.util.LinkedHashMap;
import java.util.Map;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/** One JSON object on one line, its fields in the order in which they are put. */
final class Json {
    private static final ObjectWriter WRITER = JsonMapper.builder()
            .build()
            .writer()
            // Double.toString is not the shortest before JDK 19; this writer is, and is the same on all of them.
            .with(StreamWriteFeature.USE_FAST_DOUBLE_WRITER);

    private final Map<String, Object> fields = new LinkedHashMap<>();

    Json put(String name, Object value) {
        fields.put(name, value);
        return this;
    }

    /**
     * A measured value, rounded. JSON knows neither NaN nor infinity: "not known" and "no limit" are null.
     *
     * @param perUnit how many steps a unit has, such as 100 for hundredths
     */
    Json number(String name, double value, double perUnit) {
        return put(name, Double.isFinite(value) ? Math.round(value * perUnit) / perUnit : null);
    }

    /** The same, to whole units. */
    Json whole(String name, double value) {
        return put(name, Double.isFinite(value) ? Math.round(value) : null);
    }

    byte[] bytes() {
        return WRITER.writeValueAsBytes(fields);
    }
}

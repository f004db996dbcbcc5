package linehold.rig.adapter.mqtt;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Reads what was published, as a listener would. */
final class EventText {
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private EventText() {}

    static JsonNode read(String text) {
        return MAPPER.readTree(text);
    }

    /** Numbers of the events, each once: an event may come twice (at least once), but only right behind itself. */
    static List<Long> seqs(List<String> events) {
        List<Long> seqs = new ArrayList<>();
        for (String event : events) {
            long seq = read(event).get("seq").asLong();
            if (seqs.isEmpty() || seqs.get(seqs.size() - 1) != seq) {
                seqs.add(seq);
            }
        }
        return seqs;
    }

    /** Changes of the pump's state that were told, doubled ones twice. */
    static long told(List<String> events) {
        return events.stream()
                .filter(event -> event.contains("\"event\":\"pump_state\""))
                .count();
    }

    /** The states that the pump entered, as told, doubled ones once. */
    static List<String> entered(List<String> events) {
        List<String> entered = new ArrayList<>();
        long last = -1;
        for (String text : events) {
            JsonNode event = read(text);
            long seq = event.get("seq").asLong();
            if (event.get("event").asString().equals("pump_state") && seq != last) {
                entered.add(event.get("to").asString());
            }
            last = seq;
        }
        return entered;
    }
}

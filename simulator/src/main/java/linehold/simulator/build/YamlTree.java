package linehold.simulator.build;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.events.SequenceStartEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * A small YAML file as a tree in which every key and value knows its line and column. Refused with one sentence:
 * anything that is not YAML, duplicate keys, several documents, anchors and aliases (nobody needs them here, and they
 * would give one value two places), keys that are no words, and nesting deeper than {@value #DEEPEST}.
 */
public final class YamlTree {
    private static final int DEEPEST = 10;
    private static final int LARGEST_BYTES = 1 << 20;

    /** A place in the file, both from 1. */
    public record Place(int line, int column) {}

    /** A value with its place. */
    public sealed interface Node permits Scalar, Sequence, Mapping {
        Place place();
    }

    /**
     * @param text the value without quotes
     * @param quoted whether it stood in quotes
     */
    public record Scalar(String text, boolean quoted, Place place) implements Node {}

    public record Sequence(List<Node> items, Place place) implements Node {}

    /** Keys in file order. */
    public record Mapping(Map<String, Entry> entries, Place place) implements Node {}

    public record Entry(Place keyPlace, Node value) {}

    private final String file;
    private final Iterator<Event> events;

    private YamlTree(String file, Iterator<Event> events) {
        this.file = file;
        this.events = events;
    }

    /**
     * Reads a file whose root is a mapping.
     *
     * @param file how messages call it
     * @throws InputException with one sentence, file, line and column
     */
    public static Mapping read(String file, byte[] bytes) {
        if (bytes.length > LARGEST_BYTES) {
            throw error(file, new Place(1, 1), "found " + bytes.length + " bytes, expected at most " + LARGEST_BYTES);
        }
        String text = decode(file, bytes);
        LoadSettings settings = LoadSettings.builder().setLabel(file).build();
        try {
            return new YamlTree(file, new Parse(settings).parseString(text).iterator()).document();
        } catch (MarkedYamlEngineException e) {
            throw syntaxError(file, text, e);
        } catch (YamlEngineException e) {
            throw new InputException(file + ":1:1: found text that is not YAML: " + oneLine(e.getMessage()), e);
        }
    }

    /** The message of every fault of a file: {@code mycar.yaml:14:17: found …, expected …}. */
    public static InputException error(String file, Place place, String sentence) {
        return new InputException(file + ":" + place.line() + ":" + place.column() + ": " + sentence);
    }

    /** What stands at a node, for a message. */
    public static String found(Node node) {
        if (node instanceof Scalar scalar) {
            return scalar.text().isEmpty() ? "nothing" : "'" + shown(scalar.text()) + "'";
        }
        return node instanceof Sequence ? "a list" : "a mapping";
    }

    /** A node in one line, as it might be typed. */
    static String text(Node node) {
        if (node instanceof Sequence sequence) {
            return sequence.items().stream().map(YamlTree::text).collect(Collectors.joining(", ", "[", "]"));
        }
        if (node instanceof Mapping mapping) {
            return mapping.entries().entrySet().stream()
                    .map(entry -> entry.getKey() + ": " + text(entry.getValue().value()))
                    .collect(Collectors.joining(", ", "{", "}"));
        }
        return ((Scalar) node).text();
    }

    private Mapping document() {
        Node root = null;
        int documents = 0;
        while (events.hasNext()) {
            Event event = events.next();
            switch (event.getEventId()) {
                case DocumentStart -> {
                    documents++;
                    if (documents > 1) {
                        throw error(file, place(event), "found a second document, expected one");
                    }
                }
                case Scalar, SequenceStart, MappingStart, Alias -> root = node(event, 0);
                case StreamStart, StreamEnd, DocumentEnd, Comment, SequenceEnd, MappingEnd -> {
                    // nothing to keep
                }
            }
        }
        if (root == null || root instanceof Scalar scalar && scalar.text().isEmpty()) {
            throw error(file, new Place(1, 1), "found an empty file, expected keys and values");
        }
        if (root instanceof Mapping mapping) {
            return mapping;
        }
        throw error(file, root.place(), "found " + found(root) + ", expected keys and values");
    }

    private Node node(Event event, int depth) {
        Place place = place(event);
        if (event instanceof AliasEvent
                || event instanceof NodeEvent node && node.getAnchor().isPresent()) {
            throw error(file, place, "found an anchor or alias, expected the value itself");
        }
        if (depth > DEEPEST) {
            throw error(file, place, "found more than " + DEEPEST + " levels of nesting, expected fewer");
        }
        if (event instanceof ScalarEvent scalar) {
            return new Scalar(scalar.getValue().strip(), scalar.getScalarStyle() != ScalarStyle.PLAIN, place);
        }
        if (event instanceof SequenceStartEvent) {
            List<Node> items = new ArrayList<>();
            for (Event next = events.next(); next.getEventId() != Event.ID.SequenceEnd; next = events.next()) {
                items.add(node(next, depth + 1));
            }
            return new Sequence(items, place);
        }
        if (event instanceof MappingStartEvent) {
            return mapping(place, depth);
        }
        throw new IllegalStateException("no node starts with " + event.getEventId());
    }

    private Mapping mapping(Place place, int depth) {
        Map<String, Entry> entries = new LinkedHashMap<>();
        for (Event next = events.next(); next.getEventId() != Event.ID.MappingEnd; next = events.next()) {
            Node key = node(next, depth + 1);
            if (!(key instanceof Scalar name) || name.text().isEmpty()) {
                throw error(file, key.place(), "found " + found(key) + " as a key, expected a word");
            }
            Node value = node(events.next(), depth + 1);
            Entry first = entries.putIfAbsent(name.text(), new Entry(key.place(), value));
            if (first != null) {
                throw error(
                        file,
                        key.place(),
                        "found key '" + shown(name.text()) + "' a second time, expected it once (it stands at line "
                                + first.keyPlace().line() + ")");
            }
        }
        return new Mapping(entries, place);
    }

    private static Place place(Event event) {
        return event.getStartMark().map(YamlTree::place).orElse(new Place(1, 1));
    }

    private static Place place(Mark mark) {
        return new Place(mark.getLine() + 1, mark.getColumn() + 1);
    }

    private static InputException syntaxError(String file, String text, MarkedYamlEngineException e) {
        Place place =
                e.getProblemMark().or(e::getContextMark).map(YamlTree::place).orElse(new Place(1, 1));
        String line = text.lines().skip(place.line() - 1L).findFirst().orElse("");
        boolean tab = line.strip().length() > 0
                && line.substring(0, line.indexOf(line.strip())).indexOf('\t') >= 0;
        String what = tab
                ? "found a tab before the first word, expected spaces"
                : "found text that is not YAML: " + oneLine(e.getProblem());
        return new InputException(error(file, place, what).getMessage(), e);
    }

    private static String decode(String file, byte[] bytes) {
        CharBuffer chars = CharBuffer.allocate(bytes.length + 1);
        ByteBuffer in = ByteBuffer.wrap(bytes);
        boolean whole =
                !StandardCharsets.UTF_8.newDecoder().decode(in, chars, true).isError();
        String text = chars.flip().toString();
        int start = text.startsWith("\ufeff") ? 1 : 0; // a byte-order mark is no content
        for (int i = start; i < text.length(); i++) {
            if (!printable(text.charAt(i))) {
                throw error(
                        file,
                        placeOf(text, i, start),
                        String.format(
                                "found the control character U+%04X, expected a text file", (int) text.charAt(i)));
            }
        }
        if (!whole) {
            throw error(
                    file,
                    placeOf(text, text.length(), start),
                    String.format("found the byte 0x%02X, expected text in UTF-8", bytes[in.position()] & 0xff));
        }
        return text.substring(start);
    }

    private static Place placeOf(String text, int index, int start) {
        String before = text.substring(start, index);
        int lineStart = before.lastIndexOf('\n') + 1;
        int line = 1 + (int) before.chars().filter(c -> c == '\n').count();
        return new Place(line, 1 + before.codePointCount(lineStart, before.length()));
    }

    /** YAML 1.2, production c-printable; surrogates were checked by the decoder. */
    private static boolean printable(char c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || c >= 0x20 && c < 0x7f
                || c == 0x85
                || c >= 0xa0 && c < 0xfffe && c != 0xfeff;
    }

    private static String oneLine(String text) {
        return text == null ? "no more is known" : shown(text.strip());
    }

    private static String shown(String text) {
        String plain = text.replaceAll("\\s+", " ");
        int end = plain.offsetByCodePoints(0, Math.min(60, plain.codePointCount(0, plain.length())));
        return end < plain.length() ? plain.substring(0, end) + "…" : plain;
    }
}

package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;

/** Text in columns of equal width. A control character in a name counts and prints as a question mark. */
final class TerminalText {
    private TerminalText() {}

    /** Columns a text takes; combining marks and wide scripts are not told apart. */
    static int width(String text) {
        return text.codePointCount(0, text.length());
    }

    static String padLeft(String text, int width) {
        return " ".repeat(Math.max(0, width - width(text))) + text;
    }

    static String padRight(String text, int width) {
        return text + " ".repeat(Math.max(0, width - width(text)));
    }

    /** Padded, or cut with an ellipsis, to exactly this width. */
    static String fit(String text, int width) {
        String plain = plain(text);
        if (width(plain) <= width) {
            return padRight(plain, width);
        }
        return plain.substring(0, plain.offsetByCodePoints(0, width - 1)) + "…";
    }

    /** Wrapped at spaces; a word that is too long for a line is cut. */
    static List<String> wrap(String text, int width, String indent) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : plain(text).split(" ")) {
            String rest = word;
            if (!line.isEmpty() && width(line.toString()) + 1 + width(rest) > width) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(indent);
            } else if (!line.isEmpty()) {
                line.append(' ');
            }
            while (width(line.toString()) + width(rest) > width) {
                int cut = rest.offsetByCodePoints(0, width - width(line.toString()));
                lines.add(line + rest.substring(0, cut));
                rest = rest.substring(cut);
                line.setLength(0);
                line.append(indent);
            }
            line.append(rest);
        }
        lines.add(line.toString());
        return lines;
    }

    /** A name from a file must not move the cursor or change the colour. */
    static String plain(String text) {
        return text.codePoints()
                .map(c -> Character.isISOControl(c) ? '?' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}

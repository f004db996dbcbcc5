package linehold.simulator.report;

/** SVG path data in relative steps of a tenth of a unit: short, and rounding does not add up. */
final class PathData {
    private final StringBuilder out = new StringBuilder();
    private long x;
    private long y;

    PathData moveTo(double px, double py) {
        x = Math.round(px * 10);
        y = Math.round(py * 10);
        out.append('M').append(Numbers.tenths(x)).append(' ').append(Numbers.tenths(y));
        return this;
    }

    PathData lineTo(double px, double py) {
        long dx = Math.round(px * 10) - x;
        long dy = Math.round(py * 10) - y;
        x += dx;
        y += dy;
        if (dx == 0 && dy == 0) {
            return this;
        }
        if (dy == 0) {
            out.append('h').append(Numbers.tenths(dx));
        } else if (dx == 0) {
            out.append('v').append(Numbers.tenths(dy));
        } else {
            out.append('l').append(Numbers.tenths(dx)).append(dy < 0 ? "" : " ").append(Numbers.tenths(dy));
        }
        return this;
    }

    PathData closePath() {
        out.append('z');
        return this;
    }

    boolean isEmpty() {
        return out.isEmpty();
    }

    @Override
    public String toString() {
        return out.toString();
    }
}

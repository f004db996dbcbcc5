package linehold.simulator.drive;

/**
 * The rows of a drive around the one that is given out next, so that its acceleration can be taken over a stretch of time
 * long enough for a noisy or coarse speed signal.
 */
final class LogWindow {
    /** The acceleration at a row is taken over so much time before and after it, s (or its neighbours where they are farther). */
    static final double HALF_WIDTH_S = 0.5;
    /** At more rows than these within the window (60 kHz) it gets narrower instead of larger. */
    private static final int MOST_ROWS = 1 << 16;

    private final LogDerivation derivation;
    private Node[] nodes = newNodes(256);
    /** Counts of rows since the start: kept rows are {@code [first, end)}, {@code next} is given out next. */
    private long first;

    private long next;
    private long end;

    /** A row and what its torque is derived from. */
    private static final class Node {
        final DriveSample sample = new DriveSample();
        double roadSpeedMPerS;
        double ratio;
        boolean torqueKnown;
    }

    LogWindow(LogDerivation derivation) {
        this.derivation = derivation;
    }

    private static Node[] newNodes(int count) {
        Node[] nodes = new Node[count];
        for (int i = 0; i < count; i++) {
            nodes[i] = new Node();
        }
        return nodes;
    }

    /** Adds a row whose other fields the caller fills at once. */
    DriveSample add(double timeS, double roadSpeedMPerS, double ratio, boolean torqueKnown) {
        if (end - first == nodes.length) {
            grow();
        }
        Node node = node(end++);
        node.sample.timeS = timeS;
        node.roadSpeedMPerS = roadSpeedMPerS;
        node.ratio = ratio;
        node.torqueKnown = torqueKnown;
        return node.sample;
    }

    /** Whether rows must come before the next one can be given out. */
    boolean needsMore() {
        if (next == end) {
            return true;
        }
        if (node(next).torqueKnown || end - first >= MOST_ROWS) {
            return false;
        }
        return end - next < 2 || node(end - 1).sample.timeS <= node(next).sample.timeS + HALF_WIDTH_S;
    }

    /** Gives out the next row; false when there is none. */
    boolean poll(DriveSample into) {
        if (next == end) {
            return false;
        }
        Node node = node(next);
        if (!node.torqueKnown) {
            node.sample.motorTorqueNm = derivedTorqueNm(node);
        }
        into.copyFrom(node.sample);
        next++;
        // The row before stays: a neighbour may be farther away than the window is wide.
        while (first < next - 1 && node(first + 1).sample.timeS <= into.timeS - HALF_WIDTH_S) {
            first++;
        }
        return true;
    }

    private double derivedTorqueNm(Node node) {
        long before = first;
        double fromS = node.sample.timeS - HALF_WIDTH_S;
        while (before < next - 1 && node(before).sample.timeS < fromS) {
            before++;
        }
        long after = end - 1;
        double toS = node.sample.timeS + HALF_WIDTH_S;
        while (after > next + 1 && node(after).sample.timeS > toS) {
            after--;
        }
        Node a = node(before);
        Node b = node(after);
        boolean comparable = derivation.hasRoadSpeed() || a.sample.gear == b.sample.gear;
        if (before == after || !comparable) {
            return next > first ? node(next - 1).sample.motorTorqueNm : 0;
        }
        double acceleration = (b.roadSpeedMPerS - a.roadSpeedMPerS) / (b.sample.timeS - a.sample.timeS);
        return derivation.torqueNm(node.roadSpeedMPerS, acceleration, node.ratio, node.sample.gear);
    }

    private Node node(long index) {
        return nodes[(int) (index & (nodes.length - 1))];
    }

    private void grow() {
        Node[] larger = newNodes(nodes.length * 2);
        for (long i = first; i < end; i++) {
            larger[(int) (i & (larger.length - 1))] = node(i);
        }
        nodes = larger;
    }
}

package linehold.simulator.drive;

/** A reader that does something about the rows of another one, and is that one in everything else. */
public abstract class ReaderAround implements DriveReader {
    /** What is around. */
    protected final DriveReader inner;

    protected ReaderAround(DriveReader inner) {
        this.inner = inner;
    }

    @Override
    public final RepairCounts repairs() {
        return inner.repairs();
    }

    @Override
    public final void close() {
        inner.close();
    }
}

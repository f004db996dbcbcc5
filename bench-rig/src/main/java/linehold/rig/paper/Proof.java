package linehold.rig.paper;

import java.util.List;
import java.util.concurrent.atomic.LongAdder;
import linehold.rig.paper.DriveBook.Judged;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.OilIgnored;
import linehold.simulator.drive.ReaderAround;
import linehold.simulator.prove.Prover;
import linehold.simulator.prove.RunVerdict;

/** One drive of the book with its proof: waiting, under way, done or refused. */
final class Proof implements Runnable {
    private final Prover prover;
    private final List<Double> oilC;
    private final Drive drive;
    /** The same, with its rows counted: what others read of it is no progress of the proof. */
    private final Drive counted;

    private final LongAdder rowsRead = new LongAdder();
    private volatile boolean stopped;
    private volatile long rowsToRead;
    private volatile List<Judged> runs;
    private volatile String problem;

    Proof(Prover prover, List<Double> oilC, Drive drive) {
        this.prover = prover;
        this.oilC = oilC;
        this.drive = new OilIgnored(new Stoppable(drive, new LongAdder()));
        counted = new OilIgnored(new Stoppable(drive, rowsRead));
    }

    /** To be run at any oil temperature. */
    Drive drive() {
        return drive;
    }

    /** Null until it is done. */
    List<Judged> runs() {
        return runs;
    }

    /** Why there is no verdict; null where there is no such reason. */
    String problem() {
        return problem;
    }

    /** How much of the work is done, 0 to 1. */
    double progress() {
        return rowsToRead == 0 ? 0 : Math.min(1, rowsRead.sum() / (double) rowsToRead);
    }

    /** Every reading of the drive ends here, and with it whatever runs on it. */
    void stop() {
        stopped = true;
    }

    /** Reads the whole drive, so that what is wrong in its last row is told before anything is proved. */
    void read() {
        told(() -> rowsToRead = countRows() * oilC.size());
    }

    @Override
    public void run() {
        if (problem == null) {
            told(() -> runs = prover.proveWithoutCloseUps(Prover.grid(List.of(counted), oilC)).runs().stream()
                    .map(Proof::judged)
                    .toList());
        }
    }

    private void told(Runnable work) {
        try {
            work.run();
        } catch (InputException e) {
            problem = e.getMessage();
        } catch (RuntimeException e) {
            // Without this the page would wait for ever.
            problem = "the proof has ended by a defect: " + e;
        }
    }

    private long countRows() {
        long rows = 0;
        try (DriveReader reader = drive.open()) {
            DriveSample row = new DriveSample();
            while (reader.read(row)) {
                rows++;
            }
        }
        return rows;
    }

    private static Judged judged(RunVerdict run) {
        RunVerdict.LowPoint low = run.lowPoint();
        return new Judged(
                run.oilC(),
                run.held(),
                run.losses().stream()
                        .map(loss -> loss.criterion().title() + ": " + loss.cause())
                        .toList(),
                run.weakest(),
                low.known() ? low.pressurePa() : null,
                low.known() ? low.atS() : null);
    }

    /** No record: two drives of the same file are not the same drive. */
    private final class Stoppable implements Drive {
        private final Drive drive;
        private final LongAdder rows;

        Stoppable(Drive drive, LongAdder rows) {
            this.drive = drive;
            this.rows = rows;
        }

        @Override
        public String name() {
            return drive.name();
        }

        @Override
        public String source() {
            return drive.source();
        }

        @Override
        public Drive inCarOf(Build build) {
            return new Stoppable(drive.inCarOf(build), rows);
        }

        @Override
        public DriveReader open() {
            return new ReaderAround(drive.open()) {
                @Override
                public boolean read(DriveSample into) {
                    if (stopped) {
                        throw new InputException(source() + ": the drive was removed");
                    }
                    rows.increment();
                    return inner.read(into);
                }
            };
        }
    }
}

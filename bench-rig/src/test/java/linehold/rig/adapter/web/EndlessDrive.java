package linehold.rig.adapter.web;

import linehold.simulator.drive.Drive;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.RepairCounts;

/** A car that stands for ever with its key on. */
final class EndlessDrive implements Drive {
    private volatile boolean opened;
    private volatile boolean closed;

    boolean opened() {
        return opened;
    }

    boolean closed() {
        return closed;
    }

    @Override
    public String name() {
        return "endless";
    }

    @Override
    public String source() {
        return "invented";
    }

    @Override
    public DriveReader open() {
        opened = true;
        return new DriveReader() {
            private int row;

            @Override
            public boolean read(DriveSample into) {
                into.timeS = row++;
                into.keyOn = true;
                return true;
            }

            @Override
            public RepairCounts repairs() {
                return RepairCounts.NONE;
            }

            @Override
            public void close() {
                closed = true;
            }
        };
    }
}

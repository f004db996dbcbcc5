package linehold.rig.adapter.store;

import java.io.IOException;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.stream.IntStream;
import linehold.rig.adapter.system.SystemClock;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultKind;

/**
 * A rig in real time that is there to be killed: records into a folder, keeps its codes, and tells in a shared file how far
 * it has come. What is written into memory that is mapped to a file outlives the process.
 */
final class CrashRig {
    static final int TICKS_AT = 0;
    static final int MARK_BYTES = Long.BYTES;

    private CrashRig() {}

    /** @param args folder, file of the mark */
    public static void main(String[] args) throws IOException {
        Recorder.prepare();
        Path folder = Path.of(args[0]);
        MappedByteBuffer mark;
        try (FileChannel channel =
                FileChannel.open(Path.of(args[1]), StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            mark = channel.map(FileChannel.MapMode.READ_WRITE, 0, MARK_BYTES);
        }
        TestRig rig = new TestRig();
        SystemClock clock = new SystemClock();
        CodeKeeper keeper = new CodeKeeper(folder.resolve("trouble-codes.bin"), rig.faults);
        keeper.restore(rig.controller.storedCodes(), clock.nowNs());
        Recorder recorder = Recorder.open(folder, rig.facts(), rig.ring.follow(), rig.faults, RecordingLimits.DEFAULT);
        keeper.start(rig.codes);
        recorder.start();
        rig.afterTick = ticks -> {
            mark.putLong(TICKS_AT, ticks);
            rig.rows.clear();
        };
        // The sender's wire goes on and off, so that codes come and go.
        List<Fault> faults = IntStream.range(0, 40)
                .mapToObj(i -> new Fault(FaultKind.SENDER_OPEN, 1 + 2.0 * i, 2 + 2.0 * i, 0))
                .toList();
        rig.drive("stop-and-go", faults, Long.MAX_VALUE, clock);
    }
}

package linehold.rig.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import linehold.controller.DrivePermission;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.controller.tick.TickField;
import linehold.rig.loop.Lateness;
import linehold.rig.loop.RigFault;
import linehold.rig.loop.TickRing;
import linehold.rig.loop.TickRow;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.report.Words;

/** The rig on a terminal: one line that follows it, and a line that stays for every change of state, code or fault. */
final class StatusLine {
    private static final int WIDTH = 100;
    private static final String BACK_AND_CLEAR = "\r\u001b[K";

    private final Display display;
    private final TickRing.Cursor cursor;
    private final boolean terminal;
    private final double[] row = new double[TickRow.LENGTH];
    private boolean any;
    private double startNs;
    private double state = -1;
    private long codes;
    private long rigFaults;

    StatusLine(Build build, TickRing ring, boolean terminal) {
        display = new Display(build.units());
        cursor = ring.follow();
        this.terminal = terminal;
    }

    /** Prints what has changed since the last call, and how things are now. */
    void update() {
        boolean fresh = false;
        while (cursor.read(row)) {
            if (!any) {
                startNs = row[TickRow.NOW_NS];
            }
            any = true;
            fresh = true;
            noteChanges();
        }
        if (fresh && terminal) {
            System.out.print(BACK_AND_CLEAR + now());
            System.out.flush();
        }
    }

    private void noteChanges() {
        if (value(TickField.STATE) != state) {
            state = value(TickField.STATE);
            keep(now());
        }
        long codesNow = (long) value(TickField.ACTIVE_CODES);
        for (TroubleCode code : TroubleCode.values()) {
            if (((codesNow ^ codes) & code.bit()) != 0) {
                keep(time() + "  " + ((codesNow & code.bit()) != 0 ? "code " : "gone ") + code.number() + " "
                        + code.title());
            }
        }
        codes = codesNow;
        long faultsNow = (long) row[TickRow.RIG_FAULTS];
        for (RigFault fault : RigFault.values()) {
            if (((faultsNow ^ rigFaults) & fault.bit()) != 0) {
                keep(time() + "  " + ((faultsNow & fault.bit()) != 0 ? "rig: " : "rig, over: ") + fault.text());
            }
        }
        rigFaults = faultsNow;
    }

    private void keep(String line) {
        System.out.println((terminal ? BACK_AND_CLEAR : "") + line);
    }

    private String time() {
        return String.format(Locale.ROOT, "%8.2f s", (row[TickRow.NOW_NS] - startNs) * 1e-9);
    }

    private String now() {
        String line = time()
                + "  pump " + String.format(Locale.ROOT, "%-8s", Words.of(PumpState.values()[(int) state]))
                + "  line " + display.pressure(value(TickField.LINE_PRESSURE_PA))
                + "  shaft " + display.speed(value(TickField.SHAFT_SPEED_RAD_S))
                + "  drive " + Words.of(DrivePermission.values()[(int) value(TickField.PERMISSION)])
                + activeCodes();
        return line.length() <= WIDTH ? line : line.substring(0, WIDTH - 1) + "…";
    }

    private String activeCodes() {
        List<String> numbers = new ArrayList<>();
        for (TroubleCode code : TroubleCode.values()) {
            if (((long) value(TickField.ACTIVE_CODES) & code.bit()) != 0) {
                numbers.add(code.number());
            }
        }
        return numbers.isEmpty() ? "" : "  " + String.join(" ", numbers);
    }

    private double value(TickField field) {
        return row[TickRow.indexOf(field)];
    }

    /** The last line and how punctual the loop was. */
    void end(Lateness lateness) {
        update();
        if (terminal) {
            System.out.println();
        }
        System.out.printf(
                Locale.ROOT,
                "%d ticks; lateness: half below %.2f ms, 99.9 %% below %.2f ms, worst %.2f ms; %d left out.%n",
                lateness.ticks(),
                lateness.quantileNs(0.5) * 1e-6,
                lateness.quantileNs(0.999) * 1e-6,
                lateness.worstNs() * 1e-6,
                lateness.skipped());
    }
}

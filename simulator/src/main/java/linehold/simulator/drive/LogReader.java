package linehold.simulator.drive;

import linehold.controller.Range;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.build.InputException;

/**
 * Turns the rows of a log into rows of a drive: fills in what the log does not say, and puts a start before a log that
 * has none. Memory is bounded by the rows within a second.
 */
final class LogReader implements DriveReader {
    /** Length of the start that is put before a log, s. */
    static final double START_S = TripBuilder.PARKED_S + TripBuilder.ENGAGE_S;
    /** A log whose first speed is below this begins at rest, rad/s (10 rpm). */
    private static final double REST_RAD_PER_S = 10 * 2 * Math.PI / 60;
    /** The car stands until so long before the log's first row, s. */
    private static final double JOIN_S = 0.1;

    private final String fileName;
    private final LogRows rows;
    private final LogDerivation derivation;
    private final LogWindow window;
    private final boolean hasKey;
    private final LogRow row = new LogRow();

    private boolean started;
    private boolean exhausted;
    private double firstTimeS;
    private double startS;

    LogReader(String fileName, LogRows rows, LogHeader header, CarSpec car, GearsSpec gears) {
        this.fileName = fileName;
        this.rows = rows;
        this.derivation = new LogDerivation(header, car, gears);
        this.window = new LogWindow(derivation);
        this.hasKey = header.has(LogField.KEY);
    }

    @Override
    public boolean read(DriveSample into) {
        while (!exhausted && window.needsMore()) {
            if (rows.next(row)) {
                take(row);
            } else {
                exhausted = true;
                requireRows();
            }
        }
        return window.poll(into);
    }

    private void requireRows() {
        if (!started) {
            throw new InputException(fileName + ": has no row below its header, expected rows with time and speed");
        }
    }

    private void take(LogRow logged) {
        if (!started) {
            started = true;
            firstTimeS = logged.timeS;
            begin(logged);
        }
        derivation.add(logged.timeS - firstTimeS + startS, logged, window);
    }

    private void begin(LogRow first) {
        double speed = Double.isNaN(first.shaftSpeedRadPerS)
                ? derivation.shaftSpeedInFirst(first.roadSpeedMPerS)
                : first.shaftSpeedRadPerS;
        if (hasKey || Math.abs(speed) >= REST_RAD_PER_S) {
            return;
        }
        startS = START_S;
        Range range = derivation.range(first);
        addStanding(0, Range.PARK, first);
        addStanding(TripBuilder.PARKED_S, range, first);
        addStanding(START_S - JOIN_S, range, first);
    }

    private void addStanding(double timeS, Range range, LogRow first) {
        DriveSample sample = window.add(timeS, 0, 0, true);
        sample.motorTorqueNm = 0;
        sample.range = range;
        sample.gear = switch (range) {
            case PARK, NEUTRAL -> Gear.NEUTRAL;
            case REVERSE -> Gear.REVERSE;
            case DRIVE -> first.gear == null || first.gear == Gear.NEUTRAL ? Gear.FIRST : first.gear;
        };
        sample.shaftSpeedRadPerS = 0;
        sample.brakeApplied = true;
        sample.keyOn = true;
        sample.oilTemperatureC = first.oilTemperatureC;
        sample.busOpenVolts = first.busVolts;
    }

    @Override
    public RepairCounts repairs() {
        double gapAtS = rows.endedByGapAtS();
        boolean gap = !Double.isNaN(gapAtS);
        return new RepairCounts(
                rows.skippedLines(),
                rows.duplicateRows(),
                rows.backwardRows(),
                rows.emptyCells(),
                gap,
                gap ? gapAtS - firstTimeS + startS : Double.NaN,
                startS);
    }

    @Override
    public void close() {
        rows.close();
    }
}

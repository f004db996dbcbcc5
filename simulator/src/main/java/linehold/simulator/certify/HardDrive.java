package linehold.simulator.certify;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.drive.RowDrive;

/**
 * One admissible drive made of a few choices between 0 and 1: the internal pump takes over, the shaft comes down to just
 * above the switch-on speed, then falls as fast as is allowed, at once or after a dip and a rebound that leave the electric
 * pump running against the internal one.
 *
 * @param drive the drive
 * @param judgedFromS from here the line is settled and what happens counts, s
 * @param lastFallS when the last fall begins, s
 */
record HardDrive(RowDrive drive, double judgedFromS, double lastFallS) {
    /** Tick phase, approach, level held, tooth phase, rate of the dip, its depth and length, rebound, its length, gear … */
    static final int CHOICES = 10;

    private static final double FIRST_S = 0.05;
    private static final double RUN_UP_S = 0.02;
    private static final double REST_S = 0.8;
    private static final double REBOUND_S = 5e-3;

    /**
     * @param choice each 0 to 1
     * @param recoveryS how long an admissible drive stays at the switch-on speed after a dip, s
     */
    static HardDrive of(
            double[] choice, Build build, double fallRadPerS2, double floorRadPerS, double recoveryS, double oilC) {
        double on = build.calibration().get(Key.SWITCH_ON_SPEED);
        double off = build.calibration().get(Key.SWITCH_OFF_SPEED);
        double pitch = 2 * Math.PI / build.calibration().get(Key.PULSES_PER_REVOLUTION);
        double cruise = 1.5 * off;
        double held = on * (1 + 0.3 * choice[1] * choice[1]);
        Rows rows = new Rows(choice[9] < 0.5 ? Gear.FIRST : Gear.TOP, oilC);
        rows.add(FIRST_S + choice[0] * build.calibration().get(Key.CONTROL_PERIOD), 0);
        rows.add(RUN_UP_S, cruise);
        rows.add(
                build.calibration().get(Key.MINIMUM_RUN_TIME)
                        + build.calibration().get(Key.SWITCH_OFF_CONFIRM_TIME)
                        + REST_S,
                cruise);
        rows.add(Math.max(0.3, 1.01 * (cruise - held) / fallRadPerS2), held);
        double judgedFromS = rows.timeS;
        rows.add(0.05 + 0.15 * choice[2] + choice[3] * pitch / held, held);
        double from = held;
        if (choice[4] > 0.5) {
            double rate = fallRadPerS2 * (2 * choice[4] - 1);
            double deep = on * choice[5];
            rows.add((from - deep) / rate, deep);
            rows.add(0.15 * choice[6] + 1e-4, deep);
            from = on + (off - on) * choice[7];
            rows.add(REBOUND_S, from);
            rows.add(recoveryS + 0.02 + 0.3 * choice[8], from);
        }
        double lastFallS = rows.timeS;
        rows.add((from - floorRadPerS) / (0.9999 * fallRadPerS2), floorRadPerS);
        rows.add(REST_S, floorRadPerS);
        return new HardDrive(
                new RowDrive("worst-drive", "found by a search over admissible drives", 0, rows.list),
                judgedFromS,
                lastFallS);
    }

    private static final class Rows {
        private final List<DriveSample> list = new ArrayList<>();
        private final Gear gear;
        private final double oilC;
        private double timeS;

        Rows(Gear gear, double oilC) {
            this.gear = gear;
            this.oilC = oilC;
            add(0, 0);
        }

        void add(double afterS, double shaftRadPerS) {
            timeS += afterS;
            DriveSample row = new DriveSample();
            row.timeS = timeS;
            row.shaftSpeedRadPerS = shaftRadPerS;
            row.range = Range.DRIVE;
            row.gear = gear;
            row.keyOn = true;
            row.oilTemperatureC = oilC;
            list.add(row);
        }
    }
}

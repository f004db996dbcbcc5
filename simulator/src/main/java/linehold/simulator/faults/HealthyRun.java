package linehold.simulator.faults;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.RowDrive;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import linehold.simulator.run.TickListener;

/** One drive at one oil temperature with nothing broken: what every run with a fault is held against. */
final class HealthyRun implements TickListener {
    /** What is kept of a tick. */
    record Tick(
            double timeS,
            PumpState state,
            DrivePermission permission,
            double shaftRadPerS,
            double shaftSlopeRadPerS2,
            double torqueNm,
            Gear gear,
            Engagement engagement,
            boolean braking,
            boolean keyOn) {}

    final RowDrive drive;
    final double oilC;
    final List<Tick> ticks = new ArrayList<>();
    /**
     * What was permitted at each place of the drive, one entry a control period. A driver who waits for drive stays at one
     * place, so that this is shorter than {@link #ticks} where the healthy car had to wait.
     */
    final List<DrivePermission> permissions = new ArrayList<>();

    private final double periodS;
    /** Codes raised, bits. */
    long codes;

    HealthyRun(RowDrive drive, double oilC, double periodS) {
        this.drive = drive;
        this.oilC = oilC;
        this.periodS = periodS;
    }

    @Override
    public boolean tick(Moment moment) {
        codes |= moment.outputs.activeCodes;
        int place = place(moment, periodS);
        while (permissions.size() <= place) {
            permissions.add(moment.outputs.permission);
        }
        ticks.add(new Tick(
                moment.timeS,
                moment.outputs.state,
                moment.outputs.permission,
                moment.shaftRadPerS,
                moment.shaftSlopeRadPerS2,
                moment.motorTorqueNm,
                moment.gear,
                moment.engagement,
                moment.inputs.brakeApplied,
                moment.keyOn));
        return true;
    }

    /** How far in its drive a car is, in control periods, waits not counted. */
    static int place(Moment moment, double periodS) {
        return (int) Math.round((moment.timeS - moment.waitedS) / periodS);
    }
}

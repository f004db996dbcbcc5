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
    /** Codes raised, bits. */
    long codes;

    HealthyRun(RowDrive drive, double oilC) {
        this.drive = drive;
        this.oilC = oilC;
    }

    @Override
    public boolean tick(Moment moment) {
        codes |= moment.outputs.activeCodes;
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
}

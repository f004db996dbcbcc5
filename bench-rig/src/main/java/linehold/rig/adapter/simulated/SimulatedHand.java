package linehold.rig.adapter.simulated;

import java.util.function.Supplier;
import linehold.controller.Range;
import linehold.rig.procedure.Shaft;
import linehold.simulator.build.Gear;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;

/**
 * The hand that turns the simulated shaft as a bench procedure asks: a drive without an end, whose rows are made when the
 * car reads them. The car reads one row ahead, so the hand answers two rows late, quicker than any person.
 */
public final class SimulatedHand implements Drive {
    private final Supplier<Shaft> asked;
    private final double rowS;
    private volatile Shaft now = Shaft.still(Range.NEUTRAL);
    private double radPerS;
    private double turnsLeft;
    private volatile boolean done;

    /**
     * @param asked what is asked of the shaft
     * @param rowS time between two rows, s
     */
    public SimulatedHand(Supplier<Shaft> asked, double rowS) {
        this.asked = asked;
        this.rowS = rowS;
    }

    @Override
    public String name() {
        return "simulated-hand";
    }

    @Override
    public String source() {
        return "a bench procedure";
    }

    /** Whether what is asked has been reached. */
    public boolean done(Shaft shaft) {
        return done && now.equals(shaft);
    }

    @Override
    public DriveReader open() {
        return new DriveReader() {
            private long row;

            @Override
            public boolean read(DriveSample into) {
                into.timeS = row * rowS;
                row++;
                turn();
                into.shaftSpeedRadPerS = radPerS;
                into.motorTorqueNm = 0;
                into.range = now.range();
                into.gear = now.range() == Range.DRIVE ? Gear.FIRST : Gear.NEUTRAL;
                into.keyOn = true;
                into.brakeApplied = false;
                return true;
            }
        };
    }

    /** The shaft's speed one row on. */
    private void turn() {
        Shaft wish = asked.get();
        if (wish != now) {
            done = false;
            now = wish;
            turnsLeft = wish.turns();
        }
        // Braking takes v²/2a of the angle that is left.
        double brakingRad = radPerS * radPerS / (2 * now.radPerS2());
        boolean arriving = turnsLeft * 2 * Math.PI <= brakingRad + radPerS * rowS;
        double target = arriving ? 0 : now.radPerS();
        double change = now.radPerS2() * rowS;
        double before = radPerS;
        radPerS += Math.max(-change, Math.min(change, target - radPerS));
        turnsLeft -= 0.5 * (before + radPerS) * rowS / (2 * Math.PI);
        done = Double.isInfinite(now.turns()) ? radPerS == now.radPerS() : arriving && radPerS == 0;
    }
}

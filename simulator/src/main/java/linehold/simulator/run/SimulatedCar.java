package linehold.simulator.run;

import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.InputException;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.drive.Drive;
import linehold.simulator.drive.DriveReader;
import linehold.simulator.drive.DriveSample;
import linehold.simulator.electrics.Relay;
import linehold.simulator.fault.Fault;
import linehold.simulator.fault.FaultInjector;
import linehold.simulator.fault.FaultTargets;
import linehold.simulator.fault.LiveFaults;
import linehold.simulator.fault.UnitFaults;
import linehold.simulator.sensor.Sensors;

/**
 * The car on paper around a control unit: follows a drive, shows what its sensors see, and obeys coils. It is made for one
 * drive and used once: {@link #see}, then the unit decides, then {@link #obey}, tick after tick.
 */
public final class SimulatedCar implements AutoCloseable {
    /** Bus voltage below which a 12 V coil lets go, V; common practice is a third of the nominal voltage. */
    private static final double COIL_HOLDS_VOLTS = 4;

    private final Build build;
    private final Plant plant;
    private final Sensors sensors;
    private final UnitFaults unitFaults;
    private final DriveReader reader;
    private final FaultTargets targets;
    private final FaultInjector injector;
    private final EngagementWatch engagement;
    private final boolean normallyClosed;
    private final long periodNs;
    private final double runOilC;

    private final Moment moment = new Moment();
    private DriveSample row = new DriveSample();
    private DriveSample next = new DriveSample();
    private boolean hasNext;
    private double pickupAtS;
    private double shaftSlope;
    private double torqueSlope;
    private double oilC;
    private double oilSlope;
    private double busVolts;
    private double busSlope;
    private boolean busOverridden;
    private boolean oilExtrapolated;
    /** Null where no fault comes by request. */
    private LiveFaults liveFaults;

    private double patienceS;
    private double waitingS;

    /**
     * @param oilC oil temperature where the drive does not say, °C
     * @param seed of the sensors' noise
     * @param faults begin and end at a tick
     * @param unitFaults what these break about the unit itself; the unit's owner looks here
     * @throws InputException where the drive cannot be read or has no rows
     */
    public SimulatedCar(Build build, Drive drive, double oilC, long seed, List<Fault> faults, UnitFaults unitFaults) {
        this.build = build;
        this.unitFaults = unitFaults;
        runOilC = oilC;
        normallyClosed = build.calibration().get(Key.NORMALLY_CLOSED_CONTACT) != 0;
        periodNs = Math.round(build.calibration().get(Key.CONTROL_PERIOD) * 1e9);
        // Before the first tick the coil is not energised.
        RelaySpec relay = normallyClosed ? build.relay().seenFromNormallyClosedContact() : build.relay();
        plant = new Plant(build, relay, oilC, true, normallyClosed);
        sensors = new Sensors(build.sensors(), periodNs * 1e-9, seed);
        targets = new FaultTargets(plant, sensors.faults(), unitFaults);
        injector = new FaultInjector(faults, targets);
        engagement = new EngagementWatch(build);
        reader = drive.open();
        if (!reader.read(row)) {
            reader.close();
            throw new InputException(drive.source() + ": no rows, expected at least two");
        }
        hasNext = reader.read(next);
        beginRow(true);
    }

    /**
     * From now on the driver waits: where the car stands in gear and drive is withheld, the drive goes on only when it is
     * granted. A car that is refused drive for longer than this at one stand stays there, and the drive ends. Without
     * patience the drive goes on regardless.
     *
     * @param seconds longest wait, s
     */
    public SimulatedCar withPatience(double seconds) {
        patienceS = seconds;
        return this;
    }

    /** From now on these faults may come and go, too. */
    public SimulatedCar withLiveFaults(LiveFaults faults) {
        liveFaults = faults;
        return this;
    }

    /** The truth at this tick, and the frames in which the unit reads and writes; overwritten at every tick. */
    public Moment moment() {
        return moment;
    }

    /**
     * Brings the car to a moment and fills {@link Moment#inputs}.
     *
     * @param nowNs time since the start of the drive, ns; may only grow
     * @return false where the drive has ended before; nothing is then changed
     */
    public boolean see(long nowNs) {
        double timeS = nowNs * 1e-9;
        while (hasNext && next.timeS <= timeS && !waits(timeS)) {
            nextRow();
        }
        if (!hasNext && timeS > row.timeS || waitingS > patienceS) {
            return false;
        }
        plant.advance(timeS, hasNext ? next.timeS : Double.POSITIVE_INFINITY);
        turnPickup(timeS);
        injector.update(timeS);
        if (liveFaults != null) {
            liveFaults.update(timeS, targets);
        }
        overrideBus();
        double sinceRowS = timeS - row.timeS;
        moment.timeS = timeS;
        moment.motorTorqueNm = waitingS > 0 ? 0 : row.motorTorqueNm + torqueSlope * sinceRowS;
        moment.oilC = oilC + oilSlope * sinceRowS;
        moment.keyOn = row.keyOn;
        moment.gear = row.gear;
        sensors.read(timeS, plant, row, moment.oilC, moment.motorTorqueNm, moment.inputs);
        return true;
    }

    /** Does with the relays what {@link Moment#outputs} say, and completes the moment. */
    public void obey() {
        driveRelays();
        moment.linePressurePa = plant.linePressurePa();
        moment.lowestPressurePa = plant.takeLowestPressurePa();
        moment.shaftRadPerS = plant.shaftRadPerS();
        moment.shaftSlopeRadPerS2 = shaftSlope;
        moment.pumpRadPerS = plant.pumpRadPerS();
        moment.contactClosed = plant.contactClosed();
        engagement.update(plant, moment);
    }

    /** Drives what is left of the drive, and tells what was counted. */
    public RunTotals totals() {
        plant.advance(Math.max(plant.nowS(), row.timeS), Math.max(plant.nowS(), row.timeS));
        return new RunTotals(
                plant.nowS(),
                plant.relayMoves(),
                plant.contactClosedS(),
                plant.pumpEnergyJ(),
                plant.balance(),
                oilExtrapolated,
                reader.repairs());
    }

    @Override
    public void close() {
        reader.close();
    }

    /** What the coils really do: a wire may be off, and a coil lets go when the bus is too low to hold it. */
    private void driveRelays() {
        boolean holds = plant.busVolts() >= COIL_HOLDS_VOLTS;
        boolean main = moment.outputs.mainRelayCoil && holds && !unitFaults.mainCoilLost;
        boolean standby = moment.outputs.standbyRelayCoil && holds && !unitFaults.standbyCoilLost;
        plant.ask(Relay.MAIN, main != normallyClosed);
        plant.ask(Relay.STANDBY, standby);
    }

    private void overrideBus() {
        double volts = unitFaults.busOpenVolts;
        if (!Double.isNaN(volts)) {
            if (volts != busVolts || busSlope != 0) {
                plant.setBus(volts, 0);
                busVolts = volts;
                busSlope = 0;
            }
            busOverridden = true;
        } else if (busOverridden) {
            busOverridden = false;
            setBus(true, hasNext ? next.timeS - row.timeS : Double.POSITIVE_INFINITY);
        }
    }

    private void turnPickup(double toS) {
        sensors.pickup()
                .turn(
                        pickupAtS,
                        toS - pickupAtS,
                        row.shaftSpeedRadPerS + shaftSlope * (pickupAtS - row.timeS),
                        shaftSlope);
        pickupAtS = toS;
    }

    /** Whether the driver puts off what comes next, with the foot on the brake; it is then one period later. */
    private boolean waits(double timeS) {
        boolean standing = row.shaftSpeedRadPerS == 0 && next.shaftSpeedRadPerS == 0;
        boolean refused =
                moment.keyOn && moment.gear.element() != null && moment.outputs.permission == DrivePermission.WITHHELD;
        if (patienceS == 0 || !standing || !refused) {
            waitingS = 0;
            return false;
        }
        double laterS = Math.max(timeS, next.timeS + periodNs * 1e-9) - next.timeS;
        waitingS += laterS;
        moment.waitedS += laterS;
        next.timeS = Math.max(timeS, next.timeS + laterS);
        row.brakeApplied = true;
        return true;
    }

    private void nextRow() {
        plant.advance(next.timeS, next.timeS);
        turnPickup(next.timeS);
        DriveSample passed = row;
        row = next;
        next = passed;
        hasNext = reader.read(next);
        next.timeS += moment.waitedS;
        beginRow(false);
    }

    /** Sets the circuit's conditions from the present row to the next one; what runs on as before is left alone. */
    private void beginRow(boolean first) {
        double lengthS = hasNext ? next.timeS - row.timeS : Double.POSITIVE_INFINITY;
        double slope = (next.shaftSpeedRadPerS - row.shaftSpeedRadPerS) / lengthS;
        double shaftSlopeNow = hasNext ? slope : 0;
        if (first || shaftSlopeNow != shaftSlope || plant.shaftRadPerS() != row.shaftSpeedRadPerS) {
            plant.setShaft(row.shaftSpeedRadPerS, shaftSlopeNow);
            shaftSlope = shaftSlopeNow;
        }
        torqueSlope = hasNext ? (next.motorTorqueNm - row.motorTorqueNm) / lengthS : 0;
        setOil(first, lengthS);
        setBus(first, lengthS);
        plant.setRange(row.range);
        for (int k = 0; k < Element.COUNT; k++) {
            Element element = ELEMENTS[k];
            plant.command(element, element == row.gear.element());
        }
    }

    private void setOil(boolean first, double lengthS) {
        double now = Double.isNaN(row.oilTemperatureC) ? runOilC : row.oilTemperatureC;
        double then = !hasNext || Double.isNaN(next.oilTemperatureC) ? now : next.oilTemperatureC;
        double slopeNow = hasNext ? (then - now) / lengthS : 0;
        if (first || now != oilC || slopeNow != oilSlope) {
            plant.setOil(now, slopeNow);
            oilExtrapolated |= plant.oilIsExtrapolated();
        }
        oilC = now;
        oilSlope = slopeNow;
    }

    private void setBus(boolean first, double lengthS) {
        if (busOverridden) {
            return;
        }
        double own = build.supply().openVolts();
        double now = Double.isNaN(row.busOpenVolts) ? own : row.busOpenVolts;
        double then = !hasNext || Double.isNaN(next.busOpenVolts) ? now : next.busOpenVolts;
        double slopeNow = hasNext ? (then - now) / lengthS : 0;
        if (first || now != busVolts || slopeNow != busSlope) {
            plant.setBus(now, slopeNow);
        }
        busVolts = now;
        busSlope = slopeNow;
    }

    private static final Element[] ELEMENTS = Element.values();
}

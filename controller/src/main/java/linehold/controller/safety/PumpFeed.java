package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.controller.signal.Confirmation;

/**
 * Both relays of the electric pump and everything that tells whether they feed it: LH-RL-1 to LH-RL-5. Main and standby
 * contact feed one wire to the pump, through one fuse upstream of both.
 */
public final class PumpFeed {
    private final boolean standbyFitted;
    private final ContactVoltage voltage;
    private final PumpCurrentCheck current;
    private final SelfTest selfTest;
    private final RelayCheck mainRelay;
    private final RelayCheck standbyRelay;
    private final Confirmation notOpening;
    private final Confirmation noFeed;
    private final PressureEvidence evidence;
    private final HeldFault lost;
    private boolean mainOn;
    private boolean standbyOn;

    public PumpFeed(Calibration calibration) {
        standbyFitted = calibration.is(Key.STANDBY_RELAY_FITTED);
        voltage = new ContactVoltage(calibration);
        current = new PumpCurrentCheck(calibration);
        selfTest = new SelfTest(calibration);
        long readbackNs = calibration.ns(Key.RELAY_READBACK_TIME);
        mainRelay = new RelayCheck(readbackNs);
        standbyRelay = new RelayCheck(readbackNs);
        notOpening = new Confirmation(calibration.ns(Key.WELDED_CONFIRM_TIME), 0);
        noFeed = new Confirmation(readbackNs, 0);
        evidence = new PressureEvidence(calibration);
        lost = new HeldFault(calibration.ns(Key.PRESSURE_RETURN_TIME));
    }

    /** Takes one tick's signs, which still answer to the tick before, and decides which relays shall feed the pump. */
    public void update(long nowNs, PumpSigns signs) {
        boolean anyOn = mainOn || standbyOn;
        voltage.read(signs);
        boolean still = selfTest.still(nowNs) && !signs.pickupLost;
        current.update(nowNs, signs, anyOn, still, voltage);
        boolean seen = voltage.fed() || current.flows();
        // Asked only while nothing else shows the pump fed: stored pressure must not hide a dead relay.
        boolean pressureShows = evidence.update(nowNs, anyOn && still && !seen, signs.pressurePa);
        boolean runs = seen || pressureShows;
        voltage.judge(nowNs, anyOn, runs);
        boolean closed = voltage.fed() || current.flows() && !voltage.weak();
        // A pump that coasts still feeds back a good part of the bus voltage: the test asks for all of it.
        boolean sound = voltage.full() || current.flows() && voltage.silent();
        selfTest.update(nowNs, signs, voltage.judgeable(), voltage.full(), sound, current.missing());

        judgeWelds(nowNs);
        decideRelays(nowNs, signs, closed || pressureShows, runs);
    }

    /** LH-RL-2. While a relay is on nothing can be learnt about a weld: the last finding stands. */
    private void judgeWelds(long nowNs) {
        boolean off = !mainOn && !standbyOn && voltage.judgeable();
        boolean staysForLong = notOpening.update(off && voltage.full(), nowNs);
        if (staysForLong || selfTest.voltageStays()) {
            mainRelay.voltageStays();
            standbyRelay.voltageStays();
        } else if (off && !voltage.full()) {
            mainRelay.wireIsDead();
            standbyRelay.wireIsDead();
        }
    }

    /**
     * @param closed whether anything shows a closed contact
     * @param runs whether anything shows that the pump is fed, be it through a worn contact
     */
    private void decideRelays(long nowNs, PumpSigns signs, boolean closed, boolean runs) {
        if (voltage.blind()) {
            mainRelay.acquit();
            standbyRelay.acquit();
        }
        // Without readback only current can tell that a contact does not close.
        boolean open = !closed && voltage.judgeable() && (!voltage.blind() || current.usable());
        boolean wasOn = mainOn || standbyOn;
        boolean wanted = signs.wanted && !current.resting();
        mainOn = wanted && selfTest.allowsMain();
        mainRelay.update(nowNs, mainOn, open);
        if (selfTest.mainStuckOff()) {
            mainRelay.testedStuckOff();
        }
        boolean along = selfTest.allowsMain() && (signs.bothRelays || mainRelay.stuckOff());
        standbyOn = standbyFitted && wanted && (along || selfTest.wantsStandby());
        standbyRelay.update(nowNs, standbyOn, open);
        if (selfTest.standbyStuckOff()) {
            standbyRelay.testedStuckOff();
        }
        boolean allOn = mainOn && (standbyOn || !standbyFitted);
        lost.update(nowNs, noFeed.update(allOn && open && !runs, nowNs), wasOn && runs, signs.letGo);
    }

    public void clearAtKeyOff() {
        mainRelay.acquit();
        standbyRelay.acquit();
        current.clearAtKeyOff();
        lost.clear();
    }

    /** Whether the main relay shall feed the pump, whatever the wiring makes of its coil. */
    public boolean mainOn() {
        return mainOn;
    }

    /** Whether the standby relay shall feed the pump. */
    public boolean standbyOn() {
        return standbyOn;
    }

    /** Whether no edge came for as long as one pulse takes at standstill speed; false until that long after power-up. */
    public boolean shaftStill(long nowNs) {
        return selfTest.still(nowNs);
    }

    public SelfTestState selfTest() {
        return selfTest.state();
    }

    /** Whether the key-on test leaves nothing to do, done or not (LH-RL-5). */
    public boolean selfTestOver() {
        return selfTest.over();
    }

    /** LH-RL-3: no fitted relay feeds the pump. */
    public boolean lost() {
        return lost.active();
    }

    /** Enters everything found into the store. */
    public void report(CodeStore codes) {
        codes.set(TroubleCode.MAIN_RELAY_STUCK_OFF, mainRelay.stuckOff());
        codes.set(TroubleCode.MAIN_RELAY_WELDED, mainRelay.welded());
        codes.set(TroubleCode.MAIN_READBACK_LOST, voltage.mainLost());
        codes.set(TroubleCode.STANDBY_RELAY_STUCK_OFF, standbyRelay.stuckOff());
        codes.set(TroubleCode.STANDBY_RELAY_WELDED, standbyFitted && standbyRelay.welded());
        codes.set(TroubleCode.STANDBY_READBACK_LOST, voltage.standbyLost());
        codes.set(TroubleCode.PUMP_FEED_LOST, lost.active());
        codes.set(TroubleCode.PUMP_CURRENT_NONE, current.open());
        codes.set(TroubleCode.PUMP_DRY, current.dry());
        codes.set(TroubleCode.PUMP_STALLED, current.stalled());
        codes.set(TroubleCode.PUMP_CURRENT_SENSOR_LOST, current.sensorLost());
    }
}

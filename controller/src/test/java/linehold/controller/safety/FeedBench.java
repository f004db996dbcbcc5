package linehold.controller.safety;

import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;

/**
 * Two relays, one wire, a pump and the key on a bench. The contacts follow within a tick; what a test breaks stays broken.
 * The pump's own voltage fades within {@link #coastS} after the feed ends, from 98 % of the bus.
 */
final class FeedBench {
    static final double BUS = 13;
    static final double TICK_S = 0.005;
    private static final long TICK_NS = 5_000_000;

    final PumpSigns signs = new PumpSigns();
    final PumpFeed feed;
    final CodeStore codes = new CodeStore();

    Boolean mainSticks;
    Boolean standbySticks;
    boolean fuseBlown;
    boolean mainReadbackBroken;
    boolean standbyReadbackBroken;
    /** What a broken standby readback shows, V. */
    double brokenStandbyVolts = Double.NaN;
    /** Voltage lost in the closed main contact, V. */
    double mainDropVolts = 0.1;
    /** Voltage lost in the closed standby contact, V. */
    double standbyDropVolts = 0.1;
    /** Whether the shaft turns, an edge each tick. */
    boolean turning;
    /** Pump current while fed, A. */
    double ampsWhileFed = 12;
    /** What the sensor shows, where it is not the truth. */
    Double sensorShows;

    double coastS = 0.02;
    long nowNs = 7_000_000_000L;
    boolean fed;
    private double fadesForS;

    FeedBench(boolean standby, boolean current) {
        this(Calibration.builder()
                .set(Key.STANDBY_RELAY_FITTED, standby)
                .set(Key.PUMP_CURRENT_FITTED, current)
                .build());
    }

    FeedBench(Calibration calibration) {
        feed = new PumpFeed(calibration);
        signs.busVolts = BUS;
        signs.oilTemperatureC = 60;
        signs.pressurePa = Double.NaN;
        signs.letGo = true;
    }

    /** Key off for a second: nothing is wanted, the shaft stands. */
    FeedBench keyOff() {
        signs.wanted = false;
        signs.priming = false;
        run(1);
        feed.clearAtKeyOff();
        return this;
    }

    /** Key on: PRIME begins at the next tick. */
    FeedBench keyOn() {
        signs.wanted = true;
        signs.priming = true;
        return this;
    }

    /** Past PRIME with everything well, pump running. */
    FeedBench tested() {
        keyOff().keyOn().run(1);
        signs.priming = false;
        return run(0.1);
    }

    FeedBench pump(boolean wanted) {
        signs.wanted = wanted;
        return this;
    }

    FeedBench run(double seconds) {
        for (long i = Math.round(seconds / TICK_S); i > 0; i--) {
            tick();
        }
        return this;
    }

    void tick() {
        nowNs += TICK_NS;
        boolean main = mainSticks != null ? mainSticks : feed.mainOn();
        boolean standby = standbySticks != null ? standbySticks : feed.standbyOn();
        fed = (main || standby) && !fuseBlown;
        fadesForS = fed ? coastS : Math.max(0, fadesForS - TICK_S);
        double coasting = coastS == 0 ? 0 : 0.98 * BUS * fadesForS / coastS;
        double contact =
                main && standby ? Math.min(mainDropVolts, standbyDropVolts) : main ? mainDropVolts : standbyDropVolts;
        double volts = fed ? signs.busVolts - contact : coasting;
        signs.mainContactVolts = mainReadbackBroken ? 0 : volts;
        signs.standbyContactVolts = standbyReadbackBroken ? brokenStandbyVolts : volts;
        double amps = fed ? ampsWhileFed : 0;
        signs.edges += turning ? 1 : 0;
        signs.amps = sensorShows != null ? sensorShows : amps;
        feed.update(nowNs, signs);
        feed.report(codes);
        signs.bothRelays = codes.wantsBothRelays();
    }

    /** Ticks until something is so; returns the seconds that took, or fails after ten. */
    double secondsUntil(java.util.function.BooleanSupplier so) {
        for (int i = 0; i < 2000; i++) {
            if (so.getAsBoolean()) {
                return i * TICK_S;
            }
            tick();
        }
        throw new AssertionError("not within ten seconds");
    }

    boolean active(TroubleCode code) {
        return (codes.active() & code.bit()) != 0;
    }
}

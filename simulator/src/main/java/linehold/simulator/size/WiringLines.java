package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.InstallationKey;

/** Cable, fuse and relay of the electric pump. */
final class WiringLines {
    private static final String COPPER = "ASTM B258 (gauge), IEC 60028 (copper)";
    private static final String FUSE_FROM_MEMORY =
            "form of ISO 8820-3 and SAE J1284; opening times from memory, order of magnitude only";
    /** Lower ends of supply codes D and C of ISO 16750-2, 12 V. */
    private static final double CODE_D_VOLTS = 10.5;

    private static final double CODE_C_VOLTS = 9;

    private final Standing at;
    private final double hotAmps;
    private final double mostAmps;
    private final double startAmps;
    private final double stallAmps;

    private WiringLines(Standing at) {
        this.at = at;
        hotAmps = at.hot.amps();
        mostAmps = at.largestRunningAmps();
        startAmps = at.stallAmps(at.coldC);
        stallAmps = at.stallAmps(at.hotC);
    }

    static List<SizeLine> of(Standing at) {
        WiringLines lines = new WiringLines(at);
        return List.of(
                lines.cableCheck(),
                lines.cableDrop("cable-drop-hot", "Voltage drop of the cable, hottest oil", lines.hotAmps),
                lines.cableDrop(
                        "cable-drop-most", "Voltage drop of the cable, largest running current", lines.mostAmps),
                lines.cableDropStarting(),
                lines.busAtStart(),
                lines.fuseCable(),
                lines.fuseRunning(
                        "fuse-running-hot", "Running current over fuse rating, hottest oil", lines.hotAmps, 0.75, 1.0),
                lines.fuseRunning(
                        "fuse-running-cold", "Running current over fuse rating, coldest oil", at.cold.amps(), 1.0, 1.1),
                lines.fuseStart(),
                lines.fuseStall(),
                lines.relayRunning(),
                lines.relayMaking(),
                lines.relayLife());
    }

    /** Copper area of the cable: as given, else by its gauge. */
    private double area(Draft draft) {
        if (at.installation.has(InstallationKey.CABLE_AREA)) {
            return draft.take(InstallationKey.CABLE_AREA, "A", Measure.AREA);
        }
        double area = Copper.gaugeAreaM2(draft.take(InstallationKey.CABLE_AWG, "AWG", Measure.COUNT));
        draft.with("A", Measure.AREA, area);
        return area;
    }

    /** Resistance there and back. */
    private double cableOhm(Draft draft, double copperC) {
        double area = area(draft);
        double length = draft.take(InstallationKey.CABLE_LENGTH, "L one way", Measure.LONG);
        double ohm = Copper.resistanceOhm(2 * length, area, copperC);
        draft.with("copper", Measure.TEMPERATURE, copperC).with("R", Measure.RESISTANCE, ohm);
        return ohm;
    }

    private double hotCableOhm(Draft draft) {
        return cableOhm(draft, at.installation.si(InstallationKey.CABLE_TEMPERATURE));
    }

    private SizeLine cableCheck() {
        Draft draft = at.line(Topic.WIRING, "cable-check", "Cable resistance by size over the build's, 20 °C")
                .formula("R = 2·L/(58 m/(Ω·mm²)·A)  over  supply.wire-resistance")
                .source(COPPER)
                .note(
                        "Above 1 the circuit is computed with too good a cable; below 1 the difference is room for terminals.");
        double ohm = cableOhm(draft, 20);
        draft.with("build", Measure.RESISTANCE, at.build.supply().wireResistanceOhm());
        return draft.information(Measure.NUMBER, ohm / at.build.supply().wireResistanceOhm());
    }

    private SizeLine cableDrop(String key, String title, double amps) {
        Draft draft = at.line(Topic.WIRING, key, title)
                .formula("i·R/V;  R = 2·L/(58 m/(Ω·mm²)·A)·[1 + 0.00393·(T − 20 °C)]")
                .source(COPPER + "; 5 and 10 % are common practice")
                .with("i", Measure.CURRENT, amps);
        double ohm = hotCableOhm(draft);
        draft.with("drop", Measure.VOLTAGE, amps * ohm)
                .with("V", Measure.VOLTAGE, at.build.supply().openVolts());
        return draft.atMost(Measure.SHARE, amps * ohm / at.build.supply().openVolts(), 0.05, 0.10);
    }

    private SizeLine cableDropStarting() {
        Draft draft = at.line(Topic.WIRING, "cable-drop-starting", "Voltage drop of the cable, starting current")
                .formula("i_start·R")
                .source(COPPER)
                .note("What is left must start the motor: see its starting torque.")
                .with("i_start", Measure.CURRENT, startAmps);
        return draft.information(Measure.VOLTAGE, startAmps * hotCableOhm(draft));
    }

    private SizeLine busAtStart() {
        double volts =
                at.build.supply().openVolts() - startAmps * at.build.supply().sourceResistanceOhm();
        return at.line(Topic.WIRING, "bus-at-start", "Voltage of the 12 V bus while the motor starts")
                .formula("V − i_start·R_source")
                .with("V", Measure.VOLTAGE, at.build.supply().openVolts())
                .with("i_start", Measure.CURRENT, startAmps)
                .with("R_source", Measure.RESISTANCE, at.build.supply().sourceResistanceOhm())
                .source("ISO 16750-2, lower ends of supply codes D (10.5 V) and C (9 V)")
                .atLeast(Measure.VOLTAGE, volts, CODE_D_VOLTS, CODE_C_VOLTS);
    }

    private SizeLine fuseCable() {
        Draft draft = at.line(Topic.WIRING, "fuse-protects-cable", "Current density of the cable at the fuse's rating")
                .formula("I_fuse/A")
                .source("6 and 10 A/mm² are common practice for single cables in free air")
                .note(
                        "What a cable may carry depends on its insulation, its bundle and its heat: its maker and local code"
                                + " decide.");
        double rating = draft.take(InstallationKey.FUSE_RATING, "I_fuse", Measure.CURRENT);
        return draft.atMost(Measure.CURRENT_DENSITY, rating / area(draft), 6e6, 10e6);
    }

    private SizeLine fuseRunning(String key, String title, double amps, double ok, double must) {
        Draft draft = at.line(Topic.WIRING, key, title)
                .formula("i/I_fuse")
                .source(
                        ok < 1
                                ? "three quarters of the rating in lasting use: common practice"
                                : "a fuse carries 110 % for 100 h (" + FUSE_FROM_MEMORY + ")")
                .with("i", Measure.CURRENT, amps);
        double rating = draft.take(InstallationKey.FUSE_RATING, "I_fuse", Measure.CURRENT);
        return draft.atMost(Measure.SHARE, amps / rating, ok, must);
    }

    private SizeLine fuseStart() {
        MotorStart start = at.start(at.coldHold);
        Draft draft = at.line(Topic.WIRING, "fuse-start", "Share of the fuse's shortest life a start takes")
                .formula("∫ dt/t_min(i),  i = i_run + (i_start − i_run)·e^(−t/τ)")
                .source(FUSE_FROM_MEMORY + "; that shares add up is assumed")
                .with("i_start", Measure.CURRENT, startAmps)
                .with("i_run", Measure.CURRENT, start.runAmps())
                .with("τ", Measure.SHORT_TIME, start.timeConstantS());
        double rating = draft.take(InstallationKey.FUSE_RATING, "I_fuse", Measure.CURRENT);
        double share = Double.isNaN(rating)
                ? rating
                : new FuseCurve(at.installation.fuseType(), rating)
                        .startShare(startAmps, start.runAmps(), start.timeConstantS());
        return draft.atMost(Measure.SHARE, share, 0.5, 1);
    }

    private SizeLine fuseStall() {
        Draft draft = at.line(Topic.WIRING, "fuse-stall", "Longest time until the fuse opens on a stalled pump")
                .formula("t_max(i_stall), hottest winding")
                .source(FUSE_FROM_MEMORY + "; 10 and 60 s are assumed: what cable and winding bear")
                .note("A stall current below 135 % of the rating may never open the fuse.")
                .with("i_stall", Measure.CURRENT, stallAmps);
        double rating = draft.take(InstallationKey.FUSE_RATING, "I_fuse", Measure.CURRENT);
        double longest =
                Double.isNaN(rating) ? rating : new FuseCurve(at.installation.fuseType(), rating).longestS(stallAmps);
        draft.with("i_stall/I_fuse", Measure.SHARE, stallAmps / rating);
        return draft.atMost(Measure.TIME, longest, 10, 60);
    }

    private SizeLine relayRunning() {
        Draft draft = at.line(Topic.WIRING, "relay-running", "Running current over the relay's resistive rating")
                .formula("i/I_contact")
                .source("a motor may have 20 to 50 % of the resistive rating (from memory, common practice)")
                .note("On a changeover relay take the rating of the contact that the pump is on.")
                .with("i", Measure.CURRENT, mostAmps);
        double rating = draft.take(InstallationKey.RELAY_CONTACT_RATING, "I_contact", Measure.CURRENT);
        return draft.atMost(Measure.SHARE, mostAmps / rating, ContactLife.MOTOR_SHARE, ContactLife.LARGEST_MOTOR_SHARE);
    }

    private SizeLine relayMaking() {
        Draft draft = at.line(Topic.WIRING, "relay-making", "Starting current over what the contact may close on")
                .formula("i_start/I_making")
                .source("maker's rating; a contact that closes on more may weld; 80 % is common practice")
                .with("i_start", Measure.CURRENT, startAmps);
        double rating = draft.take(InstallationKey.RELAY_MAKING_CURRENT, "I_making", Measure.CURRENT);
        return draft.atMost(Measure.SHARE, startAmps / rating, 0.8, 1);
    }

    private SizeLine relayLife() {
        Draft draft = at.line(Topic.WIRING, "relay-life", "Closings the contact lasts at its running current")
                .formula("N·min(1, (0.2·I_contact/i)²)")
                .source("a motor may have 20 % of the resistive rating (from memory, common practice); wear with the"
                        + " square of the current beyond it is assumed")
                .note("The price of a window counts with it: its relay moves in an hour are two to a closing.")
                .with("i", Measure.CURRENT, mostAmps);
        double rating = draft.take(InstallationKey.RELAY_CONTACT_RATING, "I_contact", Measure.CURRENT);
        double rated = draft.take(InstallationKey.RELAY_RATED_OPERATIONS, "N", Measure.COUNT);
        return draft.information(Measure.COUNT, ContactLife.closings(rated, rating, mostAmps));
    }
}

package linehold.simulator.size;

import java.util.List;
import linehold.simulator.build.InstallationKey;
import linehold.simulator.oil.Oil;

/** Hose, suction line and check valve. */
final class HoseLines {
    private static final String CHURCHILL = "Darcy-Weisbach; f by Churchill 1977 for laminar and turbulent flow";
    private static final String LOSS = "Δp = (f·L/D + ΣK)·ρ·v²/2";
    private static final double GRAVITY = 9.80665;
    private static final double ATMOSPHERE_PA = 101_325;
    private static final double FOOT = 0.3048;

    private HoseLines() {}

    static List<SizeLine> of(Standing at) {
        double hotLeak = PumpPoint.leakM3PerS(at.build, at.hotHold.oil(), at.holdPa);
        return List.of(
                farEnd(at, "hose-far-end-hot", "Pressure at the hose's far end, hottest oil", at.hotHold, hotLeak),
                farEnd(
                        at,
                        "hose-far-end-cold",
                        "Pressure at the hose's far end, coldest oil",
                        at.coldHold,
                        at.coldHold.flowM3PerS()),
                crossCheck(at, "hose-check-hot", "Hose loss by its size over the build's, hottest oil", at.hotHold),
                crossCheck(at, "hose-check-cold", "Hose loss by its size over the build's, coldest oil", at.coldHold),
                hoseVelocity(at),
                suctionVelocity(at),
                suctionPressure(at),
                checkValve(at),
                checkValveSeal(at));
    }

    private static SizeLine farEnd(Standing at, String key, String title, PumpPoint point, double flow) {
        Draft draft = at.line(Topic.HOSE, key, title)
                .formula("p = p_relief − p_crack − Δp;  " + LOSS)
                .source(CHURCHILL + "; a reserve of 10 % is common practice");
        double lossPa = loss(draft, flow, point.oil());
        double farPa = at.build.electricPump().reliefPa() - at.build.hose().crackPa() - lossPa;
        draft.with("p_relief", Measure.PRESSURE, at.build.electricPump().reliefPa())
                .with("p_crack", Measure.PRESSURE, at.build.hose().crackPa())
                .with("Δp", Measure.PRESSURE, lossPa);
        return draft.atLeast(Measure.PRESSURE, farPa, 1.1 * at.holdPa, at.holdPa);
    }

    /** Loss of the hose by its size; names all that goes in. */
    private static double loss(Draft draft, double flow, Oil oil) {
        double bore = draft.take(InstallationKey.HOSE_BORE, "D", Measure.LENGTH);
        double length = draft.take(InstallationKey.HOSE_LENGTH, "L", Measure.LONG);
        double fittings = draft.take(InstallationKey.HOSE_FITTINGS, "ΣK", Measure.NUMBER);
        double velocity = PipeFlow.velocity(flow, bore);
        draft.with("oil", Measure.TEMPERATURE, oil.temperatureC())
                .with("Q", Measure.FLOW, flow)
                .with("v", Measure.VELOCITY, velocity)
                .with(
                        "Re",
                        Measure.COUNT,
                        PipeFlow.reynolds(velocity, bore, oil.viscosityPaS() / oil.densityKgPerM3()));
        return PipeFlow.lossPa(flow, bore, length, fittings, oil.viscosityPaS(), oil.densityKgPerM3());
    }

    private static SizeLine crossCheck(Standing at, String key, String title, PumpPoint point) {
        Draft draft = at.line(Topic.HOSE, key, title)
                .formula(LOSS + "  over  R_lam·(μ/μ_ref)·Q + R_turb·(ρ/ρ_ref)·Q²")
                .source(CHURCHILL + "; docs/model.md, section 5")
                .note(
                        "The resistances are what the circuit is computed with. Far from 1, one of the two does not describe"
                                + " this hose; near 1 says that they agree.");
        // Even a pump too weak to open the check valve has a hose that leakage would flow through.
        double flow = Math.max(point.flowM3PerS(), PumpPoint.leakM3PerS(at.build, point.oil(), at.holdPa));
        double bySize = loss(draft, flow, point.oil());
        double laminar = at.build.hose().laminarPaSPerM3()
                * point.oil().viscosityPaS()
                / at.build.hose().referenceViscosityPaS();
        double turbulent = at.build.hose().turbulentPaS2PerM6()
                * point.oil().densityKgPerM3()
                / at.build.hose().referenceDensityKgPerM3();
        double byKeys = (laminar + turbulent * flow) * flow;
        draft.with("by size", Measure.PRESSURE, bySize).with("by resistances", Measure.PRESSURE, byKeys);
        return draft.information(Measure.NUMBER, bySize / byKeys);
    }

    private static SizeLine hoseVelocity(Standing at) {
        Draft draft = at.line(Topic.HOSE, "hose-velocity", "Velocity in the pressure hose")
                .formula("v = Q/(π/4·D²)")
                .source("pressure lines up to 500 psi: 10 to 15 ft/s (suppliers' tables, common practice)");
        double bore = draft.take(InstallationKey.HOSE_BORE, "D", Measure.LENGTH);
        draft.with("Q", Measure.FLOW, at.largestFlowM3PerS())
                .with("dash size (SAE J517 family)", Measure.COUNT, PipeFlow.dash(bore));
        return draft.atMost(Measure.VELOCITY, PipeFlow.velocity(at.largestFlowM3PerS(), bore), 10 * FOOT, 15 * FOOT);
    }

    private static SizeLine suctionVelocity(Standing at) {
        Draft draft = at.line(Topic.HOSE, "suction-velocity", "Velocity in the suction line")
                .formula("v = D_pump·n/(π/4·D²)")
                .source("suction lines: 2 to 4 ft/s (suppliers' tables, common practice)");
        double bore = draft.take(InstallationKey.SUCTION_BORE, "D", Measure.LENGTH);
        draft.with("Q", Measure.FLOW, at.largestSuctionM3PerS())
                .with("dash size (SAE J517 family)", Measure.COUNT, PipeFlow.dash(bore));
        return draft.atMost(Measure.VELOCITY, PipeFlow.velocity(at.largestSuctionM3PerS(), bore), 2 * FOOT, 4 * FOOT);
    }

    private static SizeLine suctionPressure(Standing at) {
        Oil oil = at.coldHold.oil();
        double flow = at.suctionM3PerS(at.coldHold);
        Draft draft = at.line(Topic.HOSE, "suction-pressure", "Absolute pressure at the pump's inlet, coldest oil")
                .formula("p = p_atm − ρ·g·h − Δp;  " + LOSS)
                .source(CHURCHILL + "; pump inlets take 0.2 to 0.3 bar below atmosphere (common practice)")
                .note("The pump's data sheet goes before this limit. At altitude there is less to start from.");
        double bore = draft.take(InstallationKey.SUCTION_BORE, "D", Measure.LENGTH);
        double length = draft.take(InstallationKey.SUCTION_LENGTH, "L", Measure.LONG);
        double fittings = draft.take(InstallationKey.SUCTION_FITTINGS, "ΣK", Measure.NUMBER);
        double lift = draft.take(InstallationKey.SUCTION_LIFT, "h", Measure.LONG);
        double lossPa = PipeFlow.lossPa(flow, bore, length, fittings, oil.viscosityPaS(), oil.densityKgPerM3());
        draft.with("oil", Measure.TEMPERATURE, oil.temperatureC())
                .with("Q", Measure.FLOW, flow)
                .with("Δp", Measure.PRESSURE, lossPa);
        double inletPa = ATMOSPHERE_PA - oil.densityKgPerM3() * GRAVITY * lift - lossPa;
        return draft.atLeast(Measure.PRESSURE, inletPa, ATMOSPHERE_PA - 0.2e5, ATMOSPHERE_PA - 0.3e5);
    }

    private static SizeLine checkValve(Standing at) {
        Oil oil = at.hotHold.oil();
        double roomPa = at.build.electricPump().reliefPa() - at.holdPa;
        Draft draft = at.line(Topic.HOSE, "check-valve-loss", "Pressure the check valve takes at full flow")
                .formula("p_crack + K·ρ·v²/2, K = 4;  limit p_relief − p_hold, half of it with reserve")
                .source("K of a check valve: handbook value 4; half the room is common practice");
        double bore = draft.take(InstallationKey.HOSE_BORE, "D", Measure.LENGTH);
        double velocity = PipeFlow.velocity(at.largestFlowM3PerS(), bore);
        draft.with("p_crack", Measure.PRESSURE, at.build.hose().crackPa())
                .with("v", Measure.VELOCITY, velocity)
                .with("p_relief", Measure.PRESSURE, at.build.electricPump().reliefPa())
                .with("p_hold", Measure.PRESSURE, at.holdPa);
        double lossPa =
                at.build.hose().crackPa() + PipeFlow.CHECK_VALVE_K * PipeFlow.headPa(velocity, oil.densityKgPerM3());
        return draft.atMost(Measure.PRESSURE, lossPa, roomPa / 2, roomPa);
    }

    private static SizeLine checkValveSeal(Standing at) {
        double highest =
                Math.max(at.build.regulator().setDrivePa(), at.build.regulator().setReversePa());
        return at.line(Topic.HOSE, "check-valve-seal", "Pressure that valve and hose must withstand")
                .formula("the larger of the regulator's highest set pressure (pump off) and the pump's relief pressure")
                .with("regulator", Measure.PRESSURE, highest)
                .with("p_relief", Measure.PRESSURE, at.build.electricPump().reliefPa())
                .source("build file")
                .note("Hose and fittings are rated by their maker; the regulator overrides with flow, so leave room.")
                .information(
                        Measure.PRESSURE,
                        Math.max(highest, at.build.electricPump().reliefPa()));
    }
}

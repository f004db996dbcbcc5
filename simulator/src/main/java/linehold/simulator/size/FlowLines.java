package linehold.simulator.size;

import java.util.List;

/** Does the electric pump alone feed what the standing car leaks? */
final class FlowLines {
    private static final String MODEL = "docs/model.md, sections 4 and 5: Wilson's pump model, gap and orifice leakage";

    private FlowLines() {}

    static List<SizeLine> of(Standing at) {
        double leak = PumpPoint.leakM3PerS(at.build, at.hotHold.oil(), at.holdPa);
        SizeLine reserve = at.line(Topic.FLOW, "flow-reserve-hot", "Pump flow over leakage, hottest oil, hold pressure")
                .formula("Q_pump/Q_leak;  Q_pump = D·n − S·p_out/μ;  Q_leak = (S_line + S_int)·p/μ + Cd·A·√(2p/ρ)")
                .with("oil", Measure.TEMPERATURE, at.hotC)
                .with("μ", Measure.VISCOSITY, at.hotHold.oil().viscosityPaS())
                .with("p", Measure.PRESSURE, at.holdPa)
                .with("n", Measure.SPEED, at.hotHold.speedRadPerS())
                .with("p_out", Measure.PRESSURE, at.hotHold.outletPa())
                .with("Q_pump", Measure.FLOW, at.hotHold.flowM3PerS())
                .with("Q_leak", Measure.FLOW, leak)
                .source(MODEL + "; a reserve of 20 % is common practice")
                .atLeast(Measure.NUMBER, at.hotHold.flowM3PerS() / leak, 1.2, 1.0);
        return List.of(
                reserve,
                settled(
                        at,
                        "standing-pressure-hot",
                        "Pressure the standing line settles at, hottest oil",
                        at.hotC,
                        at.hotPa),
                settled(
                        at,
                        "standing-pressure-cold",
                        "Pressure the standing line settles at, coldest oil",
                        at.coldC,
                        at.coldPa));
    }

    private static SizeLine settled(Standing at, String key, String title, double oilC, double settledPa) {
        return at.line(Topic.FLOW, key, title)
                .formula("p where Q_pump(p) = Q_leak(p) + Q_regulator(p), range D, shaft standing")
                .with("oil", Measure.TEMPERATURE, oilC)
                .with("p_hold", Measure.PRESSURE, at.holdPa)
                .source(MODEL + "; a reserve of 10 % is common practice")
                .atLeast(Measure.PRESSURE, settledPa, 1.1 * at.holdPa, at.holdPa);
    }
}

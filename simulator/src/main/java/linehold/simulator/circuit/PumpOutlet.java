package linehold.simulator.circuit;

import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.circuit.Condition.Valve;

/**
 * Electric pump, relief, check valve and hose: the flow into the line and the pressure at the pump's outlet, both from
 * pump speed w and line pressure p, with the derivatives an implicit solver needs.
 *
 * <pre>Q_p = D·w − S·p_out/μ                                            (Wilson's pump model)
 * valve open:   p_out = p + p_crack + R_lam·(μ/μ_ref)·Q + R_turb·(ρ/ρ_ref)·Q²,  Q = Q_p
 * valve closed: p_out = D·w·μ/S,  Q = 0
 * relief:       p_out = p_relief, Q from the hose equation alone
 * failed open:  Q = −(Cd·A)_cv·sq(p − p_out) whenever p &gt; p_out</pre>
 *
 * <p>One object per circuit; the results of the last {@link #solve} stay in its fields.
 */
final class PumpOutlet {
    private final ElectricPumpSpec pump;
    private final HoseSpec hose;
    private final Orifice orifice;
    private final double healthyM3PerRad;
    private final double reliefPa;
    private final double crackPa;
    private final double failedOpenAreaM2;
    private double slipResistance;
    private double laminarResistance;
    private double turbulentResistance;
    private double displacementM3PerRad;
    private Valve checkValve = Valve.HEALTHY;

    /** Flow into the line, m³/s. */
    double flowM3PerS;

    double flowByPressure;
    double flowBySpeed;
    /** Pressure at the pump's outlet, Pa. */
    double outletPa;

    double outletByPressure;
    double outletBySpeed;

    PumpOutlet(ElectricPumpSpec pump, HoseSpec hose, Orifice orifice) {
        this.pump = pump;
        this.hose = hose;
        this.orifice = orifice;
        healthyM3PerRad = pump.displacementM3PerRev() / (2 * Math.PI);
        reliefPa = pump.reliefPa();
        crackPa = hose.crackPa();
        failedOpenAreaM2 = hose.failedOpenAreaM2();
    }

    void set(double viscosityPaS, double densityKgPerM3, Condition condition) {
        checkValve = condition.checkValve;
        displacementM3PerRad = condition.electricDelivery * healthyM3PerRad;
        slipResistance = viscosityPaS / (condition.electricSlipFactor * pump.slipM3());
        laminarResistance = hose.laminarPaSPerM3() * viscosityPaS / hose.referenceViscosityPaS();
        turbulentResistance = hose.turbulentPaS2PerM6() * densityKgPerM3 / hose.referenceDensityKgPerM3();
    }

    void solve(double speedRadPerS, double linePa) {
        double deadHeadPa = displacementM3PerRad * speedRadPerS * slipResistance;
        double headPa = deadHeadPa - linePa - crackPa;
        if (headPa > 0 && checkValve != Valve.STUCK_SHUT) {
            solveOpen(headPa, linePa);
        } else {
            solveClosed(deadHeadPa, linePa);
        }
    }

    private void solveOpen(double headPa, double linePa) {
        // R_turb·Q² + (R_lam + μ/S)·Q = D·w·μ/S − p − p_crack, in the form of the root that does not cancel
        double linear = laminarResistance + slipResistance;
        double root = Math.sqrt(linear * linear + 4 * turbulentResistance * headPa);
        flowM3PerS = 2 * headPa / (linear + root);
        outletPa = linePa + crackPa + (laminarResistance + turbulentResistance * flowM3PerS) * flowM3PerS;
        if (outletPa > reliefPa) {
            solveRelief(linePa);
            return;
        }
        flowByPressure = -1 / root;
        flowBySpeed = displacementM3PerRad * slipResistance / root;
        double hoseSlope = laminarResistance + 2 * turbulentResistance * flowM3PerS;
        outletByPressure = 1 + hoseSlope * flowByPressure;
        outletBySpeed = hoseSlope * flowBySpeed;
    }

    private void solveRelief(double linePa) {
        outletPa = reliefPa;
        outletByPressure = 0;
        outletBySpeed = 0;
        flowBySpeed = 0;
        double headPa = reliefPa - linePa - crackPa;
        if (headPa <= 0) {
            flowM3PerS = 0;
            flowByPressure = 0;
            leakBack(linePa);
            return;
        }
        double root = Math.sqrt(laminarResistance * laminarResistance + 4 * turbulentResistance * headPa);
        flowM3PerS = 2 * headPa / (laminarResistance + root);
        flowByPressure = -1 / root;
    }

    private void solveClosed(double deadHeadPa, double linePa) {
        flowM3PerS = 0;
        flowByPressure = 0;
        flowBySpeed = 0;
        outletByPressure = 0;
        boolean relieved = deadHeadPa > reliefPa;
        outletPa = relieved ? reliefPa : deadHeadPa;
        outletBySpeed = relieved ? 0 : displacementM3PerRad * slipResistance;
        leakBack(linePa);
    }

    private void leakBack(double linePa) {
        double differencePa = linePa - outletPa;
        if (checkValve != Valve.STUCK_OPEN || differencePa <= 0) {
            return;
        }
        double backM3PerS = orifice.flow(failedOpenAreaM2, differencePa);
        double conductance = orifice.conductance(failedOpenAreaM2, differencePa, backM3PerS);
        flowM3PerS = -backM3PerS;
        flowByPressure = -conductance;
        flowBySpeed = conductance * outletBySpeed;
    }
}

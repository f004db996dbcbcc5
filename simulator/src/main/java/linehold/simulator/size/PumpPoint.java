package linehold.simulator.size;

import linehold.simulator.build.Build;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.electrics.PumpMotor;
import linehold.simulator.oil.Oil;

/**
 * The electric pump running steadily into a line of given pressure, by the equations of docs/model.md solved for
 * equilibrium; and the leakage it runs against with the shaft standing.
 *
 * @param oil the oil at its temperature
 * @param speedRadPerS pump speed, rad/s
 * @param flowM3PerS into the line, m³/s
 * @param outletPa at the pump, Pa
 * @param amps motor current, A
 */
record PumpPoint(Oil oil, double speedRadPerS, double flowM3PerS, double outletPa, double amps) {
    /** Halvings that leave a root of the size of a double. */
    private static final int HALVINGS = 200;

    /** With the line at a pressure. */
    static PumpPoint at(Build build, double oilC, double linePa) {
        ElectricPumpSpec pump = build.electricPump();
        Oil oil = new Oil(build.oil(), oilC);
        PumpMotor motor = new PumpMotor(pump, build.supply(), build.relay().contactResistanceOhm());
        motor.setViscosityRatio(oil.viscosityPaS() / build.hose().referenceViscosityPaS());
        double volts = build.supply().openVolts();
        double slow = 0;
        double fast = volts / pump.motorConstantVsPerRad();
        for (int i = 0; i < HALVINGS; i++) {
            double speed = (slow + fast) / 2;
            double outletPa = outlet(build, oil, linePa, speed)[1];
            if (motor.acceleration(motor.currentAmps(true, volts, speed), outletPa, speed) > 0) {
                slow = speed;
            } else {
                fast = speed;
            }
        }
        double[] out = outlet(build, oil, linePa, slow);
        return new PumpPoint(oil, slow, out[0], out[1], motor.currentAmps(true, volts, slow));
    }

    /** Standing in D with the pump on: where its flow and leakage and regulator are in balance. */
    static double standingPa(Build build, double oilC) {
        double low = 0;
        double high = build.electricPump().reliefPa() + build.regulator().setDrivePa();
        for (int i = 0; i < HALVINGS; i++) {
            double linePa = (low + high) / 2;
            PumpPoint point = at(build, oilC, linePa);
            double regulated = build.regulator().gainM3PerSPa()
                    * Math.max(0, linePa - build.regulator().setDrivePa());
            if (point.flowM3PerS() > leakM3PerS(build, point.oil(), linePa) + regulated) {
                low = linePa;
            } else {
                high = linePa;
            }
        }
        return low;
    }

    /** Q = (S_line + S_int)·p/μ + Cd·A·√(2p/ρ): what a standing car loses at a line pressure, m³/s. */
    static double leakM3PerS(Build build, Oil oil, double linePa) {
        double laminar = (build.line().laminarLeakM3() + build.internalPump().slipM3()) * linePa / oil.viscosityPaS();
        return laminar + build.line().orificeLeakM2() * Math.sqrt(2 * linePa / oil.densityKgPerM3());
    }

    /** Flow into the line and pressure at the pump for a pump speed. */
    private static double[] outlet(Build build, Oil oil, double linePa, double speedRadPerS) {
        ElectricPumpSpec pump = build.electricPump();
        HoseSpec hose = build.hose();
        double slipResistance = oil.viscosityPaS() / pump.slipM3();
        double deadHeadPa = pump.displacementM3PerRev() / (2 * Math.PI) * speedRadPerS * slipResistance;
        double laminar = hose.laminarPaSPerM3() * oil.viscosityPaS() / hose.referenceViscosityPaS();
        double turbulent = hose.turbulentPaS2PerM6() * oil.densityKgPerM3() / hose.referenceDensityKgPerM3();
        double backPa = linePa + hose.crackPa();
        double flow = root(turbulent, laminar + slipResistance, deadHeadPa - backPa);
        double outletPa = flow > 0 ? backPa + (laminar + turbulent * flow) * flow : deadHeadPa;
        if (outletPa <= pump.reliefPa()) {
            return new double[] {flow, outletPa};
        }
        return new double[] {root(turbulent, laminar, pump.reliefPa() - backPa), pump.reliefPa()};
    }

    /** Q ≥ 0 of turbulent·Q² + linear·Q = head; 0 without head. */
    private static double root(double turbulent, double linear, double headPa) {
        return headPa <= 0 ? 0 : 2 * headPa / (linear + Math.sqrt(linear * linear + 4 * turbulent * headPa));
    }
}

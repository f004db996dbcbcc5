package linehold.simulator.size;

import java.util.List;

/** What the pump's motor draws, and whether it starts. */
final class MotorLines {
    private static final String MOTOR = "DC motor with Kt = Ke (e.g. Kluever, Dynamic Systems, ch. 10)";

    private MotorLines() {}

    static List<SizeLine> of(Standing at) {
        return List.of(
                running(at, "motor-current-hot", "Motor current of the standing car, hottest oil", at.hotC, at.hot),
                running(at, "motor-current-cold", "Motor current of the standing car, coldest oil", at.coldC, at.cold),
                stalled(at, "motor-stall-cold", "Motor current at standstill, coldest winding: start", at.coldC),
                stalled(at, "motor-stall-hot", "Motor current at standstill, hottest winding: stall", at.hotC),
                startTorque(at),
                spinUp(at, "motor-spin-up-hot", "Time to 95 % of speed, hottest oil", at.hotHold),
                spinUp(at, "motor-spin-up-cold", "Time to 95 % of speed, coldest oil", at.coldHold));
    }

    private static SizeLine running(Standing at, String key, String title, double oilC, PumpPoint point) {
        return at.line(Topic.MOTOR, key, title)
                .formula("i = (V − K·w)/R where K·i = D·p_out + T_c + b·(μ/μ_ref)·w")
                .with("oil", Measure.TEMPERATURE, oilC)
                .with("V", Measure.VOLTAGE, at.build.supply().openVolts())
                .with("p_out", Measure.PRESSURE, point.outletPa())
                .with("w", Measure.SPEED, point.speedRadPerS())
                .source(MOTOR)
                .information(Measure.CURRENT, point.amps());
    }

    private static SizeLine stalled(Standing at, String key, String title, double windingC) {
        return at.line(Topic.MOTOR, key, title)
                .formula("i = V/((R_arm + R_wire)·[1 + 0.00393·(T − 20 °C)] + R_contact + R_source)")
                .with("copper", Measure.TEMPERATURE, windingC)
                .with("V", Measure.VOLTAGE, at.build.supply().openVolts())
                .with("R_arm", Measure.RESISTANCE, at.build.electricPump().armatureResistanceOhm())
                .with("R_wire", Measure.RESISTANCE, at.build.supply().wireResistanceOhm())
                .with("R_contact", Measure.RESISTANCE, at.build.relay().contactResistanceOhm())
                .with("R_source", Measure.RESISTANCE, at.build.supply().sourceResistanceOhm())
                .source(MOTOR + "; copper by IEC 60028")
                .note("The build's resistances of winding and cable are taken as those at 20 °C.")
                .information(Measure.CURRENT, at.stallAmps(windingC));
    }

    private static SizeLine startTorque(Standing at) {
        double torque = at.build.electricPump().motorConstantVsPerRad() * at.stallAmps(at.hotC);
        double load = at.loadNm(at.build.electricPump().reliefPa());
        return at.line(Topic.MOTOR, "motor-start-torque", "Starting torque over torque at the relief pressure")
                .formula("K·i_stall/(D·p_relief + T_c), hottest winding")
                .with("K·i_stall", Measure.SMALL_TORQUE, torque)
                .with("load", Measure.SMALL_TORQUE, load)
                .source(MOTOR + "; 1.5 with reserve is common practice")
                .atLeast(Measure.NUMBER, torque / load, 1.5, 1.1);
    }

    private static SizeLine spinUp(Standing at, String key, String title, PumpPoint hold) {
        MotorStart start = at.start(hold);
        return at.line(Topic.MOTOR, key, title)
                .formula("t = −τ·ln(1 − 0.95);  τ = R·J/(R·b·(μ/μ_ref) + K²)")
                .with("oil", Measure.TEMPERATURE, hold.oil().temperatureC())
                .with("τ", Measure.SHORT_TIME, start.timeConstantS())
                .with("speed", Measure.SPEED, start.runRadPerS())
                .source(MOTOR + ", constant load")
                .information(Measure.SHORT_TIME, start.timeToS(0.95));
    }
}

package linehold.simulator.size;

import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import linehold.simulator.build.Build;
import linehold.simulator.build.InstallationSpec;

/** The operating points that the sheet is computed at: the car stands, the electric pump alone feeds the line. */
final class Standing {
    final Build build;
    final InstallationSpec installation;
    final double hotC;
    final double coldC;
    final double holdPa;
    /** At hold pressure, hottest and coldest oil. */
    final PumpPoint hotHold;

    final PumpPoint coldHold;
    /** Where the line settles, hottest and coldest oil. */
    final double hotPa;

    final double coldPa;
    final PumpPoint hot;
    final PumpPoint cold;

    Standing(Build build) {
        this.build = build;
        installation = build.installation();
        List<Double> temperatures = build.limits().oilTemperaturesC();
        hotC = Collections.max(temperatures);
        coldC = Collections.min(temperatures);
        holdPa = build.limits().holdPressurePa();
        hotHold = PumpPoint.at(build, hotC, holdPa);
        coldHold = PumpPoint.at(build, coldC, holdPa);
        hotPa = PumpPoint.standingPa(build, hotC);
        coldPa = PumpPoint.standingPa(build, coldC);
        hot = PumpPoint.at(build, hotC, hotPa);
        cold = PumpPoint.at(build, coldC, coldPa);
    }

    /** Largest flow into the line at hold pressure over the oil temperatures of the build, m³/s. */
    double largestFlowM3PerS() {
        return points().mapToDouble(PumpPoint::flowM3PerS).max().orElseThrow();
    }

    /** Largest flow through the suction line, what returns through the relief included, m³/s. */
    double largestSuctionM3PerS() {
        return points().mapToDouble(this::suctionM3PerS).max().orElseThrow();
    }

    private Stream<PumpPoint> points() {
        return build.limits().oilTemperaturesC().stream().map(oilC -> PumpPoint.at(build, oilC, holdPa));
    }

    double suctionM3PerS(PumpPoint point) {
        return build.electricPump().displacementM3PerRev() / (2 * Math.PI) * point.speedRadPerS();
    }

    /** Largest running current of the motor, hottest or coldest oil, A. */
    double largestRunningAmps() {
        return Math.max(hot.amps(), cold.amps());
    }

    /** Resistance of the motor's circuit outside the motor, Ω. */
    double feedOhm() {
        return build.supply().sourceResistanceOhm()
                + build.supply().wireResistanceOhm()
                + build.relay().contactResistanceOhm();
    }

    /** Current of the stalled motor with its copper at a temperature, A; the build's resistances count at 20 °C. */
    double stallAmps(double copperC) {
        double copperOhm =
                build.electricPump().armatureResistanceOhm() + build.supply().wireResistanceOhm();
        double restOhm = build.relay().contactResistanceOhm() + build.supply().sourceResistanceOhm();
        return build.supply().openVolts() / (copperOhm * Copper.warm(copperC) + restOhm);
    }

    /** Start of the motor at an oil temperature against hold pressure. */
    MotorStart start(PumpPoint hold) {
        double viscous = build.electricPump().viscousTorqueNmS()
                * hold.oil().viscosityPaS()
                / build.hose().referenceViscosityPaS();
        return MotorStart.of(
                build.supply().openVolts(),
                build.electricPump().armatureResistanceOhm() + feedOhm(),
                build.electricPump().motorConstantVsPerRad(),
                build.electricPump().inertiaKgM2(),
                viscous,
                loadNm(hold.outletPa()));
    }

    /** Torque that the pump asks of its motor at an outlet pressure, but for viscous friction, N·m. */
    double loadNm(double outletPa) {
        return build.electricPump().displacementM3PerRev() / (2 * Math.PI) * outletPa
                + build.electricPump().coulombTorqueNm();
    }

    Draft line(Topic topic, String key, String title) {
        return new Draft(installation, topic, key, title);
    }
}

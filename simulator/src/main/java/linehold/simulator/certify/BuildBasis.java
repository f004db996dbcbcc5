package linehold.simulator.certify;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.Map;
import linehold.controller.Controller;
import linehold.controller.calibration.Calibration;
import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.LineSpec.AccumulatorSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.build.Spread;
import linehold.simulator.certificate.Bounds;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Switching;
import linehold.simulator.certificate.Parameter;

/** What a certificate takes from a build: its numbers, with their spreads, as ranges. */
public final class BuildBasis {
    /**
     * How much later than a period after the one before a tick may come, s; assumed: what a small board without a real-time
     * kernel must keep. The loop counts later ones.
     */
    public static final double LATE_TICK_S = 0.5e-3;

    /** Stands for "no fill limit": far above any shaft speed, rev/s. */
    private static final double NO_FILL_LIMIT = 1e6;

    private BuildBasis() {}

    /** @param spreads whether any car within the spreads is meant, or the car as written alone */
    public static Basis of(Build build, boolean spreads) {
        Build low = spreads ? build.car(values(build, true)) : build;
        Build high = spreads ? build.car(values(build, false)) : build;
        // Every parameter grows with each key that it is made of, or falls with none, so its ends are at theirs.
        Map<Parameter, Double> least = parameters(low, true);
        Map<Parameter, Double> most = parameters(high, false);
        Map<Parameter, Bounds> ranges = new EnumMap<>(Parameter.class);
        for (Parameter parameter : Parameter.values()) {
            ranges.put(parameter, new Bounds(least.get(parameter), most.get(parameter)));
        }
        return new Basis(
                build.name(),
                build.sha256(),
                spreads,
                ranges,
                switching(build.calibration(), closing(high)),
                build.limits().holdPressurePa(),
                build.limits().oilTemperaturesC().stream()
                        .min(Comparator.naturalOrder())
                        .orElseThrow(),
                build.limits().oilTemperaturesC().stream()
                        .max(Comparator.naturalOrder())
                        .orElseThrow());
    }

    /** The same over other oil temperatures. */
    public static Basis within(Basis basis, double coldestC, double hottestC) {
        return new Basis(
                basis.build(),
                basis.sha256(),
                basis.spreads(),
                basis.ranges(),
                basis.switching(),
                basis.holdPa(),
                coldestC,
                hottestC);
    }

    private static double[] values(Build build, boolean low) {
        return build.spreads().all().stream()
                .mapToDouble(low ? Spread::low : Spread::high)
                .toArray();
    }

    private static RelaySpec closing(Build build) {
        boolean normallyClosed = build.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        return normallyClosed ? build.relay().seenFromNormallyClosedContact() : build.relay();
    }

    private static Switching switching(Calibration calibration, RelaySpec relay) {
        return new Switching(
                calibration.get(Key.SWITCH_ON_SPEED),
                calibration.get(Key.SWITCH_OFF_SPEED),
                2 * Math.PI / calibration.get(Key.PULSES_PER_REVOLUTION),
                calibration.get(Key.CONTROL_PERIOD),
                LATE_TICK_S,
                Controller.SWITCH_ON_TICKS,
                relay.pullInS(),
                relay.bounceS(),
                calibration.get(Key.SWITCH_OFF_CONFIRM_TIME));
    }

    private static Map<Parameter, Double> parameters(Build b, boolean least) {
        Map<Parameter, Double> p = new EnumMap<>(Parameter.class);
        p.put(Parameter.OIL_VISCOSITY_40_M2_PER_S, b.oil().kinematicViscosity40M2PerS());
        p.put(Parameter.OIL_VISCOSITY_100_M2_PER_S, b.oil().kinematicViscosity100M2PerS());
        p.put(Parameter.OIL_DENSITY_15_KG_PER_M3, b.oil().density15KgPerM3());
        p.put(Parameter.OIL_EXPANSION_PER_K, b.oil().expansionPerK());
        p.put(Parameter.OIL_BULK_MODULUS_PA, b.oil().bulkModulusPa());
        p.put(Parameter.OIL_ENTRAINED_AIR, b.oil().entrainedAir());
        p.put(Parameter.LINE_VOLUME_M3, b.line().volumeM3());
        p.put(Parameter.LINE_STRUCTURE_COMPLIANCE_M3_PER_PA, b.line().structureComplianceM3PerPa());
        p.put(Parameter.LINE_LAMINAR_LEAK_M3, b.line().laminarLeakM3());
        p.put(Parameter.LINE_ORIFICE_LEAK_M2, b.line().orificeLeakM2());
        p.put(Parameter.ORIFICE_LINEAR_BELOW_PA, b.line().linearBelowPa());
        AccumulatorSpec gas = b.line().accumulator();
        p.put(Parameter.ACCUMULATOR_PRECHARGE_PA, gas == null ? 1e12 : gas.prechargePa());
        p.put(Parameter.ACCUMULATOR_GAS_M3, gas == null ? 0.0 : gas.gasVolumeM3());
        p.put(Parameter.INTERNAL_DISPLACEMENT_M3_PER_REV, b.internalPump().displacementM3PerRev());
        p.put(Parameter.INTERNAL_SLIP_M3, b.internalPump().slipM3());
        p.put(
                Parameter.INTERNAL_FILL_LIMIT_REV_PER_S,
                Math.min(NO_FILL_LIMIT, b.internalPump().fillLimitRevPerS()));
        p.put(Parameter.REGULATOR_GAIN_M3_PER_S_PA, b.regulator().gainM3PerSPa());
        p.put(
                Parameter.REGULATOR_SET_PA,
                Math.min(b.regulator().setDrivePa(), b.regulator().setReversePa()));
        putElectric(b, p);
        p.put(Parameter.FEED_AREA_M2, b.feed().feedAreaM2());
        p.put(Parameter.ELEMENT_COMPLIANCE_M3_PER_PA, end(b, least, true));
        p.put(Parameter.ELEMENT_TOUCH_PA, end(b, least, false));
        return p;
    }

    private static void putElectric(Build b, Map<Parameter, Double> p) {
        p.put(Parameter.ELECTRIC_DISPLACEMENT_M3_PER_REV, b.electricPump().displacementM3PerRev());
        p.put(Parameter.ELECTRIC_SLIP_M3, b.electricPump().slipM3());
        p.put(Parameter.MOTOR_CONSTANT_V_S_PER_RAD, b.electricPump().motorConstantVsPerRad());
        p.put(Parameter.MOTOR_ARMATURE_OHM, b.electricPump().armatureResistanceOhm());
        p.put(Parameter.MOTOR_INERTIA_KG_M2, b.electricPump().inertiaKgM2());
        p.put(Parameter.MOTOR_COULOMB_NM, b.electricPump().coulombTorqueNm());
        p.put(Parameter.MOTOR_VISCOUS_NM_S, b.electricPump().viscousTorqueNmS());
        p.put(Parameter.RELIEF_PA, b.electricPump().reliefPa());
        p.put(Parameter.HOSE_CRACK_PA, b.hose().crackPa());
        p.put(Parameter.HOSE_LAMINAR_PA_S_PER_M3, b.hose().laminarPaSPerM3());
        p.put(Parameter.HOSE_TURBULENT_PA_S2_PER_M6, b.hose().turbulentPaS2PerM6());
        p.put(Parameter.HOSE_REFERENCE_VISCOSITY_PA_S, b.hose().referenceViscosityPaS());
        p.put(Parameter.HOSE_REFERENCE_DENSITY_KG_PER_M3, b.hose().referenceDensityKgPerM3());
        p.put(Parameter.BUS_OPEN_V, b.supply().openVolts());
        p.put(Parameter.BUS_SOURCE_OHM, b.supply().sourceResistanceOhm());
        p.put(Parameter.WIRE_OHM, b.supply().wireResistanceOhm());
        p.put(Parameter.CONTACT_OHM, b.relay().contactResistanceOhm());
    }

    /** The least or the most over all apply elements: each of them may be the engaged one. */
    private static double end(Build build, boolean least, boolean compliance) {
        var values = build.elements().stream()
                .mapToDouble(compliance ? ApplyElementSpec::complianceM3PerPa : ApplyElementSpec::touchPressurePa);
        return (least ? values.min() : values.max()).orElseThrow();
    }
}

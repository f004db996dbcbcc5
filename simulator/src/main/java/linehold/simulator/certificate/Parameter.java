package linehold.simulator.certificate;

import java.util.Locale;

/** Every number of the car that the certified equations use; the unit, SI, ends its name. */
public enum Parameter {
    /** Kinematic viscosity at 40 °C. */
    OIL_VISCOSITY_40_M2_PER_S,
    /** Kinematic viscosity at 100 °C. */
    OIL_VISCOSITY_100_M2_PER_S,
    OIL_DENSITY_15_KG_PER_M3,
    OIL_EXPANSION_PER_K,
    OIL_BULK_MODULUS_PA,
    /** Volume fraction of air in the oil at atmospheric pressure. */
    OIL_ENTRAINED_AIR,
    LINE_VOLUME_M3,
    LINE_STRUCTURE_COMPLIANCE_M3_PER_PA,
    LINE_LAMINAR_LEAK_M3,
    LINE_ORIFICE_LEAK_M2,
    /** Pressure difference below which an orifice is linearised. */
    ORIFICE_LINEAR_BELOW_PA,
    /** Absolute. */
    ACCUMULATOR_PRECHARGE_PA,
    /** 0 where no accumulator is fitted. */
    ACCUMULATOR_GAS_M3,
    INTERNAL_DISPLACEMENT_M3_PER_REV,
    INTERNAL_SLIP_M3,
    INTERNAL_FILL_LIMIT_REV_PER_S,
    REGULATOR_GAIN_M3_PER_S_PA,
    /** The lower one of the driving ranges. */
    REGULATOR_SET_PA,
    ELECTRIC_DISPLACEMENT_M3_PER_REV,
    ELECTRIC_SLIP_M3,
    MOTOR_CONSTANT_V_S_PER_RAD,
    MOTOR_ARMATURE_OHM,
    MOTOR_INERTIA_KG_M2,
    MOTOR_COULOMB_NM,
    /** At the reference viscosity. */
    MOTOR_VISCOUS_NM_S,
    RELIEF_PA,
    HOSE_CRACK_PA,
    HOSE_LAMINAR_PA_S_PER_M3,
    HOSE_TURBULENT_PA_S2_PER_M6,
    HOSE_REFERENCE_VISCOSITY_PA_S,
    HOSE_REFERENCE_DENSITY_KG_PER_M3,
    /** Open-circuit voltage of the bus. */
    BUS_OPEN_V,
    BUS_SOURCE_OHM,
    WIRE_OHM,
    CONTACT_OHM,
    FEED_AREA_M2,
    /** Give of a pressed pack, over all apply elements. */
    ELEMENT_COMPLIANCE_M3_PER_PA,
    /** Piston pressure at touch, over all apply elements. */
    ELEMENT_TOUCH_PA;

    /** The name in the file. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}

package linehold.simulator.build;

import static linehold.simulator.build.BuildKey.*;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import linehold.controller.calibration.Calibration;
import linehold.simulator.build.ApplyElementSpec.Band;
import linehold.simulator.build.ApplyElementSpec.Discs;
import linehold.simulator.build.LineSpec.AccumulatorSpec;

/** Turns checked values into the records of a {@link Build}. */
final class BuildAssembly {
    private final BuildValues values;

    BuildAssembly(BuildValues values) {
        this.values = values;
    }

    Build build(String sha256) {
        List<ApplyElementSpec> elements = elements();
        Calibration calibration = CalibrationReader.read(values, elements);
        return build(elements, calibration, new Spreads(values.spreads(), values), values.warnings(), sha256);
    }

    /** One car of a build: these values, with the calibration of the nominal ones. */
    Build car(Build nominal) {
        return build(elements(), nominal.calibration(), Spreads.NONE, List.of(), nominal.sha256())
                .withUnits(nominal.units());
    }

    private List<ApplyElementSpec> elements() {
        return List.of(lowBand(), highClutch(), reverseClutch());
    }

    private Build build(
            List<ApplyElementSpec> elements,
            Calibration calibration,
            Spreads spreads,
            List<String> warnings,
            String sha256) {
        return new Build(
                values.text(NAME),
                values.has(DESCRIPTION) ? values.text(DESCRIPTION) : "",
                BuildFile.units(values.text(UNITS)),
                oil(),
                line(),
                new InternalPumpSpec(si(INTERNAL_DISPLACEMENT), si(INTERNAL_SLIP), fillLimitRevPerS()),
                new RegulatorSpec(
                        si(REGULATOR_GAIN), si(REGULATOR_DRIVE), si(REGULATOR_REVERSE), si(REGULATOR_PARK_NEUTRAL)),
                electricPump(),
                hose(),
                new RelaySpec(si(RELAY_PULL_IN), si(RELAY_DROP_OUT), si(RELAY_BOUNCE), si(RELAY_CONTACT)),
                new SupplySpec(si(SUPPLY_OPEN_VOLTAGE), si(SUPPLY_SOURCE), si(SUPPLY_WIRE)),
                new FeedSpec(boreArea(FEED_BORE), boreArea(FEED_EXHAUST_BORE)),
                elements,
                gears(),
                car(),
                sensors(),
                limits(),
                installation(),
                calibration,
                spreads,
                warnings,
                sha256);
    }

    private double si(BuildKey key) {
        return values.si(key);
    }

    /** Cd·A of a bore: Cd·π/4·d². */
    private double boreArea(BuildKey bore) {
        double diameterM = si(bore);
        return si(LINE_DISCHARGE_COEFFICIENT) * Math.PI / 4 * diameterM * diameterM;
    }

    private OilSpec oil() {
        return new OilSpec(
                si(OIL_VISCOSITY_40),
                si(OIL_VISCOSITY_100),
                si(OIL_POUR_POINT),
                si(OIL_DENSITY_15),
                si(OIL_EXPANSION),
                si(OIL_BULK_MODULUS),
                si(OIL_ENTRAINED_AIR));
    }

    private LineSpec line() {
        AccumulatorSpec accumulator = values.has(ACCUMULATOR_PRECHARGE)
                ? new AccumulatorSpec(si(ACCUMULATOR_PRECHARGE), si(ACCUMULATOR_GAS_VOLUME))
                : null;
        return new LineSpec(
                si(LINE_VOLUME),
                si(LINE_COMPLIANCE),
                si(LINE_LAMINAR_LEAK),
                boreArea(LINE_LEAK_BORE),
                si(LINE_LINEAR_BELOW),
                accumulator);
    }

    private double fillLimitRevPerS() {
        return values.has(INTERNAL_FILL_LIMIT) ? si(INTERNAL_FILL_LIMIT) / (2 * Math.PI) : Double.POSITIVE_INFINITY;
    }

    private ElectricPumpSpec electricPump() {
        return new ElectricPumpSpec(
                si(ELECTRIC_DISPLACEMENT),
                si(ELECTRIC_SLIP),
                si(ELECTRIC_MOTOR_CONSTANT),
                si(ELECTRIC_ARMATURE),
                si(ELECTRIC_INERTIA),
                si(ELECTRIC_DRY_FRICTION),
                si(ELECTRIC_VISCOUS_FRICTION),
                si(ELECTRIC_RELIEF));
    }

    private HoseSpec hose() {
        return new HoseSpec(
                si(HOSE_CRACKING),
                si(HOSE_LAMINAR),
                si(HOSE_TURBULENT),
                si(HOSE_REFERENCE_VISCOSITY),
                si(HOSE_REFERENCE_DENSITY),
                boreArea(HOSE_FAILED_OPEN_BORE));
    }

    private ApplyElementSpec lowBand() {
        return new ApplyElementSpec(
                si(BAND_STROKE),
                si(BAND_COMPLIANCE),
                si(BAND_RETURN),
                si(BAND_TOUCH),
                si(BAND_AREA),
                si(BAND_FRICTION),
                si(BAND_SHARE),
                new Band(si(BAND_RADIUS), si(BAND_WRAP), values.flag(BAND_HELPS)));
    }

    private ApplyElementSpec highClutch() {
        return new ApplyElementSpec(
                si(HIGH_STROKE),
                si(HIGH_COMPLIANCE),
                si(HIGH_RETURN),
                si(HIGH_TOUCH),
                si(HIGH_AREA),
                si(HIGH_FRICTION),
                si(HIGH_SHARE),
                new Discs(values.count(HIGH_FACES), si(HIGH_RADIUS)));
    }

    private ApplyElementSpec reverseClutch() {
        return new ApplyElementSpec(
                si(REVERSE_STROKE),
                si(REVERSE_COMPLIANCE),
                si(REVERSE_RETURN),
                si(REVERSE_TOUCH),
                si(REVERSE_AREA),
                si(REVERSE_FRICTION),
                si(REVERSE_SHARE),
                new Discs(values.count(REVERSE_FACES), si(REVERSE_RADIUS)));
    }

    private GearsSpec gears() {
        return new GearsSpec(
                si(GEARS_FIRST),
                si(GEARS_TOP),
                si(GEARS_REVERSE),
                si(GEARS_FINAL),
                si(GEARS_SHIFT_UP),
                si(GEARS_SHIFT_DOWN),
                si(GEARS_SHIFT_TIME));
    }

    private CarSpec car() {
        return new CarSpec(
                si(CAR_MASS),
                si(CAR_TYRE_RADIUS),
                si(CAR_DRAG_AREA),
                si(CAR_ROLLING),
                si(CAR_AIR_DENSITY),
                si(CAR_PEAK_TORQUE),
                si(CAR_REVERSE_TORQUE),
                si(CAR_OVERRUN_TORQUE));
    }

    private SensorsSpec sensors() {
        return new SensorsSpec(
                values.count(SENSORS_PULSES),
                si(SENSORS_FULL_SCALE),
                si(SENSORS_LAG),
                si(SENSORS_NOISE),
                si(SENSORS_SUPPLY),
                values.count(SENSORS_ADC_BITS),
                si(SENSORS_ADC_FULL_SCALE),
                values.flag(SENSORS_CURRENT_FITTED),
                values.flag(SENSORS_OIL_FITTED),
                values.flag(SENSORS_BRAKE_FITTED),
                values.flag(SENSORS_RANGE_FITTED),
                values.flag(SENSORS_TORQUE_FITTED));
    }

    private LimitsSpec limits() {
        return new LimitsSpec(
                si(LIMITS_HOLD),
                si(LIMITS_SAFETY),
                si(LIMITS_WARM),
                si(LIMITS_COLD),
                values.list(LIMITS_OIL_TEMPERATURES),
                values.words(LIMITS_UNCOVERED));
    }

    private InstallationSpec installation() {
        Map<InstallationKey, Double> given = new EnumMap<>(InstallationKey.class);
        for (InstallationKey key : InstallationKey.values()) {
            values.find(key.path())
                    .filter(value -> value.value() instanceof Number)
                    .ifPresent(value -> given.put(key, ((Number) value.value()).doubleValue()));
        }
        String fuse = (String)
                values.find(InstallationKey.FUSE_TYPE.path()).orElseThrow().value();
        return new InstallationSpec(
                given,
                InstallationSpec.FuseType.valueOf(fuse.toUpperCase(Locale.ROOT).replace('-', '_')));
    }
}

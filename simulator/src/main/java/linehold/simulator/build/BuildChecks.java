package linehold.simulator.build;

import static linehold.simulator.build.BuildKey.*;

import java.util.List;
import java.util.Locale;

/**
 * Refuses a build whose values are possible one by one but not together, in any car within the spreads. Every message
 * names both keys.
 */
final class BuildChecks {
    private final BuildValues values;

    private BuildChecks(BuildValues values) {
        this.values = values;
    }

    static void check(BuildValues values) {
        BuildChecks checks = new BuildChecks(values);
        checks.oilAndLine();
        checks.pumpAndHose();
        checks.element(BAND_RETURN, BAND_TOUCH);
        checks.element(HIGH_RETURN, HIGH_TOUCH);
        checks.element(REVERSE_RETURN, REVERSE_TOUCH);
        checks.gears();
        checks.sensors();
        checks.atLeast(LIMITS_COLD, LIMITS_WARM);
        checks.installation();
    }

    private void oilAndLine() {
        above(OIL_VISCOSITY_40, OIL_VISCOSITY_100);
        for (BuildKey set : List.of(REGULATOR_DRIVE, REGULATOR_REVERSE, REGULATOR_PARK_NEUTRAL)) {
            above(set, LIMITS_HOLD);
        }
        together(ACCUMULATOR_PRECHARGE, ACCUMULATOR_GAS_VOLUME);
        together(ACCUMULATOR_GAS_VOLUME, ACCUMULATOR_PRECHARGE);
    }

    private void pumpAndHose() {
        above(ELECTRIC_RELIEF, HOSE_CRACKING);
        double ohm = values.high(ELECTRIC_ARMATURE)
                + values.high(SUPPLY_WIRE)
                + values.high(SUPPLY_SOURCE)
                + values.high(RELAY_CONTACT);
        double stallNm = values.low(ELECTRIC_MOTOR_CONSTANT) * values.low(SUPPLY_OPEN_VOLTAGE) / ohm;
        if (values.high(ELECTRIC_DRY_FRICTION) >= stallNm) {
            throw contradiction(
                    ELECTRIC_DRY_FRICTION,
                    String.format(Locale.ROOT, "less than %.3g N.m, the stall torque on this supply, given", stallNm),
                    ELECTRIC_MOTOR_CONSTANT);
        }
    }

    /** An element that touched only at or above hold pressure would carry nothing when the line just holds. */
    private void element(BuildKey returns, BuildKey touch) {
        above(touch, returns);
        below(touch, LIMITS_HOLD);
    }

    private void gears() {
        above(GEARS_FIRST, GEARS_TOP);
        double afterUp = values.low(GEARS_SHIFT_UP) * values.low(GEARS_TOP) / values.high(GEARS_FIRST);
        if (values.high(GEARS_SHIFT_DOWN) >= afterUp) {
            String rpm = String.format(
                    Locale.ROOT,
                    "%.0f rpm",
                    Quantity.ROTATION.unit("rpm").orElseThrow().fromSi(afterUp));
            throw contradiction(
                    GEARS_SHIFT_DOWN,
                    "less than " + rpm + ", to which the motor falls after shifting up (or the gears hunt), given",
                    GEARS_SHIFT_UP);
        }
    }

    private void sensors() {
        above(SENSORS_FULL_SCALE, REGULATOR_REVERSE);
        above(SENSORS_FULL_SCALE, REGULATOR_DRIVE);
        atLeast(SENSORS_ADC_FULL_SCALE, SENSORS_SUPPLY);
    }

    private void installation() {
        String outer = InstallationKey.COUPLING_MAJOR.path();
        String inner = InstallationKey.COUPLING_MINOR.path();
        if (values.find(outer).isPresent() && values.find(inner).isPresent()) {
            BuildValues.Value major = values.find(outer).get();
            BuildValues.Value minor = values.find(inner).get();
            if ((Double) minor.value() >= (Double) major.value()) {
                throw values.error(
                        inner, "found '" + minor.text() + "', expected less than " + outer + " '" + major.text() + "'");
            }
        }
    }

    private void above(BuildKey key, BuildKey other) {
        if (values.low(key) <= values.high(other)) {
            throw contradiction(key, "more than", other);
        }
    }

    private void below(BuildKey key, BuildKey other) {
        if (values.high(key) >= values.low(other)) {
            throw contradiction(key, "less than", other);
        }
    }

    private void atLeast(BuildKey key, BuildKey other) {
        if (values.low(key) < values.high(other)) {
            throw contradiction(key, "at least", other);
        }
    }

    private void together(BuildKey given, BuildKey other) {
        if (values.has(given) && !values.has(other)) {
            throw values.error(
                    other.path(),
                    "missing beside " + values.mention(given) + ", expected "
                            + other.key().expected());
        }
    }

    private InputException contradiction(BuildKey key, String relation, BuildKey other) {
        return values.error(key.path(), values.found(key) + ", expected " + relation + " " + values.mention(other));
    }
}

package linehold.simulator.build;

import java.util.List;
import java.util.Objects;
import linehold.controller.calibration.Calibration;

/**
 * One car with its oil, pumps, wiring, clutches, sensors, limits and calibration: the build file, read and checked.
 *
 * @param spreads how far values may lie off from car to car
 * @param warnings values that lie outside their usual range, one sentence each with file, line and column
 */
public record Build(
        String name,
        String description,
        UnitSystem units,
        OilSpec oil,
        LineSpec line,
        InternalPumpSpec internalPump,
        RegulatorSpec regulator,
        ElectricPumpSpec electricPump,
        HoseSpec hose,
        RelaySpec relay,
        SupplySpec supply,
        FeedSpec feed,
        List<ApplyElementSpec> elements,
        GearsSpec gears,
        CarSpec car,
        SensorsSpec sensors,
        LimitsSpec limits,
        InstallationSpec installation,
        Calibration calibration,
        Spreads spreads,
        List<String> warnings,
        String sha256) {

    public Build {
        elements = List.copyOf(elements);
        if (elements.size() != Element.COUNT) {
            throw new IllegalArgumentException("a build has exactly " + Element.COUNT + " apply elements");
        }
        Objects.requireNonNull(installation, "installation");
        Objects.requireNonNull(calibration, "calibration");
        Objects.requireNonNull(spreads, "spreads");
        warnings = List.copyOf(warnings);
    }

    /** A build that no file describes: it has no spreads and no warnings. */
    public Build(
            String name,
            String description,
            UnitSystem units,
            OilSpec oil,
            LineSpec line,
            InternalPumpSpec internalPump,
            RegulatorSpec regulator,
            ElectricPumpSpec electricPump,
            HoseSpec hose,
            RelaySpec relay,
            SupplySpec supply,
            FeedSpec feed,
            List<ApplyElementSpec> elements,
            GearsSpec gears,
            CarSpec car,
            SensorsSpec sensors,
            LimitsSpec limits,
            InstallationSpec installation,
            Calibration calibration,
            String sha256) {
        this(
                name,
                description,
                units,
                oil,
                line,
                internalPump,
                regulator,
                electricPump,
                hose,
                relay,
                supply,
                feed,
                elements,
                gears,
                car,
                sensors,
                limits,
                installation,
                calibration,
                Spreads.NONE,
                List.of(),
                sha256);
    }

    /**
     * One car of this build, with the calibration of the nominal one.
     *
     * @param si a value for each of {@link #spreads}, SI
     */
    public Build car(double[] si) {
        return spreads.car(this, si);
    }

    public ApplyElementSpec element(Element element) {
        return elements.get(element.ordinal());
    }

    /** The same, shown in other units. */
    public Build withUnits(UnitSystem newUnits) {
        return new Build(
                name,
                description,
                newUnits,
                oil,
                line,
                internalPump,
                regulator,
                electricPump,
                hose,
                relay,
                supply,
                feed,
                elements,
                gears,
                car,
                sensors,
                limits,
                installation,
                calibration,
                spreads,
                warnings,
                sha256);
    }

    /** The same with another calibration; the caller sees to it that it fits the car. */
    public Build withCalibration(Calibration newCalibration) {
        return new Build(
                name,
                description,
                units,
                oil,
                line,
                internalPump,
                regulator,
                electricPump,
                hose,
                relay,
                supply,
                feed,
                elements,
                gears,
                car,
                sensors,
                limits,
                installation,
                newCalibration,
                spreads,
                warnings,
                sha256);
    }
}

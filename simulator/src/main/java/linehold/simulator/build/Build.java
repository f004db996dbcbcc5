package linehold.simulator.build;

import java.util.List;
import java.util.Objects;
import linehold.controller.calibration.Calibration;

/** One car with its oil, pumps, wiring, clutches, sensors, limits and calibration: the build file, read and checked. */
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
        String sha256) {

    public Build {
        elements = List.copyOf(elements);
        if (elements.size() != Element.COUNT) {
            throw new IllegalArgumentException("a build has exactly " + Element.COUNT + " apply elements");
        }
        Objects.requireNonNull(installation, "installation");
        Objects.requireNonNull(calibration, "calibration");
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
                sha256);
    }
}

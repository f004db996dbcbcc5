package linehold.simulator.build;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import linehold.controller.calibration.Key;

/**
 * Every key of the build file: {@link BuildKey}, {@link InstallationKey} and the typed calibration keys of the
 * controller, in file order within each section.
 */
final class FileKeys {
    static final String CALIBRATION = "calibration";

    /** Sections and what the starting file says above them, in file order. */
    static final List<Section> SECTIONS = List.of(
            new Section("oil", "Transmission oil."),
            new Section("line", "The pressure line: what stores oil and what loses it."),
            new Section("line.accumulator", "Gas accumulator on the line."),
            new Section("internal-pump", "The transmission's own pump on the motor shaft."),
            new Section("regulator", "Line pressure regulator valve."),
            new Section("electric-pump", "Electric pump with its permanent-magnet DC motor."),
            new Section("hose", "Check valve and hose from the electric pump to the line."),
            new Section("relay", "Relay of the electric pump."),
            new Section("supply", "12 V bus and cable of the electric pump."),
            new Section("feed", "Bores between the line and every apply element."),
            new Section("low-band", "First gear: the band."),
            new Section("high-clutch", "Top gear: the disc clutch."),
            new Section("reverse-clutch", "Reverse: the disc clutch."),
            new Section("gears", "Ratios and shift points."),
            new Section("car", "The car, for road load and wheel speed."),
            new Section("sensors", "What the controller sees the car through."),
            new Section("limits", "What 'held' means for this car."),
            new Section(
                    "installation", "The parts around the electric pump, for the sizing sheet; each may be left out."),
            new Section("installation.hose", "Hose from the electric pump to the line."),
            new Section("installation.suction", "Line from the sump to the electric pump."),
            new Section("installation.cable", "Cable from the battery to the electric pump and back."),
            new Section("installation.fuse", "Fuse of the electric pump."),
            new Section("installation.relay", "What the relay of the electric pump is rated for."),
            new Section("installation.coupling", "Splined coupling between motor and transmission."),
            new Section("installation.shaft-fit", "How both shafts sit in the coupling between the facing flanges."),
            new Section("installation.tyre", "What the driven tyres can put on the road."),
            new Section("controller", "The controller's computer."),
            new Section(CALIBRATION, "How the controller decides; a key left out has its default."));

    /**
     * @param path where its keys stand
     * @param meaning one sentence
     */
    record Section(String path, String meaning) {
        String name() {
            return path.substring(path.lastIndexOf('.') + 1);
        }

        /** The section it stands in; empty for the top level. */
        String parent() {
            int dot = path.lastIndexOf('.');
            return dot < 0 ? "" : path.substring(0, dot);
        }
    }

    static final List<FileKey> ALL = all();

    private FileKeys() {}

    private static List<FileKey> all() {
        List<FileKey> keys = new ArrayList<>();
        for (BuildKey key : BuildKey.values()) {
            keys.add(key.key());
        }
        for (InstallationKey key : InstallationKey.values()) {
            keys.add(key.key());
        }
        for (Key key : Key.values()) {
            if (key.source() == Key.Source.TYPED) {
                keys.add(calibrationKey(key));
            }
        }
        return List.copyOf(keys);
    }

    static String path(Key key) {
        return CALIBRATION + "." + key.yamlName();
    }

    private static FileKey calibrationKey(Key key) {
        Unit unit = typedUnit(key);
        return shape(key, unit).byDefault(standard(key, unit)).meaning(key.reason());
    }

    private static FileKey shape(Key key, Unit unit) {
        FileKey.Type type = switch (key.quantity()) {
            case FLAG -> FileKey.Type.FLAG;
            case COUNT -> FileKey.Type.COUNT;
            case SPEED, ANGULAR_ACCELERATION, PRESSURE, TIME, TORQUE, TORQUE_PER_PRESSURE, VOLTAGE, CURRENT, RATIO ->
                key.shape() == Key.Shape.SCALAR ? FileKey.Type.QUANTITY : FileKey.Type.CURVE;
        };
        if (type == FileKey.Type.FLAG) {
            return FileKey.flag(path(key));
        }
        return FileKey.of(path(key), type, quantity(key), standard(key, unit))
                .between(
                        key.least(),
                        key.most(),
                        Quantities.write(key.least(), unit),
                        Quantities.write(key.most(), unit));
    }

    /** The kind of quantity that a person types for a calibration key. */
    private static Quantity quantity(Key key) {
        return switch (key.quantity()) {
            case SPEED -> Quantity.ROTATION;
            case ANGULAR_ACCELERATION -> Quantity.ANGULAR_ACCELERATION;
            case PRESSURE -> Quantity.PRESSURE;
            case TIME -> Quantity.TIME;
            case TORQUE -> Quantity.TORQUE;
            case VOLTAGE -> Quantity.VOLTAGE;
            case CURRENT -> Quantity.CURRENT;
            case COUNT, RATIO, FLAG -> Quantity.RATIO;
            case TORQUE_PER_PRESSURE -> throw new IllegalStateException(key.yamlName() + " follows from the build");
        };
    }

    private static Unit typedUnit(Key key) {
        String label = switch (quantity(key)) {
            case ROTATION -> "rpm";
            case ANGULAR_ACCELERATION -> "rpm/s";
            case PRESSURE -> "bar";
            case TIME -> Arrays.stream(key.defaultValues()).max().orElseThrow() < 0.5 ? "ms" : "s";
            default -> quantity(key).units().get(0).label();
        };
        return quantity(key).unit(label).orElseThrow();
    }

    private static String standard(Key key, Unit unit) {
        if (key.quantity() == linehold.controller.calibration.Quantity.FLAG) {
            return key.defaultValue() == 1 ? "true" : "false";
        }
        if (key.shape() == Key.Shape.SCALAR) {
            return Quantities.write(key.defaultValue(), unit);
        }
        List<String> points = new ArrayList<>();
        for (int i = 0; i < key.defaultOilC().length; i++) {
            points.add(String.format(
                    Locale.ROOT, "%.0f °C: %s", key.defaultOilC()[i], Quantities.write(key.defaultValues()[i], unit)));
        }
        return "{" + String.join(", ", points) + "}";
    }
}

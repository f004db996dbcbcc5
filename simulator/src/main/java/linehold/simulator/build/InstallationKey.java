package linehold.simulator.build;

import static linehold.simulator.build.FileKey.choice;
import static linehold.simulator.build.FileKey.count;
import static linehold.simulator.build.FileKey.quantity;
import static linehold.simulator.build.Provenance.ASSUMED;
import static linehold.simulator.build.Provenance.COMMON_PRACTICE;
import static linehold.simulator.build.Provenance.MEASURED;
import static linehold.simulator.build.Provenance.PUBLISHED;
import static linehold.simulator.build.Quantity.AREA;
import static linehold.simulator.build.Quantity.CURRENT;
import static linehold.simulator.build.Quantity.LENGTH;
import static linehold.simulator.build.Quantity.MASS;
import static linehold.simulator.build.Quantity.PRESSURE;
import static linehold.simulator.build.Quantity.RATIO;
import static linehold.simulator.build.Quantity.TEMPERATURE;
import static linehold.simulator.build.Quantity.VOLUME;

/**
 * Every key of the section {@code installation}: the parts around the electric pump as they are bought and fitted. Only
 * the sizing sheet needs them, so all may be left out; the circuit is computed without them. Rows as in {@link BuildKey}.
 */
public enum InstallationKey {
    OIL_VOLUME(quantity("installation.oil-volume", VOLUME, "0.5 L", "50 L", "5 L")
            .optional()
            .from(MEASURED, "Oil in the transmission, all of it.")
            .usual("3 L", "12 L", COMMON_PRACTICE)),
    START_GRADE(quantity("installation.start-grade", RATIO, "0 %", "60 %", "20 %")
            .byDefault("20 %")
            .from(ASSUMED, "Steepest hill the car must start on, height over way along level ground.")
            .usual("10 %", "35 %", COMMON_PRACTICE)),

    HOSE_BORE(quantity("installation.hose.bore", LENGTH, "2 mm", "50 mm", "9.5 mm")
            .optional()
            .from(PUBLISHED, "Bore of the hose from the electric pump to the line.")
            .usual("6 mm", "16 mm", COMMON_PRACTICE)),
    HOSE_LENGTH(quantity("installation.hose.length", LENGTH, "0.05 m", "20 m", "1.6 m")
            .optional()
            .from(MEASURED, "Its length.")
            .usual("0.3 m", "3 m", ASSUMED)),
    HOSE_FITTINGS(quantity("installation.hose.fittings", RATIO, "0", "100", "6")
            .optional()
            .from(
                    PUBLISHED,
                    "Sum of the loss coefficients K of its fittings: a check valve about 4, an elbow 0.9, an entrance"
                            + " 0.5, an exit 1.")
            .usual("2", "15", ASSUMED)),

    SUCTION_BORE(quantity("installation.suction.bore", LENGTH, "2 mm", "100 mm", "19 mm")
            .optional()
            .from(PUBLISHED, "Bore of the line from the sump to the electric pump.")
            .usual("12 mm", "32 mm", COMMON_PRACTICE)),
    SUCTION_LENGTH(quantity("installation.suction.length", LENGTH, "0.02 m", "10 m", "0.5 m")
            .optional()
            .from(MEASURED, "Its length.")
            .usual("0.05 m", "1.5 m", ASSUMED)),
    SUCTION_LIFT(quantity("installation.suction.lift", LENGTH, "-2 m", "2 m", "-0.1 m")
            .optional()
            .from(MEASURED, "Height of the pump's inlet above the oil level; negative where the oil stands higher.")
            .usual("-0.5 m", "0.3 m", ASSUMED)),
    SUCTION_FITTINGS(quantity("installation.suction.fittings", RATIO, "0", "100", "3")
            .optional()
            .from(PUBLISHED, "Sum of the loss coefficients K of its fittings and strainer.")
            .usual("0.5", "10", ASSUMED)),

    CABLE_AWG(count("installation.cable.awg", RATIO, "0", "30", "10")
            .optional()
            .from(PUBLISHED, "American wire gauge of the pump's cable; not needed where its area is given.")
            .usual("2", "16", COMMON_PRACTICE)),
    CABLE_AREA(quantity("installation.cable.area", AREA, "0.1 mm2", "200 mm2", "6 mm2")
            .optional()
            .from(PUBLISHED, "Copper area of the pump's cable; counts before the gauge.")
            .usual("1 mm2", "35 mm2", COMMON_PRACTICE)),
    CABLE_LENGTH(quantity("installation.cable.length", LENGTH, "0.1 m", "30 m", "5 m")
            .optional()
            .from(MEASURED, "Length of the cable one way; the way back is taken as long.")
            .usual("0.5 m", "8 m", ASSUMED)),
    CABLE_TEMPERATURE(quantity("installation.cable.temperature", TEMPERATURE, "-40 °C", "150 °C", "85 °C")
            .byDefault("85 °C")
            .from(ASSUMED, "Temperature of the copper at its hottest.")
            .usual("50 °C", "105 °C", COMMON_PRACTICE)),

    FUSE_RATING(quantity("installation.fuse.rating", CURRENT, "1 A", "200 A", "30 A")
            .optional()
            .from(PUBLISHED, "Rating of the fuse in the pump's supply.")
            .usual("10 A", "80 A", COMMON_PRACTICE)),
    FUSE_TYPE(choice("installation.fuse.type", "blade", "high-current-blade")
            .byDefault("blade")
            .from(PUBLISHED, "Family of the fuse, which decides how fast it opens.")),

    RELAY_CONTACT_RATING(quantity("installation.relay.contact-rating", CURRENT, "1 A", "500 A", "70 A")
            .optional()
            .from(PUBLISHED, "Current the relay's contact is rated for, resistive load.")
            .usual("20 A", "150 A", COMMON_PRACTICE)),
    RELAY_MAKING_CURRENT(quantity("installation.relay.making-current", CURRENT, "1 A", "2000 A", "150 A")
            .optional()
            .from(PUBLISHED, "Largest current the contact may close on.")
            .usual("40 A", "400 A", ASSUMED)),
    RELAY_RATED_OPERATIONS(count("installation.relay.rated-operations", RATIO, "1000", "100000000", "100000")
            .byDefault("100000")
            .from(
                    COMMON_PRACTICE,
                    "Closings that the contact lasts at its rated current, resistive load; the maker's sheet tells.")
            .usual("50000", "1000000", COMMON_PRACTICE)),

    COUPLING_TEETH(count("installation.coupling.teeth", RATIO, "3", "120", "26")
            .optional()
            .from(MEASURED, "Teeth of the splined coupling between motor and transmission.")
            .usual("16", "40", ASSUMED)),
    COUPLING_MAJOR(quantity("installation.coupling.major-diameter", LENGTH, "5 mm", "200 mm", "29.5 mm")
            .optional()
            .from(MEASURED, "Outer diameter of the shafts over the splines.")
            .usual("20 mm", "50 mm", ASSUMED)),
    COUPLING_MINOR(quantity("installation.coupling.minor-diameter", LENGTH, "4 mm", "200 mm", "26.5 mm")
            .optional()
            .from(MEASURED, "Inner diameter of the coupling, over the tips of its teeth.")
            .usual("18 mm", "46 mm", ASSUMED)),
    COUPLING_SHARING(quantity("installation.coupling.teeth-sharing", RATIO, "5 %", "100 %", "50 %")
            .byDefault("50 %")
            .from(COMMON_PRACTICE, "Share of the teeth that carry the torque; the rest stand off by their tolerances.")
            .usual("25 %", "75 %", COMMON_PRACTICE)),
    COUPLING_SHEAR(quantity("installation.coupling.allowable-shear", PRESSURE, "5 MPa", "800 MPa", "140 MPa")
            .optional()
            .from(PUBLISHED, "Shear stress that the splines may have for good.")
            .usual("50 MPa", "300 MPa", ASSUMED)),
    COUPLING_BEARING(quantity("installation.coupling.allowable-bearing", PRESSURE, "1 MPa", "500 MPa", "70 MPa")
            .optional()
            .from(PUBLISHED, "Pressure on the flanks that the splines may have for good.")
            .usual("10 MPa", "200 MPa", ASSUMED)),

    FLANGE_SPACING(quantity("installation.shaft-fit.flange-spacing", LENGTH, "5 mm", "1 m", "72 mm")
            .optional()
            .from(MEASURED, "Distance between the facing flanges of motor and transmission.")
            .usual("30 mm", "200 mm", ASSUMED)),
    FLANGE_TOLERANCE(tolerance("flange-spacing", "0.30 mm")),
    MOTOR_SHAFT(quantity("installation.shaft-fit.motor-shaft", LENGTH, "1 mm", "0.5 m", "34 mm")
            .optional()
            .from(MEASURED, "How far the motor's shaft stands out of its flange.")
            .usual("10 mm", "120 mm", ASSUMED)),
    MOTOR_SHAFT_TOLERANCE(tolerance("motor-shaft", "0.20 mm")),
    TRANSMISSION_SHAFT(quantity("installation.shaft-fit.transmission-shaft", LENGTH, "1 mm", "0.5 m", "35 mm")
            .optional()
            .from(MEASURED, "How far the transmission's input shaft stands out of its flange.")
            .usual("10 mm", "120 mm", ASSUMED)),
    TRANSMISSION_SHAFT_TOLERANCE(tolerance("transmission-shaft", "0.25 mm")),
    COUPLING_LENGTH(quantity("installation.shaft-fit.coupling-length", LENGTH, "2 mm", "1 m", "68 mm")
            .optional()
            .from(MEASURED, "Length of the coupling that slides over both shafts.")
            .usual("25 mm", "200 mm", ASSUMED)),
    COUPLING_LENGTH_TOLERANCE(tolerance("coupling-length", "0.15 mm")),
    LEAST_END_GAP(quantity("installation.shaft-fit.least-end-gap", LENGTH, "0 mm", "50 mm", "1.5 mm")
            .byDefault("1.5 mm")
            .from(ASSUMED, "Least gap between the shafts' ends, and of the coupling between the flanges.")
            .usual("0.5 mm", "5 mm", ASSUMED)),
    LEAST_ENGAGEMENT(quantity("installation.shaft-fit.least-engagement", LENGTH, "1 mm", "0.5 m", "25 mm")
            .optional()
            .from(COMMON_PRACTICE, "Least length of spline in the coupling; about the shaft's diameter.")
            .usual("12 mm", "60 mm", ASSUMED)),

    TYRE_GRIP(quantity("installation.tyre.grip", RATIO, "0.05", "2", "0.9")
            .optional()
            .from(ASSUMED, "Grip of the driven tyres: force along the road over load, dry road.")
            .usual("0.5", "1.2", COMMON_PRACTICE)),
    TYRE_LOAD(quantity("installation.tyre.driven-load", MASS, "50 kg", "10000 kg", "750 kg")
            .optional()
            .from(MEASURED, "Mass on the driven wheels together.")
            .usual("300 kg", "1400 kg", ASSUMED));

    private final FileKey key;

    InstallationKey(FileKey key) {
        this.key = key;
    }

    private static FileKey tolerance(String of, String example) {
        return quantity("installation.shaft-fit." + of + "-tolerance", LENGTH, "0 mm", "20 mm", example)
                .byDefault("0.25 mm")
                .from(MEASURED, "How far " + of + " may lie to either side.")
                .usual("0.05 mm", "1 mm", ASSUMED);
    }

    FileKey key() {
        return key;
    }

    /** As it stands in the build file: {@code installation.hose.bore}. */
    public String path() {
        return key.path();
    }
}

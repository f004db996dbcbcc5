package linehold.simulator.build;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A kind of quantity and every unit it may be written in. The first unit listed is the SI unit the code works in (°C
 * for a temperature).
 *
 * <p>Factors: NIST Special Publication 811 (2008), Appendix B; the decimal ones are definitions (inch 25.4 mm, pound
 * 0.453 592 37 kg, US gallon 231 in³, standard gravity 9.806 65 m/s²), the rest follows from them.
 */
public enum Quantity {
    PRESSURE("a pressure", "psi", "Pa 1", "kPa 1e3", "MPa 1e6", "GPa 1e9", "bar 1e5", "psi " + Factor.PSI),
    VOLUME("a volume", "in3", "m3 1", "L 1e-3", "mL 1e-6", "cm3 1e-6", "in3 " + Factor.IN3, "gal " + Factor.GAL),
    FLOW("a flow", "gal/min", "m3/s 1", "L/min " + Factor.L_PER_MIN, "gal/min " + Factor.GAL_PER_MIN),
    ROTATION("a shaft speed", null, "rad/s 1", "rpm " + Factor.RPM, "rev/s " + Factor.REV),
    ANGULAR_ACCELERATION("a speed change", null, "rad/s2 1", "rpm/s " + Factor.RPM, "rev/s2 " + Factor.REV),
    TORQUE("a torque", "lbf.ft", "N.m 1", "lbf.ft " + Factor.LBF_FT, "lbf.in " + Factor.LBF_IN),
    TEMPERATURE("a temperature", "°F", "°C 1", "°F " + Factor.FIVE_NINTHS + " 32", "K 1 273.15"),
    /** A difference: 9 °F are 5 K, there is no zero point to shift. */
    TEMPERATURE_DIFFERENCE("a temperature difference", "°F", "K 1", "°C 1", "°F " + Factor.FIVE_NINTHS),
    LENGTH("a length", "in", "m 1", "cm 1e-2", "mm 1e-3", "in 0.0254"),
    AREA("an area", "in2", "m2 1", "cm2 1e-4", "mm2 1e-6", "in2 6.4516e-4"),
    MASS("a mass", "lb", "kg 1", "lb 0.45359237"),
    ROAD_SPEED("a road speed", "mph", "m/s 1", "km/h " + Factor.KM_PER_H, "mph 0.44704"),
    TIME("a time", null, "s 1", "ms 1e-3", "min 60", "h 3600"),
    KINEMATIC_VISCOSITY("a kinematic viscosity", null, "m2/s 1", "mm2/s 1e-6", "cSt 1e-6"),
    DYNAMIC_VISCOSITY("a dynamic viscosity", null, "Pa.s 1", "mPa.s 1e-3"),
    DENSITY("a density", null, "kg/m3 1"),
    EXPANSION("a thermal expansion", null, "1/K 1"),
    VOLTAGE("a voltage", null, "V 1", "mV 1e-3"),
    CURRENT("a current", null, "A 1", "mA 1e-3"),
    RESISTANCE("a resistance", null, "ohm 1", "kohm 1e3", "mohm 1e-3"),
    ANGLE("an angle", null, "rad 1", "deg " + Factor.DEG),
    DISPLACEMENT("a displacement", "in3/rev", "m3/rev 1", "cm3/rev 1e-6", "in3/rev " + Factor.IN3),
    /** Slip and laminar leakage S in {@code Q = S·p/μ}. */
    SLIP("a laminar slip coefficient", null, "m3 1"),
    COMPLIANCE("a compliance", "in3/psi", "m3/Pa 1", "cm3/bar 1e-11", "in3/psi " + Factor.IN3_PER_PSI),
    VALVE_GAIN(
            "a valve gain",
            "gal/(min.psi)",
            "m3/(s.Pa) 1",
            "L/(min.bar) " + Factor.L_PER_MIN_BAR,
            "gal/(min.psi) " + Factor.GAL_PER_MIN_PSI),
    LAMINAR_RESISTANCE("a laminar flow resistance", null, "Pa.s/m3 1"),
    TURBULENT_RESISTANCE("a turbulent flow resistance", null, "Pa.s2/m6 1"),
    MOTOR_CONSTANT("a motor constant", null, "V.s/rad 1", "N.m/A 1"),
    INERTIA("an inertia", null, "kg.m2 1"),
    VISCOUS_FRICTION("a viscous friction", null, "N.m.s 1"),
    ENERGY("an energy", null, "J 1", "kJ 1e3", "Wh 3600"),
    RESOLUTION("a resolution", null, "bit 1"),
    /** A plain number; a percentage is a hundredth of it. */
    RATIO("a number", null, " 1", "% 1e-2");

    private final String noun;
    private final String usLabel;
    private final List<Unit> units;

    Quantity(String noun, String usLabel, String... units) {
        this.noun = noun;
        this.usLabel = usLabel;
        this.units = Arrays.stream(units).map(Quantity::unitOf).toList();
    }

    private static Unit unitOf(String row) {
        String[] cells = row.split(" ");
        return new Unit(
                cells[0], new BigDecimal(cells[1]), cells.length > 2 ? new BigDecimal(cells[2]) : BigDecimal.ZERO);
    }

    /** The quantity in words with its article: {@code a pressure}. */
    public String noun() {
        return noun;
    }

    public List<Unit> units() {
        return units;
    }

    /** The unit of the given label, however the label is spelled (see {@link Quantities#plainUnit}). */
    public Optional<Unit> unit(String label) {
        String plain = Quantities.plainUnit(label);
        return units.stream().filter(unit -> unit.label().equals(plain)).findFirst();
    }

    /** The unit a US workshop writes; empty where it writes the same as everyone. */
    public Optional<Unit> usUnit() {
        return usLabel == null ? Optional.empty() : unit(usLabel);
    }

    /** Every label, for a message: {@code Pa, kPa, MPa, GPa, bar, psi}. */
    public String labels() {
        return units.stream()
                .map(unit -> unit.label().isEmpty() ? "no unit" : unit.label())
                .collect(Collectors.joining(", "));
    }

    /** Factors that follow from definitions, to more digits than a double holds. */
    private static final class Factor {
        private static final MathContext DIGITS = MathContext.DECIMAL128;
        private static final BigDecimal INCH = new BigDecimal("0.0254");
        private static final BigDecimal POUND_FORCE = new BigDecimal("0.45359237").multiply(new BigDecimal("9.80665"));
        private static final BigDecimal MINUTE = new BigDecimal(60);
        private static final BigDecimal PI = new BigDecimal("3.14159265358979323846264338327950288");

        static final BigDecimal IN3 = INCH.pow(3);
        static final BigDecimal GAL = IN3.multiply(new BigDecimal(231));
        static final BigDecimal PSI = POUND_FORCE.divide(INCH.pow(2), DIGITS);
        static final BigDecimal LBF_IN = POUND_FORCE.multiply(INCH);
        static final BigDecimal LBF_FT = LBF_IN.multiply(new BigDecimal(12));
        static final BigDecimal L_PER_MIN = new BigDecimal("1e-3").divide(MINUTE, DIGITS);
        static final BigDecimal GAL_PER_MIN = GAL.divide(MINUTE, DIGITS);
        static final BigDecimal L_PER_MIN_BAR = L_PER_MIN.scaleByPowerOfTen(-5);
        static final BigDecimal GAL_PER_MIN_PSI = GAL_PER_MIN.divide(PSI, DIGITS);
        static final BigDecimal IN3_PER_PSI = IN3.divide(PSI, DIGITS);
        static final BigDecimal REV = PI.multiply(new BigDecimal(2));
        static final BigDecimal RPM = PI.divide(new BigDecimal(30), DIGITS);
        static final BigDecimal DEG = PI.divide(new BigDecimal(180), DIGITS);
        static final BigDecimal KM_PER_H = BigDecimal.ONE.divide(new BigDecimal("3.6"), DIGITS);
        static final BigDecimal FIVE_NINTHS = new BigDecimal(5).divide(new BigDecimal(9), DIGITS);
    }
}

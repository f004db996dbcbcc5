package linehold.simulator.build;

import java.math.BigDecimal;

/**
 * One way to write a quantity: {@code si = (value − zero) · factor}. The factor is kept as an exact decimal, so that a
 * typed {@code 2.6 mm} becomes the very double {@code 0.0026}.
 *
 * @param label how a person types it, in ASCII except for {@code °}, for example {@code L/min}
 * @param factor size of the unit in the SI unit of its quantity
 * @param zero what the unit reads at SI zero; other than 0 only for temperatures
 */
public record Unit(String label, BigDecimal factor, BigDecimal zero) {

    /** The value in the SI unit of the quantity (°C for a temperature). */
    public double toSi(double value) {
        return (value - zero.doubleValue()) * factor.doubleValue();
    }

    /** The same for decimal digits as typed; the result is the double nearest to the exact product. */
    double toSi(BigDecimal typed) {
        return typed.subtract(zero).multiply(factor).doubleValue();
    }

    /** The SI value in this unit. */
    public double fromSi(double si) {
        return si / factor.doubleValue() + zero.doubleValue();
    }

    /** The label as it is printed: {@code N·m}, {@code cm³}. */
    public String printed() {
        return label.replace('.', '·')
                .replace("ohm", "Ω")
                .replace("m2", "m²")
                .replace("m3", "m³")
                .replace("in2", "in²")
                .replace("in3", "in³")
                .replace("m6", "m⁶")
                .replace("s2", "s²");
    }
}

package linehold.simulator.checker;

import linehold.simulator.certificate.Bounds;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Parameter;

/** The ranges of a certificate as intervals to calculate with. */
record Ranges(Basis basis) {
    Interval of(Parameter parameter) {
        Bounds bounds = basis.range(parameter);
        return new Interval(bounds.low(), bounds.high());
    }
}

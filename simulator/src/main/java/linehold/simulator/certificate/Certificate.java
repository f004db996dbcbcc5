package linehold.simulator.certificate;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What is claimed of a build, and the curves that prove it. docs/certificate.md has the argument.
 *
 * @param basis what the claim is about
 * @param claim what is claimed
 * @param slices one proof for each slice of oil temperature, the coldest first
 */
public record Certificate(Basis basis, Claim claim, List<Slice> slices) {
    public Certificate {
        slices = List.copyOf(slices);
    }

    /**
     * What is taken from the build file.
     *
     * @param build name of the build
     * @param sha256 hash of its file
     * @param spreads whether the ranges are those of any car within the file's spreads, or of the car as written alone
     * @param ranges of every parameter
     * @param switching what the controller promises, and the relay behind it
     * @param holdPa lowest line pressure allowed, Pa
     * @param coldestC lowest oil temperature, °C
     * @param hottestC highest oil temperature, °C
     */
    public record Basis(
            String build,
            String sha256,
            boolean spreads,
            Map<Parameter, Bounds> ranges,
            Switching switching,
            double holdPa,
            double coldestC,
            double hottestC) {
        public Basis {
            if (ranges.size() != Parameter.values().length) {
                throw new IllegalArgumentException("a basis has a range for every parameter");
            }
            ranges = java.util.Collections.unmodifiableMap(new EnumMap<>(ranges));
        }

        public Bounds range(Parameter parameter) {
            return ranges.get(parameter);
        }
    }

    /**
     * The switch-over as calibrated and the delays on the way from a pickup edge to a closed contact.
     *
     * @param onRadPerS switch-on speed, rad/s
     * @param offRadPerS switch-off speed, rad/s
     * @param pitchRad shaft angle between two pickup edges, rad
     * @param periodS control period, s
     * @param lateTickS how much later than a period after the one before a tick may come, s
     * @param decisionTicks control periods from the instant at which the edges show the speed to the command, 1 or more
     * @param closeS longest time from command to the contact's first touch, s
     * @param bounceS longest bounce after it, s
     * @param confirmS how long the speed is above the switch-off speed before the pump is switched off, s
     */
    public record Switching(
            double onRadPerS,
            double offRadPerS,
            double pitchRad,
            double periodS,
            double lateTickS,
            int decisionTicks,
            double closeS,
            double bounceS,
            double confirmS) {}

    /**
     * @param fallRadPerS2 α, the fastest fall of shaft speed, rad/s²
     * @param floorRadPerS lowest shaft speed, rad/s; negative where the car may roll back
     * @param closedAfterS t_d, the latest time after the last edge that shows the switch-on speed or more at which the
     *     contact is closed for good, s
     * @param lowestPa the guaranteed lowest line pressure, Pa
     */
    public record Claim(double fallRadPerS2, double floorRadPerS, double closedAfterS, double lowestPa) {}

    /**
     * The proof for one slice of oil temperature.
     *
     * @param fall lower curve from the last edge that shows the switch-on speed or more, to rest
     * @param recovery lower curve from the lowest state of {@code fall}, with the electric pump at rest and the shaft at the
     *     switch-on speed, until the line is back where {@code fall} began
     */
    public record Slice(double coldC, double hotC, Curve fall, Curve recovery) {
        /** The guaranteed lowest line pressure in this slice, Pa. */
        public double lowestPa() {
            return fall.lowestLinePa();
        }
    }
}

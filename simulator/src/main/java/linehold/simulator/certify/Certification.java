package linehold.simulator.certify;

import java.util.List;
import linehold.simulator.build.Build;
import linehold.simulator.certificate.Certificate;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Claim;

/**
 * What can be guaranteed for a build.
 *
 * @param build what was asked about
 * @param basis the ranges it is guaranteed over
 * @param claim what was asked: its lowest pressure is that of the weakest slice
 * @param slices by oil temperature, rising
 * @param certificate accepted by the checker; null where the hold pressure is not certain
 * @param largestFallRadPerS2 fastest fall that is certain to keep the hold pressure with this switch-on speed, rad/s²; NaN
 *     where not even the slowest is
 * @param lowestOnRadPerS lowest switch-on speed that is certain to keep it in the fall asked, rad/s; NaN where none is
 */
public record Certification(
        Build build,
        Basis basis,
        Claim claim,
        List<SliceProof> slices,
        Certificate certificate,
        double largestFallRadPerS2,
        double lowestOnRadPerS) {
    public boolean certified() {
        return certificate != null;
    }

    /** The slice with the least pressure. */
    public SliceProof weakest() {
        return slices.stream()
                .min(java.util.Comparator.comparingDouble(SliceProof::lowestPa))
                .orElseThrow();
    }
}

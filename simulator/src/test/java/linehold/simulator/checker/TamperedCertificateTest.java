package linehold.simulator.checker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.certificate.Certificate;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certificate.Certificate.Claim;
import linehold.simulator.certificate.Certificate.Slice;
import linehold.simulator.certificate.CertificateFile;
import linehold.simulator.certificate.Curve;
import linehold.simulator.certify.BuildBasis;
import linehold.simulator.certify.Certifier;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A certificate is accepted as it is, and refused with the reason after each of many ways to tamper with it. */
class TamperedCertificateTest {
    private static final double RPM = Math.PI / 30;
    private static Basis basis;
    private static Certificate good;

    @BeforeAll
    static void produce() {
        Build build = Builds.demonstration();
        Basis all = BuildBasis.of(build, false);
        basis = new Basis(all.build(), all.sha256(), false, all.ranges(), all.switching(), all.holdPa(), 90, 110);
        good = new Certifier(build, basis, 0).quick(4500 * RPM, () -> {}).certificate();
    }

    @Test
    void shouldAcceptWhatWasProducedAndWrittenAndReadBack() {
        byte[] bytes = CertificateFile.toBytes(good);
        Certificate read = CertificateFile.read(bytes);
        assertThatCode(() -> Checker.check(read, basis)).doesNotThrowAnyException();
        assertThat(new String(CertificateFile.toBytes(read), StandardCharsets.UTF_8))
                .isEqualTo(new String(bytes, StandardCharsets.UTF_8));
        assertThat(good.slices()).hasSize(4);
        assertThat(good.claim().lowestPa()).isGreaterThan(4e5);
    }

    @Test
    void shouldRefuseOneRaisedByOnePercent() {
        refused(withSlices(slice -> new Slice(slice.coldC(), slice.hotC(), raised(slice.fall()), slice.recovery())))
                .hasMessageContaining("its beginning is no lower bound");
    }

    @Test
    void shouldRefuseOneRaisedByOnePercentButForItsBeginning() {
        refused(withFall(fall -> {
                    Curve raised = raised(fall);
                    raised.linePa()[0] = fall.linePa()[0];
                    raised.pistonPa()[0] = fall.pistonPa()[0];
                    return raised;
                }))
                .hasMessageContaining("segment 1 ")
                .hasMessageContaining("line pressure falls more slowly");
    }

    @Test
    void shouldRefuseOneWhoseEndIsRaisedByOnePercent() {
        refused(withFall(fall -> {
                    Curve copy = copy(fall);
                    int last = copy.points() - 1;
                    copy.linePa()[last] *= 1.01;
                    copy.pistonPa()[last] *= 1.01;
                    return copy;
                }))
                .hasMessageContaining("oil from 90.00 to 95.00 °C: fall, segment");
    }

    @Test
    void shouldRefuseOneForAnotherBuildFile() {
        Basis other = new Basis(
                basis.build(),
                "0".repeat(64),
                false,
                basis.ranges(),
                basis.switching(),
                basis.holdPa(),
                basis.coldestC(),
                basis.hottestC());
        refused(new Certificate(other, good.claim(), good.slices()))
                .hasMessageContaining("another build file: hash 000");
    }

    @Test
    void shouldRefuseOneWithAMissingSlice() {
        List<Slice> slices = new ArrayList<>(good.slices());
        slices.remove(1);
        refused(new Certificate(basis, good.claim(), slices))
                .hasMessageContaining("no slice covers the oil temperatures from 95.00 to 100.00 °C");
        refused(new Certificate(basis, good.claim(), good.slices().subList(0, 3)))
                .hasMessageContaining("no slice covers the oil temperatures from 105.00 to 110.00 °C");
    }

    @Test
    void shouldRefuseOneWithAShortenedTimeToTheClosedContact() {
        Claim c = good.claim();
        Claim sooner = new Claim(c.fallRadPerS2(), c.floorRadPerS(), c.closedAfterS() - 1e-3, c.lowestPa());
        refused(new Certificate(basis, sooner, good.slices()))
                .hasMessageContaining("pickup, tick and relay may take 36.9286 ms");
    }

    @Test
    void shouldRefuseOneWithASkippedSegment() {
        refused(withFall(fall -> without(fall, fall.points() / 6)))
                .hasMessageContaining("segment ")
                .hasMessageContaining("oil from 90.00 to 95.00 °C: fall");
    }

    @Test
    void shouldRefuseAFasterFallThanTheCurvesWereMadeFor() {
        Claim c = good.claim();
        Claim faster = new Claim(1.05 * c.fallRadPerS2(), 0, c.closedAfterS(), c.lowestPa());
        refused(new Certificate(basis, faster, good.slices())).hasMessageContaining("oil from 90.00 to 95.00 °C");
    }

    @Test
    void shouldRefuseAHigherClaimThanItsCurves() {
        Claim c = good.claim();
        Claim higher = new Claim(c.fallRadPerS2(), 0, c.closedAfterS(), 1.01 * c.lowestPa());
        refused(new Certificate(basis, higher, good.slices())).hasMessageContaining("is claimed");
    }

    private static org.assertj.core.api.AbstractThrowableAssert<?, ? extends Throwable> refused(Certificate tampered) {
        return assertThatThrownBy(() -> Checker.check(tampered, basis)).isInstanceOf(Refusal.class);
    }

    private static Certificate withFall(UnaryOperator<Curve> change) {
        return withSlices(
                slice -> new Slice(slice.coldC(), slice.hotC(), change.apply(slice.fall()), slice.recovery()));
    }

    private static Certificate withSlices(UnaryOperator<Slice> change) {
        return new Certificate(
                basis, good.claim(), good.slices().stream().map(change).toList());
    }

    private static Curve raised(Curve curve) {
        return new Curve(curve.timeS(), scaled(curve.linePa()), scaled(curve.pistonPa()), curve.pumpRadPerS());
    }

    private static double[] scaled(double[] values) {
        return Arrays.stream(values).map(x -> 1.01 * x).toArray();
    }

    private static Curve copy(Curve curve) {
        return new Curve(curve.timeS(), curve.linePa().clone(), curve.pistonPa().clone(), curve.pumpRadPerS());
    }

    private static Curve without(Curve curve, int k) {
        return new Curve(
                without(curve.timeS(), k),
                without(curve.linePa(), k),
                without(curve.pistonPa(), k),
                without(curve.pumpRadPerS(), k));
    }

    private static double[] without(double[] values, int k) {
        double[] left = new double[values.length - 1];
        System.arraycopy(values, 0, left, 0, k);
        System.arraycopy(values, k + 1, left, k, left.length - k);
        return left;
    }
}

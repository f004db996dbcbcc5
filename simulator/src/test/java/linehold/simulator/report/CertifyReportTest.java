package linehold.simulator.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import javax.xml.parsers.DocumentBuilderFactory;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.certificate.Certificate.Basis;
import linehold.simulator.certify.BuildBasis;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Certifier;
import linehold.simulator.certify.Falsifier;
import linehold.simulator.certify.Report;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;

/** Terminal table, page and JSON of a certification. */
class CertifyReportTest {
    private static final double RPM = Math.PI / 30;
    private static Report certified;
    private static Report refused;

    @BeforeAll
    static void certify() {
        certified = report(4500);
        refused = report(15_000);
    }

    private static Report report(double fallRpmPerS) {
        Build build = Builds.demonstration();
        Certification asWritten = certification(build, false, fallRpmPerS);
        Certification withSpreads = certification(build, true, fallRpmPerS);
        return new Report(
                asWritten,
                withSpreads,
                false,
                List.of(new Falsifier(asWritten, 64, 1).search(asWritten.weakest(), () -> {})),
                64,
                1);
    }

    private static Certification certification(Build build, boolean spreads, double fallRpmPerS) {
        Basis basis = BuildBasis.within(BuildBasis.of(build, spreads), 110, 120);
        return new Certifier(build, basis, 0).certify(fallRpmPerS * RPM, () -> {});
    }

    @Test
    void shouldSayWhatIsCertainAndWhatIsNotCovered() {
        String text = CertifyTable.of(certified, UnitSystem.METRIC);
        assertThat(text)
                .contains("Certified: at no oil temperature does any such drive take the line below 5.03 bar")
                .contains("115 to 120 °C")
                .contains("With every spread of the file at its worst: 3.22 bar is certain.")
                .contains("Not covered:\n- Gear changes and engagement");
        assertThat(text.lines()).allMatch(line -> line.codePointCount(0, line.length()) <= CertifyTable.WIDTH);
        assertThat(CertifyTable.of(refused, UnitSystem.METRIC))
                .contains("Refused: at 115 to 120 °C only 3.45 bar is certain")
                .contains("the lowest switch-on speed that makes it certain is 830 rpm");
        assertThat(CertifyTable.of(certified, UnitSystem.US))
                .contains("73.0 psi")
                .doesNotContain(" bar");
    }

    @Test
    void shouldDrawTheBoundUnderTheWorstDriveOnAWellFormedPage() throws Exception {
        for (Report report : List.of(certified, refused)) {
            String page = CertifyHtml.of(report, UnitSystem.METRIC);
            DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new InputSource(new StringReader(page.replace("<!DOCTYPE html>", ""))));
            assertThat(page)
                    .contains(report.main().certified() ? "CERTIFIED" : "REFUSED")
                    .contains("What the certificate does not cover")
                    .contains("certified lower curve")
                    .contains("Caution: before this becomes a car")
                    .doesNotContain("NaN");
        }
    }

    @Test
    void shouldWriteTheSameBytesInEveryLocale() {
        Locale before = Locale.getDefault();
        byte[] json = CertifyJson.toBytes(certified);
        String page = CertifyHtml.of(certified, UnitSystem.METRIC);
        try {
            Locale.setDefault(Locale.GERMANY);
            assertThat(CertifyJson.toBytes(certified)).isEqualTo(json);
            assertThat(CertifyHtml.of(certified, UnitSystem.METRIC)).isEqualTo(page);
        } finally {
            Locale.setDefault(before);
        }
        assertThat(new String(json, StandardCharsets.UTF_8)).contains("\"verdict\" : \"certified\"");
    }
}

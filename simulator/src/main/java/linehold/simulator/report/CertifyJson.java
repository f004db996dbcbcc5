package linehold.simulator.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Counterexample;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;
import linehold.simulator.output.WholeFile;

/** {@code certify.json}: a certification for other programs, SI units; docs/certificate.md describes every field. */
public final class CertifyJson {
    static final int FORMAT = 1;

    private CertifyJson() {}

    /** Writes the file, replacing one that is there. */
    public static void write(Report report, Path file) {
        WholeFile.writeText(file, new String(toBytes(report), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(Report report) {
        return JsonText.bytes(json -> {
            json.startObject();
            json.count("format", FORMAT);
            json.text("verdict", report.main().certified() ? "certified" : "refused");
            json.startObject("build");
            json.text("name", report.main().build().name());
            json.text("sha256", report.main().build().sha256());
            json.endObject();
            json.flag("spreads", report.spreadsAsked());
            json.number("fall_rad_per_s2", report.main().claim().fallRadPerS2());
            json.number("floor_rad_per_s", report.main().claim().floorRadPerS());
            json.number("closed_after_s", report.main().claim().closedAfterS());
            json.number("switch_on_rad_per_s", report.main().basis().switching().onRadPerS());
            json.number("hold_pa", report.main().basis().holdPa());
            certification(json, "as_written", report.asWritten());
            if (report.withSpreads() != null) {
                certification(json, "any_car", report.withSpreads());
            }
            found(json, report);
            json.texts("not_covered", Report.NOT_COVERED);
            json.endObject();
        });
    }

    private static void certification(JsonText json, String name, Certification c) {
        json.startObject(name);
        json.flag("certified", c.certified());
        json.number("lowest_pa", c.claim().lowestPa());
        json.number("largest_fall_rad_per_s2", c.largestFallRadPerS2());
        json.number("lowest_switch_on_rad_per_s", c.lowestOnRadPerS());
        json.startArray("slices");
        for (SliceProof slice : c.slices()) {
            json.startObject();
            json.number("cold_c", slice.coldC());
            json.number("hot_c", slice.hotC());
            json.number("lowest_pa", slice.lowestPa());
            json.number("first_motor_torque_nm", CertifyTorque.firstNm(c.build(), slice));
            json.number("top_motor_torque_nm", CertifyTorque.topNm(c.build(), slice));
            json.number("reverse_motor_torque_nm", CertifyTorque.reverseNm(c.build(), slice));
            json.number("recovery_s", slice.recoveryS());
            json.text("set_by", slice.limit().words());
            json.endObject();
        }
        json.endArray();
        json.endObject();
    }

    private static void found(JsonText json, Report report) {
        json.startObject("search");
        json.count("runs_each", report.runsEach());
        json.count("seed", report.seed());
        json.startArray("found");
        for (Counterexample one : report.found()) {
            json.startObject();
            json.number("cold_c", one.coldC());
            json.number("hot_c", one.hotC());
            json.number("oil_c", one.oilC());
            json.number("bound_pa", one.boundPa());
            json.number("lowest_pa", one.lowestPa());
            json.number("gap", one.gap());
            json.endObject();
        }
        json.endArray();
        json.endObject();
    }
}

package linehold.simulator.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import linehold.simulator.build.Build;
import linehold.simulator.build.InputException;
import linehold.simulator.build.Quantities;
import linehold.simulator.build.Quantity;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.certificate.Certificate;
import linehold.simulator.certificate.CertificateFile;
import linehold.simulator.certify.BuildBasis;
import linehold.simulator.certify.Certification;
import linehold.simulator.certify.Certifier;
import linehold.simulator.certify.Counterexample;
import linehold.simulator.certify.Falsifier;
import linehold.simulator.certify.Report;
import linehold.simulator.certify.SliceProof;
import linehold.simulator.checker.Checker;
import linehold.simulator.checker.Refusal;
import linehold.simulator.drive.DriveCsv;
import linehold.simulator.drive.Manoeuvres;
import linehold.simulator.output.WholeFile;
import linehold.simulator.report.CertifyHtml;
import linehold.simulator.report.CertifyJson;
import linehold.simulator.report.CertifyTable;
import linehold.simulator.report.Progress;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code linehold certify}: what line pressure is guaranteed in every drive, not only in those that were logged? */
@Command(
        name = "certify",
        mixinStandardHelpOptions = true,
        description = {
            "Guarantees a lowest line pressure for every drive whose shaft speed falls no faster than a bound, with a"
                    + " certificate that an independent checker accepts; or says why it cannot.",
            "Exit status: 0 certified, 1 refused, 2 bad input."
        })
public final class CertifyCommand implements Callable<Integer> {
    private static final double MOST_RUNS = 100_000;
    private static final double PA_PER_BAR = 1e5;

    private final List<String> written = new ArrayList<>();

    @Mixin
    private BuildOption buildOption = new BuildOption();

    @Option(
            names = "--fall",
            paramLabel = "RATE",
            description =
                    "Fastest fall of shaft speed, such as '4500 rpm/s' (default: a wheel locked on ice, 15000 rpm/s).")
    private String fall;

    @Option(
            names = "--roll-back",
            paramLabel = "SPEED",
            description = "How fast the shaft may turn backward, such as '100 rpm' (default: not at all).")
    private String rollBack;

    @Option(
            names = "--spreads",
            description = "Certify any car within the spreads of the build file, not only the car as written.")
    private boolean spreads;

    @Option(
            names = "--runs",
            defaultValue = "2000",
            description = "Drives that are tried against the bound in each slice searched; 0 for no search"
                    + " (default: ${DEFAULT-VALUE}).")
    private int runs;

    @Option(names = "--seed", defaultValue = "1", description = "Seed of the search (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(
            names = "--check",
            paramLabel = "FILE",
            description = "Check a certificate against the build, and do nothing else.")
    private Path check;

    @Option(
            names = "--out",
            paramLabel = "FOLDER",
            defaultValue = "out",
            description = "Where certificate.json, certify.json, certify.html and the worst drive go"
                    + " (default: ${DEFAULT-VALUE}).")
    private Path out;

    @Option(
            names = "--units",
            converter = UnitSystemConverter.class,
            description = "metric or us; without it, as the build file says.")
    private UnitSystem units;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Build build = buildOption.load();
        PrintWriter terminal = spec.commandLine().getOut();
        if (check != null) {
            int status = check(build, terminal);
            terminal.flush();
            return status;
        }
        BuildWarnings.show(build);
        build = build.withUnits(units == null ? build.units() : units);
        double fallRadPerS2 = fall == null
                ? Manoeuvres.ICE_RATE_RAD_PER_S2
                : positive("--fall", fall, Quantity.ANGULAR_ACCELERATION, "4500 rpm/s");
        double floorRadPerS = rollBack == null ? 0 : -positive("--roll-back", rollBack, Quantity.ROTATION, "100 rpm");
        if (runs < 0 || runs > MOST_RUNS) {
            throw new InputException("--runs: found '" + runs + "', expected a whole number from 0 to 100000");
        }
        boolean hasSpreads = !build.spreads().all().isEmpty();
        if (spreads && !hasSpreads) {
            throw new InputException("--spreads: found no spread in the build " + build.name()
                    + ", expected some, such as '24 cm3/rev ± 5 %'");
        }
        WholeFile.makeFolder(out);
        Certification asWritten = certify(build, false, fallRadPerS2, floorRadPerS);
        Certification withSpreads = hasSpreads ? certify(build, true, fallRadPerS2, floorRadPerS) : null;
        Report report =
                new Report(asWritten, withSpreads, spreads, search(spreads ? withSpreads : asWritten), runs, seed);
        write(report);
        terminal.print(CertifyTable.of(report, build.units()));
        terminal.println("written: " + String.join(", ", written));
        terminal.flush();
        return report.main().certified() ? 0 : 1;
    }

    private static Certification certify(Build build, boolean spread, double fall, double floor) {
        Certifier certifier = new Certifier(build, BuildBasis.of(build, spread), floor);
        try (Progress progress = Progress.onTerminal(Ansi.AUTO.enabled(), "certifying", certifier.steps())) {
            return certifier.certify(fall, progress::step);
        }
    }

    /** In the weakest slice, and in those that end at an oil temperature of the build. */
    private List<Counterexample> search(Certification certification) {
        List<SliceProof> slices = runs == 0
                ? List.of()
                : certification.slices().stream()
                        .filter(slice -> slice == certification.weakest()
                                || certification
                                        .build()
                                        .limits()
                                        .oilTemperaturesC()
                                        .contains(slice.hotC()))
                        .toList();
        Falsifier falsifier = new Falsifier(certification, runs, seed);
        try (Progress progress =
                Progress.onTerminal(Ansi.AUTO.enabled(), "searching", (long) slices.size() * falsifier.runs())) {
            return slices.stream()
                    .map(slice -> falsifier.search(slice, progress::step))
                    .toList();
        }
    }

    private void write(Report report) {
        if (report.main().certified()) {
            byte[] bytes = CertificateFile.toBytes(report.main().certificate());
            WholeFile.writeText(place("certificate.json"), new String(bytes, StandardCharsets.UTF_8));
        } else {
            // One of an earlier run would be taken for this one's.
            WholeFile.remove(out.resolve("certificate.json"));
        }
        CertifyJson.write(report, place("certify.json"));
        CertifyHtml.write(report, report.main().build().units(), place("certify.html"));
        if (report.worst() != null) {
            DriveCsv.write(report.worst().drive(), place("worst-drive.csv"));
        }
    }

    private Path place(String name) {
        Path file = out.resolve(name);
        written.add(file.toString());
        return file;
    }

    private int check(Build build, PrintWriter terminal) {
        Certificate certificate;
        try {
            certificate = CertificateFile.read(Files.readAllBytes(check));
        } catch (IOException e) {
            throw new InputException(check + ": found no file that can be read, expected a certificate", e);
        } catch (IllegalArgumentException e) {
            throw new InputException(check + ": " + e.getMessage(), e);
        }
        try {
            Checker.check(certificate, BuildBasis.of(build, certificate.basis().spreads()));
        } catch (Refusal e) {
            terminal.println("Refused: " + e.getMessage() + ".");
            return 1;
        }
        terminal.printf(
                Locale.ROOT,
                "Accepted: build %s, %s, fall up to %.0f rpm/s, %d slices from %.0f to %.0f °C, never below %.4f bar.%n",
                certificate.basis().build(),
                certificate.basis().spreads() ? "any car within its spreads" : "the car as written",
                certificate.claim().fallRadPerS2() * 30 / Math.PI,
                certificate.slices().size(),
                certificate.basis().coldestC(),
                certificate.basis().hottestC(),
                certificate.claim().lowestPa() / PA_PER_BAR);
        return 0;
    }

    private static double positive(String option, String typed, Quantity quantity, String example) {
        double value = Quantities.parse(typed.strip(), quantity).orElse(Double.NaN);
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new InputException(
                    option + ": found '" + typed + "', expected a value above zero such as '" + example + "'");
        }
        return value;
    }
}

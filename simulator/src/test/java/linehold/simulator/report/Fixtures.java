package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import linehold.controller.DrivePermission;
import linehold.controller.calibration.Calibration;
import linehold.controller.switching.PumpState;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.CarSpec;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.FeedSpec;
import linehold.simulator.build.Gear;
import linehold.simulator.build.GearsSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.InstallationSpec;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LimitsSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.build.SupplySpec;
import linehold.simulator.build.UnitSystem;
import linehold.simulator.drive.RepairCounts;
import linehold.simulator.prove.Loss;
import linehold.simulator.prove.Loss.Criterion;
import linehold.simulator.prove.RunVerdict;
import linehold.simulator.prove.Verdict;
import linehold.simulator.run.CloseUp;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Overview;

/** Invented verdicts: shapes that look like drives, no physics behind them. */
final class Fixtures {
    static final List<Double> TEMPERATURES_C = List.of(-20.0, 20.0, 60.0, 100.0, 120.0);
    static final String CAUSE =
            "the shaft fell from 1500 rpm to standstill in 75 ms and the electric pump needed 95 ms to carry the line";

    private Fixtures() {}

    static Build build(String name) {
        return new Build(
                name,
                "Two-speed transmission behind an electric motor, 1350 kg car; invented numbers",
                UnitSystem.METRIC,
                new OilSpec(34e-6, 7.2e-6, -45, 865, 7e-4, 1.5e9, 0.03),
                new LineSpec(0.6e-3, 4e-12, 6e-13, 4.7e-7, 5e3, null),
                new InternalPumpSpec(24e-6, 2.6e-13, Double.POSITIVE_INFINITY),
                new RegulatorSpec(4e-9, 10e5, 14e5, 6e5),
                new ElectricPumpSpec(3e-6, 5e-14, 0.042, 0.12, 4e-4, 0.03, 3e-5, 8.5e5),
                new HoseSpec(0.3e5, 8e7, 5e11, 6.2e-3, 814, 1.9e-6),
                new RelaySpec(0.012, 0.008, 0.002, 0.005),
                new SupplySpec(13.2, 0.015, 0.035),
                new FeedSpec(3.2e-6, 7.5e-6),
                List.of(
                        new ApplyElementSpec(
                                35e-6,
                                1e-12,
                                0.6e5,
                                1e5,
                                75e-4,
                                0.12,
                                0.82,
                                new ApplyElementSpec.Band(0.072, 5.5, true)),
                        new ApplyElementSpec(
                                28e-6, 1e-12, 0.5e5, 0.9e5, 95e-4, 0.13, 0.45, new ApplyElementSpec.Discs(6, 0.062)),
                        new ApplyElementSpec(
                                40e-6, 1e-12, 0.5e5, 0.9e5, 120e-4, 0.13, 2.82, new ApplyElementSpec.Discs(8, 0.07))),
                new GearsSpec(1.82, 1, 1.82, 3.5, rpm(2500), rpm(1100), 0.4),
                new CarSpec(1350, 0.31, 0.75, 0.012, 1.2, 260, 90, 80),
                new SensorsSpec(4, 20e5, 0.005, 2e3, 5, 12, 5, false, true, true, true, true),
                new LimitsSpec(4e5, 1.2, 1.2, 5, TEMPERATURES_C, List.of()),
                new InstallationSpec(Map.of(), InstallationSpec.FuseType.BLADE),
                Calibration.builder().build(),
                "3f1c".repeat(16));
    }

    /** Twelve drives at five temperatures; the hot locked-wheel stops are lost. */
    static Verdict large() {
        List<RunVerdict> runs = new ArrayList<>();
        String[] drives = {
            "urban cycle",
            "urban and extra-urban cycle",
            "stop-and-go schedule C",
            "stop-and-go schedule D",
            "stop-and-go in traffic",
            "hill hold with roll-back",
            "parking with reverse",
            "panic stop, locked wheels, dry road",
            "panic stop, locked wheels, ice",
            "long descent on the overrun",
            "night drive of 8 h",
            "workshop log 17"
        };
        double[] lengths = {780, 1180, 80, 122, 900, 60, 95, 14, 14, 1500, 28_800, 300};
        for (int d = 0; d < drives.length; d++) {
            boolean panic = drives[d].startsWith("panic");
            for (double oilC : TEMPERATURES_C) {
                boolean lost = panic && oilC >= 100;
                runs.add(run(drives[d], oilC, lengths[d], lost, panic || oilC == 120));
            }
        }
        return new Verdict(
                build("demonstration"),
                runs,
                "Panic stop, locked wheels, ice, first gear at 120 °C: line pressure falls to 2.61 bar at 9.42 s because "
                        + CAUSE);
    }

    static Verdict held() {
        return new Verdict(
                build("demonstration"),
                List.of(run("urban cycle", 20, 780, false, false), run("urban cycle", 100, 780, false, true)),
                "Urban cycle at 100 °C: line pressure falls to 5.20 bar at 507.00 s in the hand-over");
    }

    /** A drive in which nothing ever happened: every "never" is NaN or infinite. */
    static Verdict empty() {
        double[] none = new double[40];
        Overview overview = new Overview(0.5, none, none, none, none, none, none);
        return new Verdict(
                build("nothing"),
                List.of(new RunVerdict(
                        "standing with the key off",
                        "invented",
                        20,
                        List.of(new Loss(Criterion.NEVER_PRIMED, Double.NaN, "the electric pump never ran")),
                        20,
                        Double.NaN,
                        Double.POSITIVE_INFINITY,
                        Double.NaN,
                        null,
                        Double.POSITIVE_INFINITY,
                        Double.NaN,
                        null,
                        Double.POSITIVE_INFINITY,
                        Double.NaN,
                        null,
                        0,
                        0,
                        1.2,
                        0,
                        0,
                        0,
                        0,
                        0,
                        0,
                        0,
                        List.of(),
                        RepairCounts.NONE,
                        List.of(),
                        "No element was ever engaged.",
                        overview,
                        null)),
                "No element was ever engaged.");
    }

    static Verdict named(String drive) {
        return new Verdict(
                build("build " + drive),
                List.of(run(drive, 100, 60, true, true)),
                "Weakest in " + drive + " because " + drive);
    }

    static RunVerdict run(String drive, double oilC, double lengthS, boolean lost, boolean withCloseUp) {
        double momentS = Math.min(lengthS * 0.65, 507);
        double lowestPa = lost ? 2.61e5 + 500 * (120 - oilC) : 5.2e5 + 900 * (120 - oilC);
        List<Loss> losses = lost
                ? List.of(
                        new Loss(Criterion.PRESSURE_LOST, momentS, CAUSE),
                        new Loss(Criterion.MARGIN_LOST, momentS + 0.02, "the band slips at 170 N·m"))
                : List.of();
        boolean log = drive.startsWith("workshop");
        return new RunVerdict(
                drive,
                log ? "logger file workshop-17.csv" : "invented manoeuvre",
                oilC,
                losses,
                lengthS,
                0.72,
                lowestPa,
                momentS,
                Gear.FIRST,
                lowestPa,
                momentS,
                Gear.FIRST,
                lost ? 0.83 : 1.71,
                momentS + 0.02,
                Gear.FIRST,
                lost ? 0.084 : 0,
                0.61 + 0.002 * (120 - oilC),
                oilC < 20 ? 1.2 + (20 - oilC) * 0.095 : 1.2,
                lost ? 1.35 : 0,
                Math.round(lengthS / 20) + 2,
                3600 * (Math.round(lengthS / 20) + 2) / lengthS,
                0.37,
                lengthS * 60,
                Math.round(lengthS / 40) + 1,
                lost ? 1.8e-6 : 0,
                lost ? List.of("LH-P1", "LH-S2") : List.of(),
                log ? new RepairCounts(3, 12, 1, 40, true, 271.4, 0) : RepairCounts.NONE,
                oilC < 0 ? List.of("oil viscosity is extrapolated below the pour point") : List.of(),
                drive + " at " + oilC + " °C is weakest at " + momentS + " s because " + CAUSE,
                overview(lengthS, oilC, momentS, lowestPa),
                withCloseUp ? closeUp(momentS, lowestPa) : null);
    }

    private static Overview overview(double lengthS, double oilC, double momentS, double lowestPa) {
        int n = 2000;
        double slotS = lengthS / n;
        double[] low = new double[n];
        double[] high = new double[n];
        double[] slow = new double[n];
        double[] fast = new double[n];
        double[] pump = new double[n];
        double[] engaged = new double[n];
        for (int i = 0; i < n; i++) {
            double t = (i + 0.5) * slotS;
            double speed = rpm(Math.max(0, 2100 * Math.sin(t * 2 * Math.PI / Math.max(12, lengthS / 9))));
            slow[i] = speed * 0.99;
            fast[i] = speed * 1.01;
            double stand = 5.3e5 + 700 * (120 - oilC);
            double line = t < 0.7 ? stand * t / 0.7 : Math.max(stand, Math.min(10.2e5, stand + speed * 6e3));
            low[i] = line * 0.98;
            high[i] = line * 1.02;
            pump[i] = speed < rpm(600) ? 1 : 0;
            engaged[i] = t > 1 && Math.sin(t / lengthS * 40) > -0.9 ? 1 : 0;
        }
        low[Math.min(n - 1, (int) (momentS / slotS))] = lowestPa;
        return new Overview(slotS, low, high, slow, fast, pump, engaged);
    }

    private static CloseUp closeUp(double momentS, double lowestPa) {
        int n = 4001;
        double[] t = new double[n];
        double[] line = new double[n];
        double[] element = new double[n];
        double[] shaft = new double[n];
        double[] seen = new double[n];
        double[] pump = new double[n];
        boolean[] coil = new boolean[n];
        boolean[] contact = new boolean[n];
        Gear[] gear = new Gear[n];
        Engagement[] engagement = new Engagement[n];
        PumpState[] state = new PumpState[n];
        DrivePermission[] permission = new DrivePermission[n];
        for (int i = 0; i < n; i++) {
            double s = (i - 2000) * 0.0005;
            t[i] = momentS + s;
            double dip = Math.exp(-s * s / 0.004) + (s > 0 ? 0.3 * Math.exp(-s / 0.2) : 0);
            line[i] = 9.6e5 - (9.6e5 - lowestPa) * Math.min(1, dip) - (s > 0 ? 2e5 * (1 - Math.exp(-s / 0.1)) : 0);
            element[i] = s < -0.9 ? Double.NaN : line[i] - 0.3e5;
            shaft[i] = rpm(s < -0.15 ? 1500 : s > 0 ? 0 : -s / 0.15 * 1500);
            seen[i] = rpm(s < -0.13 ? 1500 : s > 0.06 ? 0 : Math.floor((0.06 - s) / 0.19 * 12) / 12 * 1500);
            coil[i] = s > -0.05;
            contact[i] = s > -0.038 && !(s < -0.036 && i % 2 == 0);
            pump[i] = s > -0.038 ? rpm(2400) * (1 - Math.exp(-(s + 0.038) / 0.05)) : 0;
            gear[i] = s < -0.9 ? Gear.NEUTRAL : Gear.FIRST;
            engagement[i] = s < -0.9 ? Engagement.NONE : s < -0.6 ? Engagement.ENGAGING : Engagement.ENGAGED;
            state[i] = s > -0.05 ? PumpState.ELECTRIC : PumpState.INTERNAL;
            permission[i] = s > 0.02 && s < 0.7 ? DrivePermission.REDUCED : DrivePermission.GRANTED;
        }
        return new CloseUp(
                momentS, t, line, element, shaft, seen, pump, coil, contact, gear, engagement, state, permission);
    }

    private static double rpm(double rpm) {
        return rpm * Math.PI / 30;
    }
}

package linehold.simulator;

import java.util.List;
import linehold.controller.calibration.Calibration;
import linehold.simulator.build.*;

public final class TestBuilds {
    public static Build demonstration() {
        double bar = 1e5, rpm = Math.PI / 30;
        return new Build(
                "demonstration",
                "",
                UnitSystem.METRIC,
                new OilSpec(34e-6, 7.2e-6, -45, 865, 7e-4, 1.5e9, 0.03),
                new LineSpec(0.6e-3, 4e-12, 6e-13, 0.6 * Math.PI / 4 * 1e-6, 5e3, null),
                new InternalPumpSpec(24e-6, 2.6e-13, Double.POSITIVE_INFINITY),
                new RegulatorSpec(4e-9, 10 * bar, 14 * bar, 6 * bar),
                new ElectricPumpSpec(3e-6, 5e-14, 0.042, 0.12, 4e-4, 0.03, 3e-5, 8.5 * bar),
                new HoseSpec(0.3 * bar, 8e7, 5e11, 6.2e-3, 814, 0.6 * Math.PI / 4 * 4e-6),
                new RelaySpec(0.012, 0.008, 0.002, 0.005),
                new SupplySpec(13.2, 0.015, 0.035),
                new FeedSpec(0.6 * Math.PI / 4 * 2.6 * 2.6e-6, 0.6 * Math.PI / 4 * 16e-6),
                List.of(
                        new ApplyElementSpec(
                                35e-6,
                                1e-12,
                                0.6 * bar,
                                1.0 * bar,
                                75e-4,
                                0.12,
                                0.82,
                                new ApplyElementSpec.Band(0.072, 5.5, true)),
                        new ApplyElementSpec(
                                28e-6,
                                1e-12,
                                0.5 * bar,
                                0.9 * bar,
                                95e-4,
                                0.13,
                                0.45,
                                new ApplyElementSpec.Discs(6, 0.062)),
                        new ApplyElementSpec(
                                40e-6,
                                1e-12,
                                0.5 * bar,
                                0.9 * bar,
                                120e-4,
                                0.13,
                                2.82,
                                new ApplyElementSpec.Discs(8, 0.070))),
                new GearsSpec(1.82, 1.0, 1.82, 3.5, 2500 * rpm, 1100 * rpm, 0.4),
                new CarSpec(1350, 0.31, 0.75, 0.012, 1.2, 260, 90, 40),
                new SensorsSpec(4, 20 * bar, 0.005, 2e3, 5, 12, 5, true, true, true, true, true),
                new LimitsSpec(4 * bar, 1.2, 1.2, 5, List.of(-20.0, 20.0, 60.0, 100.0, 120.0)),
                Calibration.builder().build(),
                "0");
    }
}

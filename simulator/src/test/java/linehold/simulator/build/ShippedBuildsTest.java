package linehold.simulator.build;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec.Band;
import linehold.simulator.build.ApplyElementSpec.Discs;
import org.junit.jupiter.api.Test;

/** The shipped builds are the numbers that docs/model.md states for the invented demonstration car. */
class ShippedBuildsTest {
    private final Build build = Builds.demonstration();

    @Test
    void shouldGiveTheOilAndTheLineOfTheDemonstrationCar() {
        assertThat(build.name()).isEqualTo("demonstration");
        assertThat(build.units()).isEqualTo(UnitSystem.METRIC);
        assertThat(build.oil()).isEqualTo(new OilSpec(34.0e-6, 7.2e-6, -45, 865, 7.0e-4, 1.5e9, 0.03));
        assertThat(build.line())
                .isEqualTo(new LineSpec(0.60e-3, 4.0e-12, 6.0e-13, 0.6 * Math.PI / 4 * 0.001 * 0.001, 5e3, null));
        assertThat(build.regulator()).isEqualTo(new RegulatorSpec(4.0e-9, 10e5, 14e5, 6e5));
    }

    @Test
    void shouldGiveThePumpsHoseAndWiringOfTheDemonstrationCar() {
        assertThat(build.internalPump()).isEqualTo(new InternalPumpSpec(24e-6, 2.6e-13, Double.POSITIVE_INFINITY));
        assertThat(build.electricPump())
                .isEqualTo(new ElectricPumpSpec(3.0e-6, 5e-14, 0.042, 0.12, 4.0e-4, 0.03, 3e-5, 8.5e5));
        assertThat(build.hose())
                .isEqualTo(new HoseSpec(0.3e5, 8.0e7, 5.0e11, 6.2e-3, 814, 0.6 * Math.PI / 4 * 0.002 * 0.002));
        assertThat(build.relay()).isEqualTo(new RelaySpec(0.012, 0.008, 0.002, 0.005));
        assertThat(build.supply()).isEqualTo(new SupplySpec(13.2, 0.015, 0.035));
    }

    @Test
    void shouldGiveTheApplyElementsOfTheDemonstrationCar() {
        assertThat(build.feed())
                .isEqualTo(new FeedSpec(0.6 * Math.PI / 4 * 0.0026 * 0.0026, 0.6 * Math.PI / 4 * 0.004 * 0.004));
        assertThat(build.element(Element.LOW_BAND))
                .isEqualTo(new ApplyElementSpec(
                        35e-6, 1.0e-12, 0.6e5, 1.0e5, 75e-4, 0.12, 0.82, new Band(0.072, 5.5, true)));
        assertThat(build.element(Element.HIGH_CLUTCH))
                .isEqualTo(new ApplyElementSpec(28e-6, 1.0e-12, 0.5e5, 0.9e5, 95e-4, 0.13, 0.45, new Discs(6, 0.062)));
        assertThat(build.element(Element.REVERSE_CLUTCH))
                .isEqualTo(new ApplyElementSpec(40e-6, 1.0e-12, 0.5e5, 0.9e5, 120e-4, 0.13, 2.82, new Discs(8, 0.070)));
    }

    @Test
    void shouldGiveGearsCarSensorsAndLimitsOfTheDemonstrationCar() {
        assertThat(build.gears().shiftUpRadPerS()).isCloseTo(2500 * Math.PI / 30, within(1e-12));
        assertThat(build.gears().shiftDownRadPerS()).isCloseTo(1100 * Math.PI / 30, within(1e-12));
        assertThat(build.gears().totalRatio(Gear.FIRST)).isCloseTo(6.37, within(1e-12));
        assertThat(build.car()).isEqualTo(new CarSpec(1350, 0.31, 0.75, 0.012, 1.2, 260, 90, 40));
        assertThat(build.sensors())
                .isEqualTo(new SensorsSpec(4, 20e5, 0.005, 2e3, 5, 12, 5, true, true, true, true, true));
        assertThat(build.limits().oilTemperaturesC()).containsExactly(-20.0, 20.0, 60.0, 100.0, 120.0);
        assertThat(build.limits().holdPressurePa()).isEqualTo(4e5);
        assertThat(build.limits().engagementLimitS(0)).isCloseTo(3.1, within(1e-12));
    }

    @Test
    void shouldFillTheCalibrationFromTheRestOfTheFile() {
        assertThat(build.calibration().get(Key.HOLD_PRESSURE)).isEqualTo(4e5);
        assertThat(build.calibration().get(Key.PULSES_PER_REVOLUTION)).isEqualTo(4);
        assertThat(build.calibration().get(Key.ELECTRIC_PUMP_HIGHEST_PRESSURE)).isEqualTo(8.5e5);
        assertThat(build.calibration().is(Key.BRAKE_FITTED)).isTrue();
        assertThat(build.calibration().at(Key.ENGAGEMENT_ALLOWANCE, -20)).isEqualTo(5);
        assertThat(build.calibration().at(Key.ENGAGEMENT_ALLOWANCE, 20)).isEqualTo(1.2);
    }

    /** By hand: r·A·(1 − e^(−μθ))/(share·safety) = 0.072·0.0075·(1 − e^−0.66)/(0.82·1.2) for the band. */
    @Test
    void shouldLimitTorqueByTheWeakerWayOfTheBandAndByTheDiscs() {
        assertThat(build.calibration().get(Key.FIRST_TORQUE_PER_PRESSURE)).isCloseTo(2.6514e-4, within(1e-8));
        assertThat(build.calibration().get(Key.TOP_TORQUE_PER_PRESSURE))
                .isCloseTo(0.13 * 6 * 0.062 * 0.0095 / (0.45 * 1.2), within(1e-12));
        assertThat(build.calibration().get(Key.REVERSE_TORQUE_PER_PRESSURE))
                .isCloseTo(0.13 * 8 * 0.070 * 0.0120 / (2.82 * 1.2), within(1e-12));
    }

    @Test
    void shouldDifferFromTheRuleOfThumbOnlyWhereTheControllerSeesAndDecides() {
        Build thumb = Builds.ruleOfThumb();

        assertThat(thumb.oil()).isEqualTo(build.oil());
        assertThat(thumb.line()).isEqualTo(build.line());
        assertThat(thumb.electricPump()).isEqualTo(build.electricPump());
        assertThat(thumb.elements()).isEqualTo(build.elements());
        assertThat(thumb.limits())
                .usingRecursiveComparison()
                .ignoringFields("uncoveredFaults")
                .as("what is claimed of faults is no property of the car")
                .isEqualTo(build.limits());
        assertThat(thumb.sensors().pulsesPerRev()).isEqualTo(1);
        assertThat(thumb.sensors().brakeFitted()).isFalse();
        assertThat(thumb.calibration().get(Key.SWITCH_ON_SPEED)).isCloseTo(500 * Math.PI / 30, within(1e-12));
        assertThat(thumb.calibration().get(Key.SWITCH_OFF_SPEED)).isCloseTo(600 * Math.PI / 30, within(1e-12));
        assertThat(thumb.calibration().get(Key.HELP_PRESSURE)).isZero();
        assertThat(thumb.calibration().is(Key.FALLING_SPEED_PREDICTION)).isFalse();
        assertThat(thumb.sha256()).hasSize(64).isNotEqualTo(build.sha256());
    }
}

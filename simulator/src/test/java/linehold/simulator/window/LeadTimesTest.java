package linehold.simulator.window;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import linehold.simulator.EditedBuild;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import org.junit.jupiter.api.Test;

class LeadTimesTest {
    private static final double RPM = Math.PI / 30;

    /** By hand: one pulse at 500 rpm with one pulse a turn is 120 ms; the mean over it looks back half of it more. */
    @Test
    void shouldCountOneAndAHalfPulsesForThePickup() {
        assertThat(new LeadTimes(Builds.ruleOfThumb()).at(60, 13.2, 500 * RPM).pickupS())
                .isCloseTo(1.5 * 0.120, within(1e-9));
        assertThat(new LeadTimes(EditedBuild.of("pulses-per-revolution: 4", "pulses-per-revolution: 12"))
                        .at(60, 13.2, 500 * RPM)
                        .pickupS())
                .isCloseTo(0.015, within(1e-9));
    }

    /** Through the normally closed contact the pump starts when the coil lets go. */
    @Test
    void shouldTakeTheRelaysDelayOfTheContactThatThePumpIsWiredThrough() {
        Build open = EditedBuild.of("normally-closed-contact: true", "normally-closed-contact: false");
        assertThat(new LeadTimes(Builds.demonstration()).at(60, 13.2, 500 * RPM).relayS())
                .isEqualTo(0.008);
        assertThat(new LeadTimes(open).at(60, 13.2, 500 * RPM).relayS()).isEqualTo(0.012);
    }

    @Test
    void shouldTakeLongerHotAndWithASaggedBusAndNeverWithAPumpTooSmall() {
        LeadTimes times = new LeadTimes(Builds.demonstration());
        double cold = times.at(20, 13.2, 500 * RPM).afterCommandS();
        double hot = times.at(100, 13.2, 500 * RPM).afterCommandS();
        double sagged = times.at(100, 9.5, 500 * RPM).afterCommandS();
        assertThat(hot).isGreaterThan(cold + 0.01);
        assertThat(sagged).isGreaterThan(hot + 0.01);
        LeadTime never = new LeadTimes(Builds.weak()).at(120, 13.2, 500 * RPM);
        assertThat(never.totalS()).isInfinite();
        assertThat(never.hoseS()).isZero();
    }

    /** By hand, no load: τ = J·R/K² = 4e-4·0.175/0.042² = 40 ms; the flow asked for sets how much of it passes. */
    @Test
    void shouldSpinUpWithTheMotorsTimeConstant() {
        var build = Builds.demonstration();
        double needed = LeadTimes.leakageM3PerS(build, 60);
        // ω where D·ω/2π alone gives it; the pump starts from rest against p + crack with friction.
        double omega = needed * 2 * Math.PI / 3.0e-6;
        double torqueNm = 4.3e5 * 3.0e-6 / (2 * Math.PI) + 0.03;
        double resistance = 0.12 + 0.035 + 0.005 + 0.015;
        double endless = (13.2 - torqueNm / 0.042 * resistance) / 0.042;
        double seconds = -4.0e-4 * resistance / (0.042 * 0.042) * Math.log(1 - omega / endless);
        assertThat(new LeadTimes(build).at(60, 13.2, 500 * RPM).spinUpS()).isCloseTo(seconds, within(0.002));
    }
}

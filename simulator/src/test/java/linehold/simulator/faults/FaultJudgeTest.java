package linehold.simulator.faults;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import linehold.controller.DrivePermission;
import linehold.controller.Outputs;
import linehold.controller.safety.TroubleCode;
import linehold.controller.switching.PumpState;
import linehold.simulator.TestBuilds;
import linehold.simulator.build.Element;
import linehold.simulator.build.Gear;
import linehold.simulator.run.Engagement;
import linehold.simulator.run.Moment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FaultJudgeTest {
    private static final double BAR = 1e5;
    private static final double PERIOD_S = 0.005;
    private static final double FAULT_S = 0.1;
    private static final long HEALTHY_CODE = TroubleCode.LATE_TICK.bit();

    private final Moment moment = new Moment();
    private final FaultJudge judge;
    private long tick;

    /** The healthy car has drive granted throughout and raises one code of its own. */
    FaultJudgeTest() {
        List<DrivePermission> healthy = Collections.nCopies(10_000, DrivePermission.GRANTED);
        judge = new FaultJudge(TestBuilds.demonstration(), healthy, HEALTHY_CODE, FAULT_S);
        moment.keyOn = true;
        moment.oilC = 60;
        moment.shaftRadPerS = 100;
        moment.motorTorqueNm = 100;
        moment.gear = Gear.FIRST;
        moment.element = Element.LOW_BAND;
        moment.engagement = Engagement.ENGAGED;
        moment.outputs.permission = DrivePermission.GRANTED;
        moment.outputs.torqueLimitNm = Double.POSITIVE_INFINITY;
        moment.outputs.state = PumpState.ELECTRIC;
        pressure(8);
        run(FAULT_S + 0.1);
    }

    private FaultJudgeTest pressure(double bar) {
        moment.linePressurePa = bar * BAR;
        moment.lowestPressurePa = bar * BAR;
        moment.elementPressurePa = bar * BAR;
        return this;
    }

    private FaultJudgeTest run(double seconds) {
        for (long end = tick + Math.round(seconds / PERIOD_S); tick < end; tick++) {
            moment.timeS = tick * PERIOD_S;
            judge.tick(moment);
        }
        return this;
    }

    private FaultJudgeTest code(TroubleCode code) {
        moment.outputs.activeCodes |= code.bit();
        return this;
    }

    private FaultJudgeTest withheld() {
        moment.outputs.permission = DrivePermission.WITHHELD;
        moment.outputs.torqueLimitNm = 0;
        return this;
    }

    @ParameterizedTest
    @CsvSource({
        "NaN, NaN, false, HARMLESS",
        "NaN, NaN, true, NEVER_NOTICED",
        "NaN, 1, false, NOTICED_IN_TIME",
        "NaN, 1, true, NOTICED_IN_TIME",
        "1, NaN, false, NEVER_NOTICED",
        "1, NaN, true, NEVER_NOTICED",
        "1, 2, true, SLIP_BEFORE_NOTICE",
        "2, 1, true, SLIP_DESPITE_NOTICE",
        "1, 1, false, SLIP_DESPITE_NOTICE"
    })
    void shouldClassifyBySlipNoticeAndHoldPressure(double slipS, double noticedS, boolean lost, Outcome expected) {
        assertThat(FaultJudge.classify(slipS, noticedS, lost)).isEqualTo(expected);
    }

    @Test
    void shouldFindNothingWhereNothingHappens() {
        code(TroubleCode.LATE_TICK).run(5); // the healthy car has that one, too
        assertThat(judge.outcome()).isEqualTo(Outcome.HARMLESS);
        assertThat(judge.permission).isEqualTo(DrivePermission.GRANTED);
        assertThat(judge.lowestPressurePa).isEqualTo(8 * BAR);
        // Band: r·A·(e^(μθ) − 1)·(p − touch) over the share of 100 N·m; the numbers are those of the build file.
        double capacityNm = 0.072 * 75e-4 * 7 * BAR * Math.expm1(0.12 * 5.5);
        assertThat(judge.lowestMargin).isCloseTo(capacityNm / (0.82 * 100), within(1e-9));
    }

    @Test
    void shouldSeeALossOfHoldPressureThatNobodyNotices() {
        pressure(3.9).run(0.005);
        assertThat(judge.pressureLost()).isTrue();
        assertThat(judge.outcome()).isEqualTo(Outcome.NEVER_NOTICED);
    }

    @Test
    void shouldTellSlipBeforeANoticeFromSlipAfterOne() {
        pressure(1.5).run(0.05).code(TroubleCode.PRESSURE_LOST_MOVING).run(0.05);
        assertThat(judge.outcome()).isEqualTo(Outcome.SLIP_BEFORE_NOTICE);
        assertThat(judge.slipped).isEqualTo(Element.LOW_BAND);
        assertThat(judge.slipS).isLessThan(judge.noticedS);
    }

    @Test
    void shouldCountSlipUnderATorqueStillPermittedAfterTheNotice() {
        code(TroubleCode.PRESSURE_LOST_MOVING).run(0.05).pressure(1.5).run(0.05);
        assertThat(judge.outcome()).isEqualTo(Outcome.SLIP_DESPITE_NOTICE);
    }

    @Test
    void shouldCountNoSlipWhereDriveIsWithheldInTheSameTick() {
        withheld().pressure(1.2).run(1);
        assertThat(judge.slipS).isNaN();
        assertThat(judge.outcome()).isEqualTo(Outcome.NOTICED_IN_TIME);
        assertThat(judge.permission).isEqualTo(DrivePermission.WITHHELD);
        assertThat(judge.codes).isZero();
    }

    @Test
    void shouldCountSlipOfAnElementThatLostTouchAndFillsAgain() {
        moment.engagement = Engagement.ENGAGING;
        pressure(0.9).run(0.005);
        assertThat(judge.slipS).isNotNaN();
        assertThat(judge.lowestMargin).isZero();
    }

    @Test
    void shouldForgiveTheSlipOfAnOrdinaryEngagementButNotOfALateOne() {
        moment.gear = Gear.TOP;
        moment.element = Element.HIGH_CLUTCH;
        moment.engagement = Engagement.ENGAGING;
        moment.engagingS = 1.1;
        pressure(0.9).run(0.05);
        assertThat(judge.slipS).isNaN();
        moment.engagingS = 1.3; // the limit is 1.2 s in warm oil
        run(0.005);
        assertThat(judge.slipS).isNotNaN();
        assertThat(judge.slipped).isEqualTo(Element.HIGH_CLUTCH);
    }

    @Test
    void shouldTakeATorqueBelowFiveNewtonMetresForNone() {
        moment.motorTorqueNm = 4.9;
        pressure(0.9).run(0.05);
        assertThat(judge.slipS).isNaN();
        assertThat(judge.lowestMargin).as("that of 100 N·m at 8 bar, before").isGreaterThan(4);
    }

    @Test
    void shouldAskForNoPressureOnceTheKeyIsOffAndTheCarStands() {
        moment.keyOn = false;
        moment.shaftRadPerS = 0;
        pressure(0).run(1);
        assertThat(judge.outcome()).isEqualTo(Outcome.HARMLESS);
    }

    @Test
    void shouldLookUpTheHealthyCarAtTheSamePlaceOfADriveThatWaited() {
        // Beyond the end of the healthy run nothing is a restriction: there it had ended.
        moment.waitedS = 0;
        tick = 20_000;
        withheld().run(0.005);
        assertThat(judge.noticedS).isNaN();
        moment.waitedS = 60;
        run(0.005);
        assertThat(judge.noticedS).isNotNaN();
    }

    @Test
    void shouldKeepOnePlaceWhileTheHealthyCarWaits() {
        HealthyRun healthy = new HealthyRun(null, 60, PERIOD_S);
        // 10 periods of driving, 5 of waiting with drive withheld, 10 of driving.
        for (int i = 0; i < 25; i++) {
            boolean waits = i >= 10 && i < 15;
            moment.timeS = i * PERIOD_S;
            moment.waitedS = Math.max(0, Math.min(i, 14) - 9) * PERIOD_S;
            moment.outputs.permission = waits ? DrivePermission.WITHHELD : DrivePermission.GRANTED;
            healthy.tick(moment);
        }
        assertThat(healthy.ticks).hasSize(25);
        assertThat(healthy.permissions).hasSize(20);
        assertThat(healthy.permissions.subList(10, 20)).containsOnly(DrivePermission.GRANTED);
    }

    @Test
    void shouldTellTheStateOneSecondAfterTheNotice() {
        code(TroubleCode.PICKUP_LOST).run(0.9);
        moment.outputs.state = PumpState.HELP;
        run(0.5);
        moment.outputs.state = PumpState.INTERNAL;
        run(1);
        assertThat(judge.state).isEqualTo(PumpState.HELP);
    }

    @ParameterizedTest
    @CsvSource({"GRANTED, 0, -40, -40", "REDUCED, 25, -40, -25", "REDUCED, 25, 10, 10", "WITHHELD, 25, 40, 0"})
    void shouldLimitTheTorqueOfTheDriveByThePermission(
            DrivePermission permission, double limitNm, double askedNm, double permittedNm) {
        Outputs outputs = new Outputs();
        outputs.permission = permission;
        outputs.torqueLimitNm = limitNm;
        assertThat(FaultJudge.permittedNm(askedNm, outputs)).isEqualTo(permittedNm);
    }
}

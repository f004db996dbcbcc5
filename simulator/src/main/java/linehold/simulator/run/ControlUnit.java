package linehold.simulator.run;

import linehold.controller.Controller;
import linehold.controller.DrivePermission;
import linehold.controller.Inputs;
import linehold.controller.Outputs;
import linehold.controller.calibration.Calibration;
import linehold.simulator.fault.UnitFaults;

/**
 * The control unit around the controller: it can lose its power, start afresh, or tick late. Without power no output is
 * energised, so that what the pump does is a matter of the wiring, and drive is withheld.
 */
final class ControlUnit {
    private final Calibration calibration;
    private final UnitFaults faults = new UnitFaults();
    private Controller controller;
    private long lastStepNs = Long.MIN_VALUE;

    ControlUnit(Calibration calibration) {
        this.calibration = calibration;
        controller = new Controller(calibration);
    }

    UnitFaults faults() {
        return faults;
    }

    void step(long nowNs, Inputs in, Outputs out) {
        if (faults.dead) {
            controller = null;
            silence(out);
            return;
        }
        if (controller == null) {
            controller = new Controller(calibration);
            lastStepNs = Long.MIN_VALUE;
        }
        boolean due = lastStepNs == Long.MIN_VALUE || nowNs - lastStepNs >= Math.round(faults.tickEveryS * 1e9);
        if (due) {
            controller.step(nowNs, in, out);
            lastStepNs = nowNs;
        }
    }

    private static void silence(Outputs out) {
        out.mainRelayCoil = false;
        out.standbyRelayCoil = false;
        out.permission = DrivePermission.WITHHELD;
        out.torqueLimitNm = 0;
        out.warningLamp = false;
        out.buzzer = false;
        out.activeCodes = 0;
    }
}

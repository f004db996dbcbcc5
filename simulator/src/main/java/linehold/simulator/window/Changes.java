package linehold.simulator.window;

import java.util.function.Consumer;
import linehold.controller.calibration.Calibration;
import linehold.simulator.build.Build;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LimitsSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.build.SensorsSpec;
import linehold.simulator.build.SupplySpec;

/** A build with parts exchanged. */
final class Changes {
    /** The parts that may be exchanged, as they are at first. */
    static final class Parts {
        LineSpec line;
        InternalPumpSpec internalPump;
        RegulatorSpec regulator;
        ElectricPumpSpec electricPump;
        HoseSpec hose;
        RelaySpec relay;
        SupplySpec supply;
        SensorsSpec sensors;
        LimitsSpec limits;
        Calibration calibration;
    }

    private Changes() {}

    static Build of(Build build, Consumer<Parts> change) {
        Parts parts = new Parts();
        parts.line = build.line();
        parts.internalPump = build.internalPump();
        parts.regulator = build.regulator();
        parts.electricPump = build.electricPump();
        parts.hose = build.hose();
        parts.relay = build.relay();
        parts.supply = build.supply();
        parts.sensors = build.sensors();
        parts.limits = build.limits();
        parts.calibration = build.calibration();
        change.accept(parts);
        return new Build(
                build.name(),
                build.description(),
                build.units(),
                build.oil(),
                parts.line,
                parts.internalPump,
                parts.regulator,
                parts.electricPump,
                parts.hose,
                parts.relay,
                parts.supply,
                build.feed(),
                build.elements(),
                build.gears(),
                build.car(),
                parts.sensors,
                parts.limits,
                build.installation(),
                parts.calibration,
                build.sha256());
    }

    static Build sensors(Build build, SensorsSpec sensors) {
        return of(build, parts -> parts.sensors = sensors);
    }
}

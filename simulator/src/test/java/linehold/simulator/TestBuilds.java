package linehold.simulator;

import java.util.List;
import java.util.function.Consumer;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Builds;
import linehold.simulator.build.ElectricPumpSpec;
import linehold.simulator.build.FeedSpec;
import linehold.simulator.build.HoseSpec;
import linehold.simulator.build.InternalPumpSpec;
import linehold.simulator.build.LineSpec;
import linehold.simulator.build.OilSpec;
import linehold.simulator.build.RegulatorSpec;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.build.SupplySpec;

/** The demonstration build with parts exchanged, also for ones that no build file may have (an ideal oil, no leakage). */
public final class TestBuilds {
    private TestBuilds() {}

    /** The physical parts of a build, to be exchanged one by one. */
    public static final class Parts {
        public OilSpec oil;
        public LineSpec line;
        public InternalPumpSpec internalPump;
        public RegulatorSpec regulator;
        public ElectricPumpSpec electricPump;
        public HoseSpec hose;
        public RelaySpec relay;
        public SupplySpec supply;
        public FeedSpec feed;
        public List<ApplyElementSpec> elements;
    }

    public static Build demonstration() {
        return Builds.demonstration();
    }

    public static Build demonstrationWith(Consumer<Parts> change) {
        Build base = Builds.demonstration();
        Parts parts = new Parts();
        parts.oil = base.oil();
        parts.line = base.line();
        parts.internalPump = base.internalPump();
        parts.regulator = base.regulator();
        parts.electricPump = base.electricPump();
        parts.hose = base.hose();
        parts.relay = base.relay();
        parts.supply = base.supply();
        parts.feed = base.feed();
        parts.elements = base.elements();
        change.accept(parts);
        return new Build(
                base.name(),
                base.description(),
                base.units(),
                parts.oil,
                parts.line,
                parts.internalPump,
                parts.regulator,
                parts.electricPump,
                parts.hose,
                parts.relay,
                parts.supply,
                parts.feed,
                parts.elements,
                base.gears(),
                base.car(),
                base.sensors(),
                base.limits(),
                base.installation(),
                base.calibration(),
                base.sha256());
    }
}

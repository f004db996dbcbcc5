package linehold.simulator.drive;

import linehold.simulator.build.Build;

/** A drive without its own oil temperature, so that it can be run at any other. */
public record OilIgnored(Drive drive) implements Drive {
    @Override
    public String name() {
        return drive.name();
    }

    @Override
    public String source() {
        return drive.source();
    }

    @Override
    public DriveReader open() {
        return new ReaderAround(drive.open()) {
            @Override
            public boolean read(DriveSample into) {
                if (!inner.read(into)) {
                    return false;
                }
                into.oilTemperatureC = Double.NaN;
                return true;
            }
        };
    }

    @Override
    public Drive inCarOf(Build build) {
        return new OilIgnored(drive.inCarOf(build));
    }
}

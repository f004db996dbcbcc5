package linehold.simulator.cli;

import java.util.Locale;
import linehold.simulator.build.UnitSystem;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads {@code metric} or {@code us}, in any case. */
public final class UnitSystemConverter implements ITypeConverter<UnitSystem> {
    @Override
    public UnitSystem convert(String typed) {
        return switch (typed.toLowerCase(Locale.ROOT)) {
            case "metric" -> UnitSystem.METRIC;
            case "us" -> UnitSystem.US;
            default -> throw new TypeConversionException("found '" + typed + "', expected metric or us");
        };
    }
}

package linehold.simulator.oil;

import linehold.simulator.build.OilSpec;

/** The oil at one temperature. Mutable, because a drive may warm it while it runs. */
public final class Oil {
    private final OilSpec spec;
    private final WaltherViscosity viscosity;
    private double temperatureC;
    private double viscosityPaS;
    private double densityKgPerM3;

    public Oil(OilSpec spec, double temperatureC) {
        this.spec = spec;
        this.viscosity =
                new WaltherViscosity(40, spec.kinematicViscosity40M2PerS(), 100, spec.kinematicViscosity100M2PerS());
        setTemperatureC(temperatureC);
    }

    public void setTemperatureC(double newTemperatureC) {
        temperatureC = newTemperatureC;
        // ρ(T) = ρ15·(1 − α·(T − 15 °C))
        densityKgPerM3 = spec.density15KgPerM3() * (1 - spec.expansionPerK() * (newTemperatureC - 15));
        // μ = ν·ρ
        viscosityPaS = viscosity.kinematicM2PerS(newTemperatureC) * densityKgPerM3;
    }

    public double temperatureC() {
        return temperatureC;
    }

    /** Dynamic viscosity μ, Pa·s. */
    public double viscosityPaS() {
        return viscosityPaS;
    }

    /** Density ρ, kg/m³. */
    public double densityKgPerM3() {
        return densityKgPerM3;
    }

    /** Whether the viscosity at the present temperature is an extrapolation. */
    public boolean isExtrapolated() {
        return viscosity.isExtrapolated(temperatureC, spec.pourPointC());
    }
}

package linehold.simulator.run;

import linehold.controller.Range;
import linehold.controller.calibration.Key;
import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.build.RelaySpec;
import linehold.simulator.circuit.Plant;
import linehold.simulator.electrics.Relay;

/**
 * What a build promises of the car that stands in first, fed by its electric pump alone: what a bench is held against.
 *
 * @param settledPa where the line settles, Pa
 * @param halfTimeS from the moment the main relay is told to open until the line has half that pressure, s
 * @param tenthTimeS the same for a tenth, s
 */
public record StandingCar(double settledPa, double halfTimeS, double tenthTimeS) {
    /** A filled circuit settles in tenths of a second; this is far beyond. */
    private static final double SETTLE_S = 5;

    private static final double RESOLUTION_S = 1e-3;
    private static final double LONGEST_FALL_S = 60;

    /** @param oilC oil temperature, °C */
    public static StandingCar of(Build build, double oilC) {
        boolean normallyClosed = build.calibration().is(Key.NORMALLY_CLOSED_CONTACT);
        RelaySpec relay = normallyClosed ? build.relay().seenFromNormallyClosedContact() : build.relay();
        Plant plant = new Plant(build, relay, oilC, false, true);
        plant.setRange(Range.DRIVE);
        ApplyElementSpec band = build.element(Element.LOW_BAND);
        double startPa = build.limits().holdPressurePa();
        double[] volumes = new double[Element.COUNT];
        volumes[Element.LOW_BAND.ordinal()] =
                band.strokeVolumeM3() + band.complianceM3PerPa() * Math.max(0, startPa - band.touchPressurePa());
        plant.start(startPa, 0, volumes);
        plant.command(Element.LOW_BAND, true);
        plant.advance(SETTLE_S, Double.POSITIVE_INFINITY);
        double settledPa = plant.linePressurePa();
        plant.ask(Relay.MAIN, false);
        double halfTimeS = fallTo(settledPa / 2, plant);
        double tenthTimeS = fallTo(settledPa / 10, plant);
        return new StandingCar(settledPa, halfTimeS, tenthTimeS);
    }

    private static double fallTo(double pressurePa, Plant plant) {
        while (plant.linePressurePa() > pressurePa && plant.nowS() < SETTLE_S + LONGEST_FALL_S) {
            double nextS = plant.nowS() + RESOLUTION_S;
            plant.advance(nextS, nextS);
        }
        return plant.nowS() - SETTLE_S;
    }
}

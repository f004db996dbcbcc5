package linehold.simulator.build;

/**
 * What the controller sees the car through.
 *
 * @param pulsesPerRev pickup pulses per shaft revolution
 * @param pressureFullScalePa line pressure at 90 % of the sender's supply, Pa (0 Pa at 10 %)
 * @param pressureLagS first-order lag of the sender, s
 * @param pressureNoisePa standard deviation of the sender's noise, Pa
 * @param senderSupplyVolts supply of the sender, V
 * @param adcBits resolution of the converter over its full scale
 * @param adcFullScaleVolts full scale of the converter, V
 * @param pumpCurrentFitted whether pump current is measured
 * @param oilTemperatureFitted whether oil temperature is measured
 * @param brakeFitted whether the controller sees the brake switch
 * @param rangeFitted whether the controller sees the selected range
 * @param torqueRequestFitted whether the controller sees the driver's torque request
 */
public record SensorsSpec(
        int pulsesPerRev,
        double pressureFullScalePa,
        double pressureLagS,
        double pressureNoisePa,
        double senderSupplyVolts,
        int adcBits,
        double adcFullScaleVolts,
        boolean pumpCurrentFitted,
        boolean oilTemperatureFitted,
        boolean brakeFitted,
        boolean rangeFitted,
        boolean torqueRequestFitted) {}

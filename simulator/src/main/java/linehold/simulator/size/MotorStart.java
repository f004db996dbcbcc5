package linehold.simulator.size;

/**
 * Start of a permanent-magnet DC motor against a constant load torque, inductance left out.
 *
 * <pre>J·dw/dt = K·(V − K·w)/R − b·w − T
 * w = w_run·(1 − e^(−t/τ)),  τ = R·J/(R·b + K²),  w_run = (K·V − R·T)/(R·b + K²)</pre>
 *
 * Source: e.g. Kluever, Dynamic Systems, ch. 10.
 *
 * @param timeConstantS τ, s
 * @param runRadPerS speed it ends at, rad/s
 * @param stallAmps current at standstill, A
 * @param runAmps current at the end, A
 */
record MotorStart(double timeConstantS, double runRadPerS, double stallAmps, double runAmps) {

    static MotorStart of(
            double volts,
            double resistanceOhm,
            double constantVsPerRad,
            double inertiaKgM2,
            double viscousNmS,
            double loadNm) {
        double damping = resistanceOhm * viscousNmS + constantVsPerRad * constantVsPerRad;
        double run = (constantVsPerRad * volts - resistanceOhm * loadNm) / damping;
        return new MotorStart(
                resistanceOhm * inertiaKgM2 / damping,
                run,
                volts / resistanceOhm,
                (volts - constantVsPerRad * run) / resistanceOhm);
    }

    /** Time until this share of the final speed, s. */
    double timeToS(double share) {
        return -timeConstantS * StrictMath.log(1 - share);
    }
}

package linehold.simulator.circuit;

import linehold.simulator.build.ApplyElementSpec;
import linehold.simulator.build.FeedSpec;

/**
 * Filling and emptying of one band or clutch. Its state, the oil volume v, belongs to the integrator.
 *
 * <pre>v &lt; v_stroke: p_k = p_ret + (p_touch − p_ret)·v/v_stroke
 * v ≥ v_stroke: p_k = p_touch + (v − v_stroke)/C_k
 * dv/dt = (Cd·A)_feed·sq(p − p_k) while commanded, −(Cd·A)_exh·sq(p_k) while not; less (Cd·A)_seal·sq(p_k)</pre>
 */
final class ApplyElement {
    /** Where the piston is. */
    enum Piston {
        /** v = 0 and nothing flows. */
        EMPTY,
        /** Moving: 0 ≤ v ≤ v_stroke. */
        STROKING,
        /** Pressing: v ≥ v_stroke. */
        TOUCHED
    }

    final double strokeM3;
    final double touchPa;
    /** Stored volume of the line above which an empty element starts to fill. */
    double fillsAboveM3;

    private final double returnPa;
    private final double strokingPaPerM3;
    private final double touchedPaPerM3;
    private final double feedAreaM2;
    private final double exhaustAreaM2;
    private final Orifice orifice;

    /** Leak of the seal, Cd·A, m². */
    double sealLeakM2;

    boolean commanded;
    Piston piston = Piston.EMPTY;

    ApplyElement(ApplyElementSpec spec, FeedSpec feed, Orifice orifice, LineStorage line) {
        this.orifice = orifice;
        strokeM3 = spec.strokeVolumeM3();
        touchPa = spec.touchPressurePa();
        returnPa = spec.returnPressurePa();
        strokingPaPerM3 = (touchPa - returnPa) / strokeM3;
        touchedPaPerM3 = 1 / spec.complianceM3PerPa();
        feedAreaM2 = feed.feedAreaM2();
        exhaustAreaM2 = feed.exhaustAreaM2();
        setLine(line);
    }

    /** The line stores another volume at the same pressure from now on. */
    void setLine(LineStorage line) {
        fillsAboveM3 = line.storedM3(returnPa);
    }

    /** Piston pressure p_k, Pa. */
    double pistonPa(double volumeM3) {
        return piston == Piston.TOUCHED
                ? touchPa + (volumeM3 - strokeM3) * touchedPaPerM3
                : returnPa + volumeM3 * strokingPaPerM3;
    }

    double pistonPaPerM3() {
        return piston == Piston.TOUCHED ? touchedPaPerM3 : strokingPaPerM3;
    }

    /** Flow out of the line, m³/s: what is fed while commanded, nothing while not. */
    double feed(double linePa, double volumeM3) {
        return commanded && piston != Piston.EMPTY ? orifice.flow(feedAreaM2, linePa - pistonPa(volumeM3)) : 0;
    }

    /** Flow to the sump, m³/s: past a worn seal, and the exhaust while not commanded. */
    double drain(double volumeM3) {
        return piston == Piston.EMPTY ? 0 : orifice.flow(drainAreaM2(), pistonPa(volumeM3));
    }

    /** ∂feed/∂p = −∂feed/∂p_k, m³/(s·Pa), given the feed. */
    double feedConductance(double linePa, double volumeM3, double feed) {
        return commanded ? orifice.conductance(feedAreaM2, linePa - pistonPa(volumeM3), feed) : 0;
    }

    /** ∂drain/∂p_k, m³/(s·Pa), given the drain. */
    double drainConductance(double volumeM3, double drain) {
        return drainAreaM2() == 0 ? 0 : orifice.conductance(drainAreaM2(), pistonPa(volumeM3), drain);
    }

    private double drainAreaM2() {
        return commanded ? sealLeakM2 : exhaustAreaM2 + sealLeakM2;
    }
}

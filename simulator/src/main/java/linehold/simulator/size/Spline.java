package linehold.simulator.size;

/**
 * Stresses in a splined coupling, straight across the teeth.
 *
 * <pre>D = (D_major + D_minor)/2,  h = (D_major − D_minor)/2,  t = π·D/(2·N)
 * shear:    S_s = 2·T/(D·s·N·l·t)         force at the pitch radius over the tooth roots that share it
 * bearing:  S_c = 2·T/(D·s·N·l·h)         the same force over the flanks in contact</pre>
 *
 * <p>s is the share of the teeth that carry. With s = 1/2 the shear is the form 4·T/(D·N·l·t) of Dudley, When splines
 * need stress control (1957), and Shigley, Mechanical Engineering Design (from memory); the bearing is then twice
 * Dudley's 2·T/(D·N·l·h), on the safe side.
 */
record Spline(int teeth, double majorM, double minorM, double lengthM, double sharing) {

    double pitchDiameterM() {
        return (majorM + minorM) / 2;
    }

    double toothThicknessM() {
        return Math.PI * pitchDiameterM() / (2 * teeth);
    }

    double shearPa(double torqueNm) {
        return forceOverLength(torqueNm) / toothThicknessM();
    }

    double bearingPa(double torqueNm) {
        return forceOverLength(torqueNm) / ((majorM - minorM) / 2);
    }

    private double forceOverLength(double torqueNm) {
        return 2 * torqueNm / (pitchDiameterM() * sharing * teeth * lengthM);
    }
}

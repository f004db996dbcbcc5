package linehold.simulator.window;

import java.util.ArrayList;
import java.util.List;
import linehold.controller.calibration.Key;
import linehold.simulator.build.Build;
import linehold.simulator.build.Display;
import linehold.simulator.window.Window.Proof;
import linehold.simulator.window.Window.Standstill;
import linehold.simulator.window.Window.StopLimit;

/** Why a build has no window, one sentence each. */
final class Obstacles {
    private Obstacles() {}

    static List<String> of(Build build, List<CarryPoint> carry, List<Standstill> standstill, List<StopLimit> stops) {
        Display display = new Display(build.units());
        double holdPa = build.limits().holdPressurePa();
        List<String> obstacles = new ArrayList<>();
        for (Standstill one : standstill) {
            if (one.fullPa() < holdPa) {
                obstacles.add("At standstill with oil at " + display.temperature(one.oilC())
                        + " the electric pump holds only " + display.pressure(one.fullPa()) + " of the "
                        + display.pressure(holdPa) + " asked for, however early it starts.");
            }
        }
        for (CarryPoint one : carry) {
            if (Double.isNaN(one.holdRadPerS())) {
                obstacles.add("With oil at " + display.temperature(one.oilC())
                        + " the internal pump does not make the hold pressure at any shaft speed.");
            }
        }
        if (obstacles.isEmpty()) {
            for (StopLimit stop : stops) {
                if (Double.isNaN(stop.found(Setting.ALONE).onRadPerS())) {
                    obstacles.add("No switch-on speed up to " + display.speed(Key.SWITCH_ON_SPEED.most())
                            + " keeps the hold pressure in a stop at " + display.acceleration(stop.rateRadPerS2())
                            + " with oil at " + display.temperature(stop.oilC()) + ".");
                }
            }
        }
        return obstacles;
    }

    /** A pair was found, but the line does not outlast rolling back where the electric pump could carry it. */
    static List<String> of(Build build, List<RollBack> rollBacks) {
        Display display = new Display(build.units());
        double holdPa = build.limits().holdPressurePa();
        List<String> obstacles = new ArrayList<>();
        for (RollBack one : rollBacks) {
            if (one.lowestPa() < holdPa) {
                obstacles.add("Rolling back at " + display.speed(RollBack.TRIED * one.mostRadPerS()) + " with oil at "
                        + display.temperature(one.oilC()) + " the line falls to " + display.pressure(one.lowestPa())
                        + ", although the electric pump could keep the hold pressure.");
            }
        }
        return obstacles;
    }

    /** A pair was found, but it does not stand the test. */
    static List<String> of(Display display, double marginPa, String drives, List<Proof> proofs) {
        List<String> obstacles = new ArrayList<>();
        if (marginPa < 0) {
            obstacles.add("With the recommended switch-on speed a stop falls " + display.pressure(-marginPa)
                    + " below the hold pressure.");
        }
        for (Proof proof : proofs) {
            if (!proof.held()) {
                obstacles.add("On " + drives + " (" + proof.setting().title() + ") " + proof.lost() + " of "
                        + proof.runs() + " runs are lost: " + proof.weakest() + ".");
            }
        }
        return obstacles;
    }
}

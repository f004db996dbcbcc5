package linehold.simulator.report;

import java.util.List;

/** What anyone must know who acts on a verdict with a real car. */
final class Cautions {
    private Cautions() {}

    /** Work on the car. Common practice of the trade; manuals and local rules go before it. */
    static final List<String> WORK = List.of(
            "A car whose clutches lose or gain pressure can move by itself. Chock the wheels, set the park brake as well"
                    + " as the park lock, and keep a helper on the brake during every test under power.",
            "Never work under a car that is held by hydraulics or by a jack alone: use rated stands on firm ground.",
            "Transmission oil is hot and under pressure, and burns and injects through skin. Let it cool, bring the line"
                    + " to zero pressure before a fitting is opened, wear eye protection and gloves.",
            "Fuse the electric pump's supply at the battery for its cable, and open that circuit before hands go near the"
                    + " pump or the relay.",
            "The traction battery stays with people who are trained and equipped for it, and isolated while others work.");

    /** How far a verdict reaches. */
    static final List<String> RESULT = List.of(
            "This is the result of a model with the numbers of the build file. It says nothing about worn seals, other"
                    + " oil, damaged wiring or drives that were not given.",
            "Confirm it on the car, standing and secured, with a gauge on the line before the car drives.",
            "It is no certified safety system and replaces neither the park lock nor the brakes.",
            "Local codes, vehicle approval rules and licensed practice prevail over anything written here.");
}

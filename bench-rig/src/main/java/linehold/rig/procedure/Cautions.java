package linehold.rig.procedure;

import java.util.List;

/** What is shown, and must be confirmed, before the first coil moves. Common practice of the trade. */
public final class Cautions {
    private Cautions() {}

    /** For all procedures. */
    public static final List<String> ALL = List.of(
            "Park brake on, wheels chocked; for a procedure that turns the shaft: driven wheels off the ground, the car on"
                    + " rated stands on firm ground.",
            "Nobody under the car, and never under one that is held by hydraulics or by a jack alone.",
            "A helper stands by who can open the pump's supply; it is fused at the battery for its cable.",
            "The oil is hot and under pressure, burns, and injects through skin: hoses tight and guarded, eye protection and"
                    + " gloves on, no hand searches for a leak.",
            "The electric pump may start at any moment, and runs on after a procedure, a stop or a crash; only opening its"
                    + " supply stops it.",
            "Hands, hair and clothes are clear of shaft, drill and pump; the drill is held against its own torque.",
            "The traction battery stays isolated, or with people who are trained for it.",
            "Local codes and licensed practice prevail over anything shown here; this is no certified safety system.");

    /** Changes with the words: who confirms shows which ones were read. */
    public static final String MARK = Integer.toHexString(ALL.hashCode());
}

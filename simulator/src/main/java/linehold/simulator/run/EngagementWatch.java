package linehold.simulator.run;

import linehold.simulator.build.Build;
import linehold.simulator.build.Element;
import linehold.simulator.circuit.Plant;

/**
 * Tells engaged from engaging: an element is engaged once it is commanded, has touched, and its piston pressure has
 * reached the hold pressure since the touch. A piston that leaves its stop is engaging again.
 */
final class EngagementWatch {
    private final double holdPa;
    private Element element;
    private double sinceS;
    private boolean engaged;

    EngagementWatch(Build build) {
        holdPa = build.limits().holdPressurePa();
    }

    void update(Plant plant, Moment moment) {
        Element commanded = moment.gear.element();
        if (commanded != element) {
            element = commanded;
            sinceS = moment.timeS;
            engaged = false;
        }
        moment.element = commanded;
        if (commanded == null) {
            moment.engagement = Engagement.NONE;
            moment.engagingS = 0;
            moment.elementPressurePa = Double.NaN;
            return;
        }
        moment.elementPressurePa = plant.elementPressurePa(commanded);
        if (!plant.touched(commanded)) {
            if (engaged) {
                sinceS = moment.timeS;
            }
            engaged = false;
        } else if (moment.elementPressurePa >= holdPa) {
            engaged = true;
        }
        moment.engagement = engaged ? Engagement.ENGAGED : Engagement.ENGAGING;
        moment.engagingS = engaged ? 0 : moment.timeS - sinceS;
    }
}

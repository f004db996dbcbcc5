package linehold.rig.loop;

import linehold.controller.Inputs;
import linehold.controller.Outputs;

/** What turns inputs into outputs: the controller, or a bench procedure around it. */
public interface Decision {
    /** As {@link linehold.controller.Controller#step}. */
    void step(long nowNs, Inputs in, Outputs out);
}

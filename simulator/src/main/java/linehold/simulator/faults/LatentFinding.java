package linehold.simulator.faults;

import java.util.List;
import linehold.simulator.fault.FaultKind;

/**
 * Whether the self-test at key-on finds a silent fault before the drive.
 *
 * @param kind the fault, there before key-on
 * @param found whether a code was raised before drive was granted
 * @param codes the codes
 */
public record LatentFinding(FaultKind kind, boolean found, List<String> codes) {
    public LatentFinding {
        codes = List.copyOf(codes);
    }
}

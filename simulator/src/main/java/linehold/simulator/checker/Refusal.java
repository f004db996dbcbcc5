package linehold.simulator.checker;

/** Why a certificate is not accepted, one sentence. */
public final class Refusal extends Exception {
    private static final long serialVersionUID = 1;

    Refusal(String reason) {
        super(reason);
    }
}

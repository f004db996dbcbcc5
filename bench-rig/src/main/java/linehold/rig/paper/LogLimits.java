package linehold.rig.paper;

/**
 * How much the page takes in.
 *
 * @param mostBytes largest log
 * @param keptFreeBytes what stays free on the medium, which may be the one that the rig records on
 */
public record LogLimits(long mostBytes, long keptFreeBytes) {
    /**
     * A day at 100 Hz with five short columns (60 bytes a row) is 518 MB; longer logs are split, or proved by the command.
     * What stays free is a quarter of what a rig's recordings take by default.
     */
    public static final LogLimits DEFAULT = new LogLimits(550_000_000, 250_000_000);
}

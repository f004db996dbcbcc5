package linehold.simulator.electrics;

import linehold.simulator.build.RelaySpec;

/**
 * Both relays' contacts on the one wire that feeds the electric pump. The fuse lies upstream of them.
 *
 * <pre>R = 1/(1/R_main + 1/R_standby)   over the closed contacts</pre>
 */
public final class PumpFeed {
    private final RelayContact[] contacts = new RelayContact[Relay.values().length];
    private final double[] resistanceOhm = new double[contacts.length];

    /**
     * @param main delays and bounce of the main relay, seen from the contact the pump is wired through
     * @param standby the same of the standby relay, whose contact is open at first
     */
    public PumpFeed(RelaySpec main, RelaySpec standby, boolean withBounce, boolean mainClosedAtFirst) {
        contacts[Relay.MAIN.ordinal()] = new RelayContact(main, withBounce, mainClosedAtFirst);
        contacts[Relay.STANDBY.ordinal()] = new RelayContact(standby, withBounce, false);
        resistanceOhm[Relay.MAIN.ordinal()] = main.contactResistanceOhm();
        resistanceOhm[Relay.STANDBY.ordinal()] = standby.contactResistanceOhm();
    }

    public RelayContact contact(Relay relay) {
        return contacts[relay.ordinal()];
    }

    /** A worn contact, Ω when closed. */
    public void setResistance(Relay relay, double ohm) {
        resistanceOhm[relay.ordinal()] = ohm;
    }

    /** Time of the next change of either contact, s; infinite if none is due. */
    public double nextChangeS() {
        return Math.min(contacts[0].nextChangeS(), contacts[1].nextChangeS());
    }

    /** Lets the contacts change as is due at {@code nowS}. */
    public void change(double nowS) {
        contacts[0].change(nowS);
        contacts[1].change(nowS);
    }

    public boolean isClosed() {
        return contacts[0].isClosed() || contacts[1].isClosed();
    }

    /** Resistance of the closed contacts, Ω; that of the main contact while none is closed. */
    public double resistanceOhm() {
        boolean main = contacts[0].isClosed();
        boolean standby = contacts[1].isClosed();
        if (main && standby) {
            if (resistanceOhm[0] == 0 || resistanceOhm[1] == 0) {
                return 0;
            }
            return resistanceOhm[0] * resistanceOhm[1] / (resistanceOhm[0] + resistanceOhm[1]);
        }
        return resistanceOhm[standby ? 1 : 0];
    }

    /** Armature moves of both relays so far. */
    public long moves() {
        return contacts[0].moves() + contacts[1].moves();
    }
}

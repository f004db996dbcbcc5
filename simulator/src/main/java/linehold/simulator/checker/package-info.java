/**
 * The independent checker of a certificate: its own reading of the equations, its own interval arithmetic, and no class of
 * ours but the certificate's records (held by a test). It trusts nobody who wrote the certificate.
 */
package linehold.simulator.checker;

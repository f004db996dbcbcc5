/** The certificate as data: what is claimed, and the curves that prove it. It knows nobody. */
package linehold.simulator.certificate;

/**
 * The sizing sheet: for one build, each part around the pump by its textbook formula, with inputs, result, limit, verdict
 * and source. docs/size.md lists formulas, limits and where they come from.
 *
 * <p>Formulas stand in classes of their own ({@link linehold.simulator.size.PipeFlow}, {@link
 * linehold.simulator.size.Copper} …) and know no build; one {@code …Lines} class a topic puts them to the build's numbers.
 * The motor and the torque of apply elements are those that the simulator computes with.
 */
package linehold.simulator.size;

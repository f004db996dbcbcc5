/**
 * What a person or another program reads: JSON, terminal table, page with plots, progress. Result records in, text out;
 * no physics. Output depends on its input alone: not on locale, time zone, clock or the order in which runs finished.
 */
package linehold.simulator.report;

/** Drives: logs of real cars, published schedules, invented manoeuvres, all as rows of shaft speed and torque. */
package linehold.simulator.drive;

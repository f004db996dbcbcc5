/** Road, wheels, gears: how the speed of the car becomes the speed and the torque of the motor. */
package linehold.simulator.drivetrain;

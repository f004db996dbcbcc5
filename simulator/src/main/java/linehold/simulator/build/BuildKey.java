package linehold.simulator.build;

import static linehold.simulator.build.FileKey.choice;
import static linehold.simulator.build.FileKey.count;
import static linehold.simulator.build.FileKey.flag;
import static linehold.simulator.build.FileKey.list;
import static linehold.simulator.build.FileKey.quantity;
import static linehold.simulator.build.FileKey.text;
import static linehold.simulator.build.FileKey.words;
import static linehold.simulator.build.Provenance.ASSUMED;
import static linehold.simulator.build.Provenance.COMMON_PRACTICE;
import static linehold.simulator.build.Provenance.MEASURED;
import static linehold.simulator.build.Provenance.PUBLISHED;
import static linehold.simulator.build.Quantity.*;

/**
 * Every key of the build file outside {@code installation} and {@code calibration}, in file order: path, quantity, least, most, example; then
 * default or optional; then where a good value comes from and what it means. Bounds are assumed: wide enough for any
 * plausible car, narrow enough to catch a slipped unit or decimal point. The rows stay together, so this file is long.
 */
enum BuildKey {
    NAME(text("name", "my car").from(ASSUMED, "What reports call this build.")),
    DESCRIPTION(
            text("description", "two-speed car, spring").optional().from(ASSUMED, "Anything worth knowing about it.")),
    UNITS(choice("units", "metric", "us")
            .byDefault("metric")
            .from(ASSUMED, "What tables, plots and reports speak: bar, L/min, N·m, °C or psi, gal/min, lbf·ft, °F.")),

    OIL_VISCOSITY_40(quantity("oil.viscosity-40", KINEMATIC_VISCOSITY, "5 mm2/s", "200 mm2/s", "34 mm2/s")
            .from(PUBLISHED, "Kinematic viscosity at 40 °C, from the oil's data sheet.")
            .usual("20 mm2/s", "45 mm2/s", COMMON_PRACTICE)),
    OIL_VISCOSITY_100(quantity("oil.viscosity-100", KINEMATIC_VISCOSITY, "2 mm2/s", "50 mm2/s", "7.2 mm2/s")
            .from(PUBLISHED, "Kinematic viscosity at 100 °C, from the oil's data sheet.")
            .usual("4.5 mm2/s", "8.5 mm2/s", COMMON_PRACTICE)),
    OIL_POUR_POINT(quantity("oil.pour-point", TEMPERATURE, "-80 °C", "20 °C", "-45 °C")
            .from(
                    PUBLISHED,
                    "Pour point, from the oil's data sheet; below it viscosity is an extrapolation and flagged.")
            .usual("-60 °C", "-35 °C", COMMON_PRACTICE)),
    OIL_DENSITY_15(quantity("oil.density-15", DENSITY, "700 kg/m3", "1100 kg/m3", "865 kg/m3")
            .from(PUBLISHED, "Density at 15 °C, from the oil's data sheet.")
            .usual("820 kg/m3", "890 kg/m3", COMMON_PRACTICE)),
    OIL_EXPANSION(quantity("oil.expansion", EXPANSION, "3e-4 1/K", "12e-4 1/K", "7e-4 1/K")
            .byDefault("7.0e-4 1/K")
            .from(COMMON_PRACTICE, "Thermal expansion; mineral oils lie near 7e-4 1/K.")
            .usual("6e-4 1/K", "9e-4 1/K", COMMON_PRACTICE)),
    OIL_BULK_MODULUS(quantity("oil.bulk-modulus", PRESSURE, "0.5 GPa", "3 GPa", "1.5 GPa")
            .byDefault("1.5 GPa")
            .from(COMMON_PRACTICE, "Bulk modulus of the oil without air.")
            .usual("1.2 GPa", "2 GPa", COMMON_PRACTICE)),
    OIL_ENTRAINED_AIR(quantity("oil.entrained-air", RATIO, "0.1 %", "20 %", "3 %")
            .byDefault("3 %")
            .from(ASSUMED, "Volume share of entrained air at atmospheric pressure; foaming oil has more.")
            .usual("0.5 %", "10 %", ASSUMED)),

    LINE_VOLUME(quantity("line.volume", VOLUME, "0.01 L", "20 L", "0.60 L")
            .from(MEASURED, "Oil volume under line pressure: passages, hoses, valve body.")
            .usual("0.2 L", "2 L", ASSUMED)),
    LINE_COMPLIANCE(quantity("line.compliance", COMPLIANCE, "0 cm3/bar", "100 cm3/bar", "0.4 cm3/bar")
            .from(ASSUMED, "Give of hoses and castings: volume gained per pressure.")
            .usual("0 cm3/bar", "3 cm3/bar", ASSUMED)),
    LINE_LAMINAR_LEAK(quantity("line.laminar-leak", SLIP, "0 m3", "1e-11 m3", "6e-13 m3")
            .from(MEASURED, "Leakage through narrow gaps: leak flow times dynamic viscosity over pressure.")
            .usual("5e-14 m3", "3e-12 m3", ASSUMED)),
    LINE_LEAK_BORE(quantity("line.leak-bore", LENGTH, "0 mm", "10 mm", "1.0 mm")
            .from(MEASURED, "One hole that leaks as much as all orifices and worn bores of the valve body together.")
            .usual("0.3 mm", "2 mm", ASSUMED)),
    LINE_DISCHARGE_COEFFICIENT(quantity("line.discharge-coefficient", RATIO, "0.4", "1", "0.6")
            .byDefault("0.6")
            .from(PUBLISHED, "Discharge coefficient of every bore in this file; a sharp edge has π/(π+2) = 0.611.")
            .usual("0.58", "0.85", COMMON_PRACTICE)),
    LINE_LINEAR_BELOW(quantity("line.linear-below", PRESSURE, "0.1 kPa", "50 kPa", "5 kPa")
            .byDefault("5 kPa")
            .from(ASSUMED, "Pressure difference below which the flow through a bore grows in proportion to it.")
            .usual("1 kPa", "20 kPa", ASSUMED)),
    ACCUMULATOR_PRECHARGE(quantity("line.accumulator.precharge-absolute", PRESSURE, "1.1 bar", "50 bar", "3 bar")
            .optional()
            .from(
                    MEASURED,
                    "Absolute gas pressure of the accumulator with no oil in it; leave out where none is fitted.")
            .usual("2 bar", "8 bar", ASSUMED)),
    ACCUMULATOR_GAS_VOLUME(quantity("line.accumulator.gas-volume", VOLUME, "0.001 L", "10 L", "0.3 L")
            .optional()
            .from(PUBLISHED, "Gas volume of the accumulator at precharge; leave out where none is fitted.")
            .usual("0.05 L", "1 L", ASSUMED)),

    INTERNAL_DISPLACEMENT(quantity("internal-pump.displacement", DISPLACEMENT, "1 cm3/rev", "200 cm3/rev", "24 cm3/rev")
            .from(MEASURED, "Displacement of the transmission's own pump.")
            .usual("10 cm3/rev", "45 cm3/rev", ASSUMED)),
    INTERNAL_SLIP(quantity("internal-pump.slip", SLIP, "1e-15 m3", "1e-11 m3", "2.6e-13 m3")
            .from(MEASURED, "Slip of that pump: slip flow times dynamic viscosity over pressure.")
            .usual("5e-14 m3", "2e-12 m3", ASSUMED)),
    INTERNAL_FILL_LIMIT(quantity("internal-pump.fill-limit", ROTATION, "500 rpm", "30000 rpm", "6000 rpm")
            .optional()
            .from(MEASURED, "Shaft speed above which its suction no longer fills it; leave out for none.")
            .usual("3000 rpm", "9000 rpm", ASSUMED)),

    REGULATOR_GAIN(quantity("regulator.gain", VALVE_GAIN, "0.5 L/(min.bar)", "500 L/(min.bar)", "24 L/(min.bar)")
            .from(MEASURED, "Flow back to the sump per pressure above the set pressure.")
            .usual("5 L/(min.bar)", "100 L/(min.bar)", ASSUMED)),
    REGULATOR_DRIVE(quantity("regulator.set-drive", PRESSURE, "1 bar", "40 bar", "10 bar")
            .from(MEASURED, "Set pressure in D.")
            .usual("4 bar", "14 bar", COMMON_PRACTICE)),
    REGULATOR_REVERSE(quantity("regulator.set-reverse", PRESSURE, "1 bar", "40 bar", "14 bar")
            .from(MEASURED, "Set pressure in R, usually boosted.")
            .usual("8 bar", "22 bar", COMMON_PRACTICE)),
    REGULATOR_PARK_NEUTRAL(quantity("regulator.set-park-neutral", PRESSURE, "1 bar", "40 bar", "6 bar")
            .from(MEASURED, "Set pressure in P and N.")
            .usual("3 bar", "12 bar", COMMON_PRACTICE)),

    ELECTRIC_DISPLACEMENT(quantity("electric-pump.displacement", DISPLACEMENT, "0.1 cm3/rev", "50 cm3/rev", "3 cm3/rev")
            .from(PUBLISHED, "Displacement of the electric pump.")
            .usual("1 cm3/rev", "12 cm3/rev", ASSUMED)),
    ELECTRIC_SLIP(quantity("electric-pump.slip", SLIP, "1e-16 m3", "1e-11 m3", "5e-14 m3")
            .from(MEASURED, "Slip of the electric pump: slip flow times dynamic viscosity over pressure.")
            .usual("1e-14 m3", "5e-13 m3", ASSUMED)),
    ELECTRIC_MOTOR_CONSTANT(
            quantity("electric-pump.motor-constant", MOTOR_CONSTANT, "0.001 V.s/rad", "1 V.s/rad", "0.042 V.s/rad")
                    .from(MEASURED, "Torque per current, equal to voltage per speed, of its motor.")
                    .usual("0.015 V.s/rad", "0.12 V.s/rad", ASSUMED)),
    ELECTRIC_ARMATURE(quantity("electric-pump.armature-resistance", RESISTANCE, "1 mohm", "10 ohm", "0.12 ohm")
            .from(MEASURED, "Winding and brushes of its motor.")
            .usual("0.03 ohm", "0.5 ohm", ASSUMED)),
    ELECTRIC_INERTIA(quantity("electric-pump.inertia", INERTIA, "1e-6 kg.m2", "0.1 kg.m2", "4e-4 kg.m2")
            .from(MEASURED, "Rotor and pump gears together.")
            .usual("5e-5 kg.m2", "2e-3 kg.m2", ASSUMED)),
    ELECTRIC_DRY_FRICTION(quantity("electric-pump.dry-friction", TORQUE, "0 N.m", "5 N.m", "0.03 N.m")
            .from(MEASURED, "Friction torque that does not depend on speed.")
            .usual("0.01 N.m", "0.15 N.m", ASSUMED)),
    ELECTRIC_VISCOUS_FRICTION(
            quantity("electric-pump.viscous-friction", VISCOUS_FRICTION, "0 N.m.s", "0.1 N.m.s", "3e-5 N.m.s")
                    .from(MEASURED, "Friction torque per speed at the reference viscosity.")
                    .usual("5e-6 N.m.s", "2e-4 N.m.s", ASSUMED)),
    ELECTRIC_RELIEF(quantity("electric-pump.relief", PRESSURE, "1 bar", "60 bar", "8.5 bar")
            .from(PUBLISHED, "Built-in relief pressure at its outlet.")
            .usual("5 bar", "20 bar", ASSUMED)),

    HOSE_CRACKING(quantity("hose.cracking-pressure", PRESSURE, "0 bar", "5 bar", "0.3 bar")
            .from(PUBLISHED, "Cracking pressure of the check valve between electric pump and line.")
            .usual("0.02 bar", "0.7 bar", COMMON_PRACTICE)),
    HOSE_LAMINAR(quantity("hose.laminar-resistance", LAMINAR_RESISTANCE, "1e4 Pa.s/m3", "1e12 Pa.s/m3", "8e7 Pa.s/m3")
            .from(MEASURED, "Pressure loss per flow through valve and hose at the reference viscosity.")
            .usual("5e6 Pa.s/m3", "1e9 Pa.s/m3", ASSUMED)),
    HOSE_TURBULENT(
            quantity("hose.turbulent-resistance", TURBULENT_RESISTANCE, "0 Pa.s2/m6", "1e16 Pa.s2/m6", "5e11 Pa.s2/m6")
                    .from(MEASURED, "Pressure loss per flow squared at the reference density.")
                    .usual("5e10 Pa.s2/m6", "1e13 Pa.s2/m6", ASSUMED)),
    HOSE_REFERENCE_VISCOSITY(quantity("hose.reference-viscosity", DYNAMIC_VISCOSITY, "0.5 mPa.s", "1 Pa.s", "6.2 mPa.s")
            .from(MEASURED, "Oil viscosity when laminar resistance and viscous friction were measured.")
            .usual("3 mPa.s", "60 mPa.s", ASSUMED)),
    HOSE_REFERENCE_DENSITY(quantity("hose.reference-density", DENSITY, "600 kg/m3", "1100 kg/m3", "814 kg/m3")
            .from(MEASURED, "Oil density when turbulent resistance was measured.")
            .usual("780 kg/m3", "880 kg/m3", ASSUMED)),
    HOSE_FAILED_OPEN_BORE(quantity("hose.failed-open-bore", LENGTH, "0.1 mm", "20 mm", "2.0 mm")
            .byDefault("2.0 mm")
            .from(ASSUMED, "Bore of the way back through the check valve once it has failed open.")
            .usual("1 mm", "8 mm", ASSUMED)),

    RELAY_PULL_IN(quantity("relay.pull-in", TIME, "0 ms", "500 ms", "12 ms")
            .from(PUBLISHED, "Coil on to contact closed.")
            .usual("3 ms", "20 ms", COMMON_PRACTICE)),
    RELAY_DROP_OUT(quantity("relay.drop-out", TIME, "0 ms", "500 ms", "8 ms")
            .from(PUBLISHED, "Coil off to contact open.")
            .usual("2 ms", "25 ms", COMMON_PRACTICE)),
    RELAY_BOUNCE(quantity("relay.bounce", TIME, "0 ms", "50 ms", "2 ms")
            .from(PUBLISHED, "How long the contact bounces after closing.")
            .usual("0.5 ms", "5 ms", COMMON_PRACTICE)),
    RELAY_CONTACT(quantity("relay.contact-resistance", RESISTANCE, "0 mohm", "1 ohm", "5 mohm")
            .from(PUBLISHED, "Resistance of the closed contact.")
            .usual("1 mohm", "20 mohm", COMMON_PRACTICE)),
    RELAY_STANDBY_FITTED(flag("relay.standby-fitted")
            .byDefault("false")
            .from(MEASURED, "Whether a second relay can feed the electric pump.")),

    SUPPLY_OPEN_VOLTAGE(quantity("supply.open-voltage", VOLTAGE, "8 V", "18 V", "13.2 V")
            .from(MEASURED, "Voltage of the 12 V bus with the electric pump off.")
            .usual("12 V", "14.6 V", COMMON_PRACTICE)),
    SUPPLY_SOURCE(quantity("supply.source-resistance", RESISTANCE, "0 mohm", "1 ohm", "15 mohm")
            .from(MEASURED, "Resistance of battery and converter: voltage sag per current.")
            .usual("5 mohm", "60 mohm", ASSUMED)),
    SUPPLY_WIRE(quantity("supply.wire-resistance", RESISTANCE, "0 mohm", "1 ohm", "35 mohm")
            .from(MEASURED, "Cable to the electric pump and back.")
            .usual("5 mohm", "100 mohm", ASSUMED)),

    FEED_BORE(quantity("feed.feed-bore", LENGTH, "0.3 mm", "20 mm", "2.6 mm")
            .from(MEASURED, "Bore through which every apply element fills.")
            .usual("1 mm", "5 mm", ASSUMED)),
    FEED_EXHAUST_BORE(quantity("feed.exhaust-bore", LENGTH, "0.3 mm", "20 mm", "4.0 mm")
            .from(MEASURED, "Bore through which every apply element empties.")
            .usual("1.5 mm", "8 mm", ASSUMED)),

    BAND_STROKE(quantity("low-band.stroke-volume", VOLUME, "1 cm3", "1 L", "35 cm3")
            .from(MEASURED, "Oil that moves the servo until the band touches.")
            .usual("10 cm3", "80 cm3", ASSUMED)),
    BAND_COMPLIANCE(quantity("low-band.compliance", COMPLIANCE, "0.001 cm3/bar", "10 cm3/bar", "0.1 cm3/bar")
            .from(ASSUMED, "Give of the applied band: volume per pressure.")
            .usual("0.02 cm3/bar", "1 cm3/bar", ASSUMED)),
    BAND_RETURN(quantity("low-band.return-pressure", PRESSURE, "0 bar", "10 bar", "0.6 bar")
            .from(MEASURED, "Servo pressure at which its return spring starts to move.")
            .usual("0.2 bar", "1.5 bar", ASSUMED)),
    BAND_TOUCH(quantity("low-band.touch-pressure", PRESSURE, "0.01 bar", "15 bar", "1.0 bar")
            .from(MEASURED, "Servo pressure at which the band touches the drum.")
            .usual("0.3 bar", "2.5 bar", ASSUMED)),
    BAND_AREA(quantity("low-band.piston-area", AREA, "1 cm2", "500 cm2", "75 cm2")
            .from(MEASURED, "Servo piston area.")
            .usual("20 cm2", "120 cm2", ASSUMED)),
    BAND_FRICTION(quantity("low-band.friction-coefficient", RATIO, "0.02", "0.5", "0.12")
            .from(PUBLISHED, "Friction coefficient of the lining in oil.")
            .usual("0.09", "0.17", COMMON_PRACTICE)),
    BAND_SHARE(quantity("low-band.torque-share", RATIO, "0.01", "10", "0.82")
            .from(MEASURED, "Torque on the drum over motor torque in first gear, from the gear set.")
            .usual("0.3", "3", ASSUMED)),
    BAND_RADIUS(quantity("low-band.drum-radius", LENGTH, "10 mm", "500 mm", "72 mm")
            .from(MEASURED, "Drum radius.")
            .usual("50 mm", "100 mm", ASSUMED)),
    BAND_WRAP(quantity("low-band.wrap", ANGLE, "0.5 rad", "13 rad", "5.5 rad")
            .from(MEASURED, "Angle over which the band wraps the drum.")
            .usual("4.5 rad", "12 rad", ASSUMED)),
    BAND_HELPS(flag("low-band.drum-helps")
            .from(MEASURED, "Whether drum torque pulls the band tighter when the motor drives the car.")),

    HIGH_STROKE(quantity("high-clutch.stroke-volume", VOLUME, "1 cm3", "1 L", "28 cm3")
            .from(MEASURED, "Oil that moves the piston until the discs touch.")
            .usual("10 cm3", "80 cm3", ASSUMED)),
    HIGH_COMPLIANCE(quantity("high-clutch.compliance", COMPLIANCE, "0.001 cm3/bar", "10 cm3/bar", "0.1 cm3/bar")
            .from(ASSUMED, "Give of the pressed pack: volume per pressure.")
            .usual("0.02 cm3/bar", "1 cm3/bar", ASSUMED)),
    HIGH_RETURN(quantity("high-clutch.return-pressure", PRESSURE, "0 bar", "10 bar", "0.5 bar")
            .from(MEASURED, "Piston pressure at which its return spring starts to move.")
            .usual("0.2 bar", "1.5 bar", ASSUMED)),
    HIGH_TOUCH(quantity("high-clutch.touch-pressure", PRESSURE, "0.01 bar", "15 bar", "0.9 bar")
            .from(MEASURED, "Piston pressure at which the discs touch.")
            .usual("0.3 bar", "2.5 bar", ASSUMED)),
    HIGH_AREA(quantity("high-clutch.piston-area", AREA, "1 cm2", "500 cm2", "95 cm2")
            .from(MEASURED, "Piston area.")
            .usual("40 cm2", "180 cm2", ASSUMED)),
    HIGH_FRICTION(quantity("high-clutch.friction-coefficient", RATIO, "0.02", "0.5", "0.13")
            .from(PUBLISHED, "Friction coefficient of the lining in oil.")
            .usual("0.09", "0.17", COMMON_PRACTICE)),
    HIGH_SHARE(quantity("high-clutch.torque-share", RATIO, "0.01", "10", "0.45")
            .from(MEASURED, "Torque on the clutch over motor torque in top gear, from the gear set.")
            .usual("0.3", "3", ASSUMED)),
    HIGH_FACES(count("high-clutch.friction-faces", RATIO, "1", "40", "6")
            .from(MEASURED, "Number of rubbing faces.")
            .usual("4", "16", ASSUMED)),
    HIGH_RADIUS(quantity("high-clutch.mean-radius", LENGTH, "10 mm", "500 mm", "62 mm")
            .from(MEASURED, "Mean of inner and outer lining radius.")
            .usual("45 mm", "100 mm", ASSUMED)),

    REVERSE_STROKE(quantity("reverse-clutch.stroke-volume", VOLUME, "1 cm3", "1 L", "40 cm3")
            .from(MEASURED, "Oil that moves the piston until the discs touch.")
            .usual("10 cm3", "80 cm3", ASSUMED)),
    REVERSE_COMPLIANCE(quantity("reverse-clutch.compliance", COMPLIANCE, "0.001 cm3/bar", "10 cm3/bar", "0.1 cm3/bar")
            .from(ASSUMED, "Give of the pressed pack: volume per pressure.")
            .usual("0.02 cm3/bar", "1 cm3/bar", ASSUMED)),
    REVERSE_RETURN(quantity("reverse-clutch.return-pressure", PRESSURE, "0 bar", "10 bar", "0.5 bar")
            .from(MEASURED, "Piston pressure at which its return spring starts to move.")
            .usual("0.2 bar", "1.5 bar", ASSUMED)),
    REVERSE_TOUCH(quantity("reverse-clutch.touch-pressure", PRESSURE, "0.01 bar", "15 bar", "0.9 bar")
            .from(MEASURED, "Piston pressure at which the discs touch.")
            .usual("0.3 bar", "2.5 bar", ASSUMED)),
    REVERSE_AREA(quantity("reverse-clutch.piston-area", AREA, "1 cm2", "500 cm2", "120 cm2")
            .from(MEASURED, "Piston area.")
            .usual("40 cm2", "250 cm2", ASSUMED)),
    REVERSE_FRICTION(quantity("reverse-clutch.friction-coefficient", RATIO, "0.02", "0.5", "0.13")
            .from(PUBLISHED, "Friction coefficient of the lining in oil.")
            .usual("0.09", "0.17", COMMON_PRACTICE)),
    REVERSE_SHARE(quantity("reverse-clutch.torque-share", RATIO, "0.01", "10", "2.82")
            .from(MEASURED, "Torque on the clutch over motor torque in reverse, from the gear set.")
            .usual("0.5", "4", ASSUMED)),
    REVERSE_FACES(count("reverse-clutch.friction-faces", RATIO, "1", "40", "8")
            .from(MEASURED, "Number of rubbing faces.")
            .usual("4", "16", ASSUMED)),
    REVERSE_RADIUS(quantity("reverse-clutch.mean-radius", LENGTH, "10 mm", "500 mm", "70 mm")
            .from(MEASURED, "Mean of inner and outer lining radius.")
            .usual("45 mm", "110 mm", ASSUMED)),

    GEARS_FIRST(quantity("gears.first-ratio", RATIO, "0.3", "10", "1.82")
            .from(PUBLISHED, "Motor turns per output turn in first gear.")
            .usual("1.5", "3", COMMON_PRACTICE)),
    GEARS_TOP(quantity("gears.top-ratio", RATIO, "0.3", "10", "1.00")
            .from(PUBLISHED, "Motor turns per output turn in top gear.")
            .usual("0.65", "1.1", COMMON_PRACTICE)),
    GEARS_REVERSE(quantity("gears.reverse-ratio", RATIO, "0.3", "10", "1.82")
            .from(PUBLISHED, "Motor turns per output turn in reverse.")
            .usual("1.5", "3", COMMON_PRACTICE)),
    GEARS_FINAL(quantity("gears.final-ratio", RATIO, "1", "20", "3.5")
            .from(PUBLISHED, "Final drive.")
            .usual("2.5", "4.6", COMMON_PRACTICE)),
    GEARS_SHIFT_UP(quantity("gears.shift-up", ROTATION, "300 rpm", "20000 rpm", "2500 rpm")
            .from(MEASURED, "Motor speed in first gear at which top gear is taken.")
            .usual("1500 rpm", "8000 rpm", ASSUMED)),
    GEARS_SHIFT_DOWN(quantity("gears.shift-down", ROTATION, "100 rpm", "20000 rpm", "1100 rpm")
            .from(MEASURED, "Motor speed in top gear at which first gear is taken.")
            .usual("700 rpm", "5000 rpm", ASSUMED)),
    GEARS_SHIFT_TIME(quantity("gears.shift-time", TIME, "0.02 s", "5 s", "0.4 s")
            .byDefault("0.4 s")
            .from(ASSUMED, "Time in which the motor speed follows from one gear to the other.")
            .usual("0.2 s", "1 s", COMMON_PRACTICE)),

    CAR_MASS(quantity("car.mass", MASS, "200 kg", "10000 kg", "1350 kg")
            .from(MEASURED, "Mass with load.")
            .usual("600 kg", "2500 kg", COMMON_PRACTICE)),
    CAR_TYRE_RADIUS(quantity("car.tyre-radius", LENGTH, "0.15 m", "0.8 m", "0.31 m")
            .from(MEASURED, "Rolling radius.")
            .usual("0.27 m", "0.38 m", COMMON_PRACTICE)),
    CAR_DRAG_AREA(quantity("car.drag-area", AREA, "0.1 m2", "5 m2", "0.75 m2")
            .from(PUBLISHED, "Drag coefficient times frontal area.")
            .usual("0.5 m2", "1.2 m2", COMMON_PRACTICE)),
    CAR_ROLLING(quantity("car.rolling-coefficient", RATIO, "0.003", "0.1", "0.012")
            .from(PUBLISHED, "Rolling resistance over weight.")
            .usual("0.008", "0.02", COMMON_PRACTICE)),
    CAR_AIR_DENSITY(quantity("car.air-density", DENSITY, "0.5 kg/m3", "1.6 kg/m3", "1.2 kg/m3")
            .byDefault("1.2 kg/m3")
            .from(PUBLISHED, "Air density; 1.2 kg/m3 is air of 20 °C at sea level.")
            .usual("0.9 kg/m3", "1.35 kg/m3", PUBLISHED)),
    CAR_PEAK_TORQUE(quantity("car.motor-peak-torque", TORQUE, "10 N.m", "2000 N.m", "260 N.m")
            .from(PUBLISHED, "Largest motor torque forward.")
            .usual("80 N.m", "600 N.m", ASSUMED)),
    CAR_REVERSE_TORQUE(quantity("car.reverse-peak-torque", TORQUE, "10 N.m", "2000 N.m", "90 N.m")
            .from(PUBLISHED, "Largest motor torque in reverse.")
            .usual("40 N.m", "300 N.m", ASSUMED)),
    CAR_OVERRUN_TORQUE(quantity("car.overrun-torque", TORQUE, "0 N.m", "2000 N.m", "40 N.m")
            .from(MEASURED, "Largest braking torque through the motor; the friction brakes do the rest.")
            .usual("0 N.m", "150 N.m", ASSUMED)),

    SENSORS_PULSES(count("sensors.pulses-per-revolution", RATIO, "1", "120", "4")
            .from(MEASURED, "Pulses of the speed pickup in one turn of the motor shaft.")
            .usual("1", "60", COMMON_PRACTICE)),
    SENSORS_SENDER_FITTED(flag("sensors.pressure-sender-fitted")
            .byDefault("true")
            .from(MEASURED, "Whether a line pressure sender is fitted.")),
    SENSORS_FULL_SCALE(quantity("sensors.pressure-full-scale", PRESSURE, "2 bar", "400 bar", "20 bar")
            .from(PUBLISHED, "Line pressure at 90 % of the sender's supply; it gives 10 % at 0 bar.")
            .usual("16 bar", "50 bar", COMMON_PRACTICE)),
    SENSORS_LAG(quantity("sensors.pressure-lag", TIME, "0.1 ms", "1 s", "5 ms")
            .byDefault("5 ms")
            .from(PUBLISHED, "First-order lag of the sender.")
            .usual("1 ms", "20 ms", COMMON_PRACTICE)),
    SENSORS_NOISE(quantity("sensors.pressure-noise", PRESSURE, "0 bar", "2 bar", "0.02 bar")
            .byDefault("0.02 bar")
            .from(MEASURED, "Standard deviation of the sender's noise.")
            .usual("0.005 bar", "0.1 bar", ASSUMED)),
    SENSORS_SUPPLY(quantity("sensors.sender-supply", VOLTAGE, "3 V", "12 V", "5 V")
            .byDefault("5 V")
            .from(MEASURED, "Supply of the sender.")
            .usual("4.5 V", "5.5 V", COMMON_PRACTICE)),
    SENSORS_ADC_BITS(count("sensors.adc-resolution", RESOLUTION, "8 bit", "24 bit", "12 bit")
            .byDefault("12 bit")
            .from(PUBLISHED, "Resolution of the converter over its full scale.")
            .usual("10 bit", "16 bit", COMMON_PRACTICE)),
    SENSORS_ADC_FULL_SCALE(quantity("sensors.adc-full-scale", VOLTAGE, "3 V", "24 V", "5 V")
            .byDefault("5 V")
            .from(PUBLISHED, "Full scale of the converter.")
            .usual("4.5 V", "10 V", ASSUMED)),
    SENSORS_CURRENT_FITTED(flag("sensors.pump-current-fitted")
            .from(MEASURED, "Whether the controller sees the electric pump's current.")),
    SENSORS_OIL_FITTED(
            flag("sensors.oil-temperature-fitted").from(MEASURED, "Whether the controller sees the oil temperature.")),
    SENSORS_BRAKE_FITTED(flag("sensors.brake-fitted").from(MEASURED, "Whether the controller sees the brake switch.")),
    SENSORS_RANGE_FITTED(
            flag("sensors.range-fitted").from(MEASURED, "Whether the controller sees the selected range.")),
    SENSORS_TORQUE_FITTED(flag("sensors.torque-request-fitted")
            .from(MEASURED, "Whether the controller sees the driver's torque request.")),

    LIMITS_HOLD(quantity("limits.hold-pressure", PRESSURE, "0.5 bar", "20 bar", "4 bar")
            .from(MEASURED, "Lowest line pressure allowed while an apply element is engaged.")
            .usual("2.5 bar", "8 bar", ASSUMED)),
    LIMITS_SAFETY(quantity("limits.safety-factor", RATIO, "1", "3", "1.2")
            .byDefault("1.2")
            .from(COMMON_PRACTICE, "Lowest allowed torque capacity over torque demand of an engaged element.")
            .usual("1.1", "1.6", COMMON_PRACTICE)),
    LIMITS_WARM(quantity("limits.engagement-warm", TIME, "0.1 s", "60 s", "1.2 s")
            .byDefault("1.2 s")
            .from(ASSUMED, "Longest engagement from 20 °C up.")
            .usual("0.5 s", "2 s", COMMON_PRACTICE)),
    LIMITS_COLD(quantity("limits.engagement-cold", TIME, "0.1 s", "60 s", "5 s")
            .byDefault("5 s")
            .from(ASSUMED, "Longest engagement at -20 °C; linear between.")
            .usual("2 s", "8 s", ASSUMED)),
    LIMITS_OIL_TEMPERATURES(list("limits.oil-temperatures", TEMPERATURE, "-50 °C", "180 °C", "[-20 °C, 20 °C, 100 °C]")
            .byDefault("[-20 °C, 20 °C, 60 °C, 100 °C, 120 °C]")
            .from(ASSUMED, "Oil temperatures at which every drive is proved.")),
    LIMITS_UNCOVERED(words("limits.uncovered-faults", "[pump-stalled, hose-leak@pulling-away]")
            .byDefault("[]")
            .meaning("Faults that the build does not claim to cover, each everywhere or in one phase of driving"
                    + " (fault@phase): the names of docs/faults.md.")),

    CONTROL_PERIOD(quantity("controller.control-period", TIME, "1 ms", "20 ms", "5 ms")
            .byDefault("5 ms")
            .from(ASSUMED, "Time between two steps of the controller.")
            .usual("2 ms", "10 ms", ASSUMED));

    private final FileKey key;

    BuildKey(FileKey key) {
        this.key = key;
    }

    FileKey key() {
        return key;
    }

    String path() {
        return key.path();
    }
}

package linehold.controller;

import java.util.SplittableRandom;

/** Inputs without sense or mercy, from a seed: good values, NaN, infinities, counters that jump, time that leaps. */
final class RandomInputs {
    private static final Range[] RANGES = {Range.PARK, Range.REVERSE, Range.NEUTRAL, Range.DRIVE, null};

    final Inputs in = new Inputs();
    private final SplittableRandom random;
    private long nowNs;
    private double rpm;

    RandomInputs(SplittableRandom random) {
        this.random = random;
        in.keyOn = true;
        in.pressureSenderSupplyVolts = 5;
        in.pressureSenderVolts = 2;
    }

    private boolean oneIn(int n) {
        return random.nextInt(n) == 0;
    }

    private double number(double usual, double most) {
        return switch (random.nextInt(40)) {
            case 0 -> Double.NaN;
            case 1 -> Double.POSITIVE_INFINITY;
            case 2 -> Double.NEGATIVE_INFINITY;
            case 3 -> -random.nextDouble() * most;
            case 4 -> random.nextDouble() * most * 1000;
            case 5 -> 0;
            default -> usual * (0.9 + 0.2 * random.nextDouble());
        };
    }

    /** Changes the inputs; returns the time of the next step, ns. */
    long next() {
        nowNs += oneIn(200) ? random.nextLong(-20_000_000, 3_000_000_000L) : 5_000_000;
        if (oneIn(300)) {
            rpm = oneIn(2) ? 0 : random.nextDouble() * 6000;
        }
        edges();
        if (oneIn(20)) {
            in.pressureSenderVolts = number(0.5 + 4 * random.nextDouble(), 5);
            in.pressureSenderSupplyVolts = oneIn(10) ? number(5, 5) : 5;
        }
        in.mainContactVolts = number(oneIn(2) ? 13 : 0, 16);
        in.standbyContactVolts = number(oneIn(2) ? 13 : 0, 16);
        in.busVolts = number(13, 16);
        in.oilTemperatureC = number(80, 150);
        in.pumpCurrentAmps = number(10, 100);
        in.torqueRequestNm = number(oneIn(2) ? 0 : 100, 300);
        in.brakeApplied = oneIn(10) != in.brakeApplied;
        if (oneIn(500)) {
            in.keyOn = !in.keyOn;
        }
        if (oneIn(50)) {
            in.selectedRange = RANGES[random.nextInt(RANGES.length)];
        }
        return nowNs;
    }

    private void edges() {
        switch (random.nextInt(400)) {
            case 0 -> in.pickupEdgeCount = random.nextLong();
            case 1 -> in.pickupEdgeCount -= random.nextInt(100);
            case 2 -> in.pickupLastEdgeNs = random.nextLong();
            case 3 -> in.pickupEdgeCount += random.nextInt(1_000_000);
            case 4 -> in.pickupLastEdgeNs = nowNs + random.nextInt(100_000_000);
            default -> {
                double pulses = rpm * 4 / 60 * 0.005;
                long whole = (long) (pulses + random.nextDouble());
                in.pickupEdgeCount += whole;
                if (whole > 0) {
                    in.pickupLastEdgeNs = nowNs - random.nextInt(1_000_000);
                }
            }
        }
    }
}

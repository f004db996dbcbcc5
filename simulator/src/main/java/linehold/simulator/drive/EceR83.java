package linehold.simulator.drive;

import java.util.ArrayList;
import java.util.List;
import linehold.simulator.drive.Schedule.Point;

/**
 * The type I operating cycle of UN Regulation No. 83: four elementary urban cycles (part one) and the extra-urban cycle
 * (part two).
 *
 * <p>Source: UN ECE Regulation No. 83 (Official Journal of the EU L 42, 15.2.2012), annex 4a, tables 1 and 2: the end
 * point of each operation; typed from memory of the tables and compared, point by point, with two independent public
 * printed copies of them. The operations "gear changing" are steady parts for a car that shifts by itself.
 */
final class EceR83 {
    /** Elementary urban cycle, 195 s: seconds, km/h at the end of each operation. */
    private static final double[][] URBAN = {
        {0, 0}, {11, 0}, {15, 15}, {23, 15}, {25, 10}, {28, 0}, {49, 0}, {54, 15}, {56, 15}, {61, 32}, {85, 32},
        {93, 10}, {96, 0}, {117, 0}, {122, 15}, {124, 15}, {133, 35}, {135, 35}, {143, 50}, {155, 50}, {163, 35},
        {176, 35}, {178, 35}, {185, 10}, {188, 0}, {195, 0}
    };

    /** Extra-urban cycle, 400 s: seconds, km/h at the end of each operation. */
    private static final double[][] EXTRA_URBAN = {
        {0, 0},
        {20, 0},
        {25, 15},
        {27, 15},
        {36, 35},
        {38, 35},
        {46, 50},
        {48, 50},
        {61, 70},
        {111, 70},
        {119, 50},
        {188, 50},
        {201, 70},
        {251, 70},
        {286, 100},
        {316, 100},
        {336, 120},
        {346, 120},
        {362, 80},
        {370, 50},
        {380, 0},
        {400, 0}
    };

    private static final int URBAN_REPEATS = 4;

    private EceR83() {}

    /** The whole cycle, 1180 s. */
    static Schedule cycle() {
        List<Point> points = new ArrayList<>();
        for (int i = 0; i < URBAN_REPEATS; i++) {
            append(points, URBAN);
        }
        append(points, EXTRA_URBAN);
        return new Schedule("ece-r83", "UN ECE R83 annex 4a, urban cycle four times and extra-urban cycle", points);
    }

    /** One elementary urban cycle, 195 s. */
    static Schedule urban() {
        return part("ece-r83-urban", URBAN);
    }

    /** The extra-urban cycle, 400 s. */
    static Schedule extraUrban() {
        return part("ece-r83-extra-urban", EXTRA_URBAN);
    }

    private static Schedule part(String name, double[][] table) {
        List<Point> points = new ArrayList<>();
        append(points, table);
        return new Schedule(name, "UN ECE R83 annex 4a", points);
    }

    private static void append(List<Point> points, double[][] table) {
        double startS = points.isEmpty() ? 0 : points.get(points.size() - 1).timeS();
        for (int i = points.isEmpty() ? 0 : 1; i < table.length; i++) {
            points.add(new Point(startS + table[i][0], table[i][1]));
        }
    }
}

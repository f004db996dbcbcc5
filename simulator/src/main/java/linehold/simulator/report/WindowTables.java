package linehold.simulator.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import linehold.simulator.build.Display;
import linehold.simulator.window.CarryPoint;
import linehold.simulator.window.LeadTime;
import linehold.simulator.window.Setting;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.Found;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Remedy;
import linehold.simulator.window.Window.StopLimit;

/** The numbers of a window in tables, for terminal and page alike. */
final class WindowTables {
    private static final String NONE = "none";

    private final Window window;
    private final Display display;

    WindowTables(Window window, Display display) {
        this.window = window;
        this.display = display;
    }

    /** What each pump carries alone. */
    NumberTable carry() {
        NumberTable.Builder table = new NumberTable.Builder(
                "What one pump carries alone",
                "Above: lowest shaft speed, in rpm, at which the internal pump alone makes the pressure. Below: what the"
                        + " electric pump alone holds at standstill, in "
                        + display.pressureScale().label()
                        + "; last, how fast the shaft may then turn backward, in rpm, as in a car that rolls back.",
                head(""));
        table.row("hold pressure " + display.pressure(holdPa()), speeds(CarryPoint::holdRadPerS));
        table.row("largest torque forward", speeds(CarryPoint::forwardRadPerS));
        table.row("largest torque in reverse", speeds(CarryPoint::reverseRadPerS));
        table.row("hand-over pressure", speeds(CarryPoint::handOverRadPerS));
        table.row(
                "standstill, bus " + fullVolts(),
                cells(window.standstill(), one -> display.pressureScale().number(one.fullPa())));
        table.row(
                "standstill, bus sagged to " + volts(Window.SAGGED_VOLTS),
                cells(window.standstill(), one -> display.pressureScale().number(one.saggedPa())));
        table.row("rolling back, at most", cells(window.rollBacks(), one -> speed(one.mostRadPerS())));
        return table.build();
    }

    /** The lead time part by part with the full bus, and its sum with the sagged one. */
    NumberTable lead() {
        NumberTable.Builder table = leadParts("Lead time of the electric pump", leads(false));
        table.row("all, bus " + fullVolts(), cells(leads(false), one -> milliseconds(one.totalS())));
        table.row(
                "all, bus sagged to " + volts(Window.SAGGED_VOLTS),
                cells(leads(true), one -> milliseconds(one.totalS())));
        return table.build();
    }

    /** The same part by part with the sagged bus. */
    NumberTable leadSagged() {
        NumberTable.Builder table = leadParts(
                "Lead time with the bus sagged to " + volts(Window.SAGGED_VOLTS) + " instead of " + fullVolts(),
                leads(true));
        table.row("all", cells(leads(true), one -> milliseconds(one.totalS())));
        return table.build();
    }

    private NumberTable.Builder leadParts(String title, List<LeadTime> leads) {
        double onRadPerS =
                window.pair() == null ? Window.RULE_RAD_PER_S : window.pair().onRadPerS();
        NumberTable.Builder table = new NumberTable.Builder(
                title,
                "In ms, from the shaft falling below " + display.speed(onRadPerS) + " to the pump carrying "
                        + display.pressure(holdPa()) + ".",
                head(""));
        table.row("pickup, teeth at their worst", cells(leads, one -> milliseconds(one.pickupS())));
        table.row("control period", cells(leads, one -> milliseconds(one.periodS())));
        table.row("relay", cells(leads, one -> milliseconds(one.relayS())));
        table.row("bounce of its contact", cells(leads, one -> milliseconds(one.bounceS())));
        table.row("spin-up under pressure", cells(leads, one -> milliseconds(one.spinUpS())));
        table.row("hose", cells(leads, one -> milliseconds(one.hoseS())));
        return table;
    }

    private String fullVolts() {
        return volts(window.build().supply().openVolts());
    }

    /** Lowest switch-on speed by rate and oil temperature, speed alone. */
    NumberTable limits() {
        NumberTable.Builder table = new NumberTable.Builder(
                "Lowest switch-on speed that keeps the hold pressure, speed alone",
                "In rpm, by how fast the shaft stops, in rpm/s. No lower speed than 110 rpm is tried.",
                head("stop"));
        for (double rate : window.rates()) {
            table.row(
                    display.accelerationScale().number(rate),
                    cells(stops(rate), one -> speed(one.found(Setting.ALONE).onRadPerS())));
        }
        return table.build();
    }

    /** What the aids buy at one oil temperature, in rpm and in pressure. */
    NumberTable aids(double oilC) {
        List<String> head = new ArrayList<>(List.of("stop, rpm/s"));
        for (Setting setting : Setting.values()) {
            head.add(shortName(setting));
        }
        for (Setting setting : Setting.values()) {
            if (setting != Setting.ALONE) {
                head.add("Δp " + shortName(setting));
            }
        }
        String unit = display.pressureScale().label();
        NumberTable.Builder table = new NumberTable.Builder(
                "What the aids buy with oil at " + display.temperature(oilC),
                "Lowest switch-on speed in rpm alone and with each; then the " + unit
                        + " that each adds to the lowest pressure when switched on at "
                        + display.speed(Window.RULE_RAD_PER_S) + ".",
                head);
        for (StopLimit stop : window.stops()) {
            if (stop.oilC() == oilC) {
                List<String> cells = new ArrayList<>();
                stop.found().forEach(found -> cells.add(speed(found.onRadPerS())));
                for (Setting setting : Setting.values()) {
                    if (setting != Setting.ALONE) {
                        cells.add(gain(stop.found(setting), stop.found(Setting.ALONE)));
                    }
                }
                table.row(display.accelerationScale().number(stop.rateRadPerS2()), cells);
            }
        }
        return table.build();
    }

    /** What the pair costs. */
    NumberTable prices(Setting setting) {
        NumberTable.Builder table = new NumberTable.Builder(
                "Price of the pair on " + window.drives() + ", " + setting.title(),
                "Mean over the oil temperatures. Contact life is that of the sizing sheet (relay-life): the closings its"
                        + " maker rates, derated for the motor's running current.",
                List.of("drive", "pump runs", "relay moves/h", "Wh/h", "contact lasts, h"));
        for (Price price : window.prices()) {
            if (price.setting() == setting) {
                table.row(
                        price.drive(),
                        List.of(
                                Numbers.fixed(100 * price.pumpOnShare(), 0) + " %",
                                Numbers.fixed(price.relayOperationsPerHour(), 0),
                                Numbers.fixed(price.watts(), 0),
                                Double.isNaN(price.contactLifeH())
                                        ? "not given"
                                        : Numbers.fixed(price.contactLifeH(), 0)));
            }
        }
        return table.build();
    }

    /** What would open a window. */
    List<String> remedies() {
        List<String> lines = new ArrayList<>();
        for (Remedy remedy : window.remedies()) {
            lines.add(remedy(remedy));
        }
        return lines;
    }

    private String remedy(Remedy remedy) {
        String name = remedy.name().substring(0, 1).toUpperCase(Locale.ROOT)
                + remedy.name().substring(1);
        String standing = "the electric pump holds " + display.pressure(remedy.standstillPa()) + " at standstill";
        if (!remedy.opens()) {
            boolean holds = remedy.standstillPa() >= holdPa();
            return name + ": no window; " + standing + (holds ? ", but the hardest stop is lost at any speed." : ".");
        }
        if (remedy.boundRadPerS() == 0) {
            return name + ": holds; " + standing + ".";
        }
        return name + ": opens a window at " + display.speed(remedy.onRadPerS()) + " on, "
                + display.speed(remedy.offRadPerS()) + " off (hardest stop " + display.speed(remedy.boundRadPerS())
                + "); " + standing + ".";
    }

    /** How far the rule of thumb goes, one sentence an oil temperature. */
    List<String> rule() {
        List<String> lines = new ArrayList<>();
        for (Window.RulePoint point : window.rule()) {
            String at = "With oil at " + display.temperature(point.oilC()) + " ";
            double rate = point.enoughUpToRadPerS2();
            if (Double.isInfinite(rate)) {
                lines.add(at + "it is enough for every stop, to wheels locked on ice.");
            } else if (rate == 0) {
                lines.add(at + "it is not enough even for the gentlest stop.");
            } else {
                String ordinary = rate >= Window.ORDINARY_RAD_PER_S2 ? " (ordinary driving is within)" : "";
                lines.add(at + "it is enough up to " + display.acceleration(rate) + ordinary + ", and not beyond.");
            }
        }
        return lines;
    }

    private String gain(Found with, Found alone) {
        return display.pressureScale().number(with.atRulePa() - alone.atRulePa());
    }

    private static String shortName(Setting setting) {
        return switch (setting) {
            case ALONE -> "alone";
            case FALLING_SPEED, HELP_PRESSURE, BRAKE -> setting.requirement().substring(3);
            case FITTED -> "fitted";
        };
    }

    private List<String> head(String first) {
        List<String> head = new ArrayList<>(List.of(first));
        window.oilC().forEach(oilC -> head.add(display.temperature(oilC)));
        return head;
    }

    private List<String> speeds(ToDoubleFunction<CarryPoint> speed) {
        return cells(window.carry(), one -> speed(speed.applyAsDouble(one)));
    }

    private String speed(double radPerS) {
        return Double.isNaN(radPerS) ? NONE : display.speedScale().number(radPerS);
    }

    private static <T> List<String> cells(List<T> items, Function<T, String> cell) {
        return items.stream().map(cell).toList();
    }

    private List<LeadTime> leads(boolean sagged) {
        // Full bus, then sagged bus, at each oil temperature.
        List<LeadTime> leads = new ArrayList<>();
        for (int i = sagged ? 1 : 0; i < window.leads().size(); i += 2) {
            leads.add(window.leads().get(i));
        }
        return leads;
    }

    private List<StopLimit> stops(double rate) {
        return window.stops().stream()
                .filter(stop -> stop.rateRadPerS2() == rate)
                .toList();
    }

    private double holdPa() {
        return window.build().limits().holdPressurePa();
    }

    private static String volts(double volts) {
        return Numbers.fixed(volts, 1) + " V";
    }

    private static String milliseconds(double seconds) {
        return Double.isInfinite(seconds) ? "never" : Numbers.fixed(seconds * 1e3, 0);
    }
}

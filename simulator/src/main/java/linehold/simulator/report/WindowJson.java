package linehold.simulator.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import linehold.simulator.build.Build;
import linehold.simulator.output.WholeFile;
import linehold.simulator.window.CarryPoint;
import linehold.simulator.window.LeadTime;
import linehold.simulator.window.RollBack;
import linehold.simulator.window.Setting;
import linehold.simulator.window.Window;
import linehold.simulator.window.Window.Bound;
import linehold.simulator.window.Window.Found;
import linehold.simulator.window.Window.Pair;
import linehold.simulator.window.Window.Price;
import linehold.simulator.window.Window.Proof;
import linehold.simulator.window.Window.Remedy;
import linehold.simulator.window.Window.RulePoint;
import linehold.simulator.window.Window.Standstill;
import linehold.simulator.window.Window.StopLimit;
import linehold.simulator.window.Window.WindowMap;

/**
 * {@code window.json}: a window for other programs and for a later comparison, always in SI units; docs/window.md
 * describes it. The same build gives the same bytes on every machine.
 */
public final class WindowJson {
    /** Grows when a field changes its meaning or goes away, not when one is added. */
    static final int FORMAT = 1;

    private final JsonText json;

    private WindowJson(JsonText json) {
        this.json = json;
    }

    /** Writes the file, replacing one that is there. */
    public static void write(Window window, Path file) {
        WholeFile.writeText(file, new String(toBytes(window), StandardCharsets.UTF_8));
    }

    /** The file's bytes: UTF-8 text, lines ended by a line feed. */
    public static byte[] toBytes(Window window) {
        return JsonText.bytes(json -> new WindowJson(json).window(window));
    }

    private void window(Window window) {
        json.startObject();
        json.count("format", FORMAT);
        json.text("window", window.exists() ? "exists" : "none");
        json.texts("no_window", window.noWindow());
        build(window.build());
        pair(window.pair());
        array("carry", window.carry(), this::carry);
        array("standstill", window.standstill(), this::standstill);
        array("roll_back", window.rollBacks(), this::rollBack);
        array("lead", window.leads(), this::lead);
        array("stops", window.stops(), this::stop);
        array("rule_of_thumb", window.rule(), this::rule);
        json.text("drives", window.drives());
        array("prices", window.prices(), this::price);
        array("proofs", window.proofs(), this::proof);
        array("remedies", window.remedies(), this::remedy);
        array("maps", window.maps(), this::map);
        ToleranceJson.write(window.tolerance(), json);
        json.endObject();
    }

    /** Writes one element of an array. */
    private interface Element<T> {
        void write(T item);
    }

    private <T> void array(String name, List<T> items, Element<T> element) {
        json.startArray(name);
        for (T item : items) {
            json.startObject();
            element.write(item);
            json.endObject();
        }
        json.endArray();
    }

    private void build(Build build) {
        json.startObject("build");
        json.text("name", build.name());
        json.text("description", build.description());
        json.text("sha256", build.sha256());
        json.number("hold_pressure_pa", build.limits().holdPressurePa());
        json.endObject();
    }

    private void pair(Pair pair) {
        if (pair == null) {
            json.text("pair", null);
            return;
        }
        json.startObject("pair");
        json.number("on_rad_per_s", pair.onRadPerS());
        json.number("off_rad_per_s", pair.offRadPerS());
        json.number("margin_rad_per_s", pair.marginRadPerS());
        json.number("margin_pa", pair.marginPa());
        array("on_bounds", pair.onBounds(), this::bound);
        array("off_bounds", pair.offBounds(), this::bound);
        json.endObject();
    }

    private void bound(Bound bound) {
        json.text("name", bound.name());
        json.number("speed_rad_per_s", bound.radPerS());
        json.text("why", bound.sentence());
    }

    private void carry(CarryPoint point) {
        json.number("oil_c", point.oilC());
        json.number("hold_rad_per_s", point.holdRadPerS());
        json.number("forward_torque_rad_per_s", point.forwardRadPerS());
        json.number("reverse_torque_rad_per_s", point.reverseRadPerS());
        json.number("hand_over_rad_per_s", point.handOverRadPerS());
    }

    private void standstill(Standstill point) {
        json.number("oil_c", point.oilC());
        json.number("full_bus_pa", point.fullPa());
        json.number("sagged_bus_pa", point.saggedPa());
    }

    private void rollBack(RollBack point) {
        json.number("oil_c", point.oilC());
        json.number("most_rad_per_s", point.mostRadPerS());
        json.number("lowest_pa", point.lowestPa());
    }

    private void lead(LeadTime lead) {
        json.number("oil_c", lead.oilC());
        json.number("bus_v", lead.busVolts());
        json.number("pickup_s", lead.pickupS());
        json.number("period_s", lead.periodS());
        json.number("relay_s", lead.relayS());
        json.number("bounce_s", lead.bounceS());
        json.number("spin_up_s", lead.spinUpS());
        json.number("hose_s", lead.hoseS());
        json.number("total_s", lead.totalS());
    }

    private void stop(StopLimit stop) {
        json.number("oil_c", stop.oilC());
        json.number("rate_rad_per_s2", stop.rateRadPerS2());
        for (Setting setting : Setting.values()) {
            Found found = stop.found(setting);
            json.startObject(setting.name().toLowerCase(Locale.ROOT));
            json.number("on_rad_per_s", found.onRadPerS());
            json.number("at_rule_pa", found.atRulePa());
            json.endObject();
        }
    }

    /** The rule may be enough for all stops: there is then no rate where it ends. */
    private void rule(RulePoint point) {
        json.number("oil_c", point.oilC());
        json.flag("enough_for_all", Double.isInfinite(point.enoughUpToRadPerS2()));
        json.number("enough_up_to_rad_per_s2", point.enoughUpToRadPerS2());
    }

    private void price(Price price) {
        json.text("setting", price.setting().name().toLowerCase(Locale.ROOT));
        json.text("drive", price.drive());
        json.number("pump_on_share", price.pumpOnShare());
        json.number("relay_operations_per_hour", price.relayOperationsPerHour());
        json.number("power_w", price.watts());
        json.number("contact_life_h", price.contactLifeH());
    }

    private void proof(Proof proof) {
        json.text("setting", proof.setting().name().toLowerCase(Locale.ROOT));
        json.count("runs", proof.runs());
        json.count("lost", proof.lost());
        json.text("weakest", proof.weakest());
    }

    private void remedy(Remedy remedy) {
        json.text("name", remedy.name());
        json.flag("opens", remedy.opens());
        json.number("bound_rad_per_s", remedy.boundRadPerS());
        json.number("on_rad_per_s", remedy.onRadPerS());
        json.number("off_rad_per_s", remedy.offRadPerS());
        json.number("standstill_pa", remedy.standstillPa());
    }

    private void map(WindowMap map) {
        json.number("oil_c", map.oilC());
        array("rows", indices(map.onRadPerS().size()), row -> {
            json.number("on_rad_per_s", map.onRadPerS().get(row));
            array("lowest", indices(map.rates().size()), column -> {
                json.number("rate_rad_per_s2", map.rates().get(column));
                json.number("pressure_pa", map.lowestPa().get(row).get(column));
            });
        });
    }

    private static List<Integer> indices(int count) {
        return IntStream.range(0, count).boxed().toList();
    }
}

package linehold.simulator.report;

import java.util.Locale;
import linehold.simulator.build.Spread;
import linehold.simulator.prove.Reserve;
import linehold.simulator.window.Tolerance;
import linehold.simulator.window.Tolerance.Answer;
import linehold.simulator.window.Tolerance.Share;
import linehold.simulator.window.Tolerance.Weight;

/** The part of {@code window.json} on what the spreads do to the window. */
final class ToleranceJson {
    private final JsonText json;

    private ToleranceJson(JsonText json) {
        this.json = json;
    }

    /** @param tolerance null where it was not asked for */
    static void write(Tolerance tolerance, JsonText json) {
        if (tolerance == null) {
            json.text("tolerance", null);
            return;
        }
        new ToleranceJson(json).write(tolerance);
    }

    private void write(Tolerance tolerance) {
        json.startObject("tolerance");
        json.count("cars", tolerance.cars());
        json.count("seed", tolerance.seed());
        json.number("confidence", tolerance.confidence());
        share(tolerance.held(), tolerance.share());
        json.startArray("spreads");
        for (Spread spread : tolerance.spreads()) {
            json.startObject();
            json.text("name", spread.key());
            json.number("nominal", spread.nominal());
            json.number("low", spread.low());
            json.number("high", spread.high());
            json.endObject();
        }
        json.endArray();
        json.startArray("answers");
        for (Answer answer : tolerance.answers()) {
            json.startObject();
            answer(answer);
            json.endObject();
        }
        json.endArray();
        json.endObject();
    }

    private void share(int held, Share share) {
        json.count("held", held);
        json.number("share", share.share());
        json.number("share_low", share.low());
        json.number("share_high", share.high());
    }

    private void answer(Answer answer) {
        json.text("drive", answer.drive());
        json.number("oil_c", answer.oilC());
        share(answer.held(), answer.share());
        json.startObject("lost");
        answer.lost().forEach((criterion, cars) -> json.count(name(criterion), cars));
        json.endObject();
        json.number("least_reserve", answer.lowest());
        reserve("nominal", answer.nominal());
        reserve("worst_car", answer.corner().reserve());
        json.startArray("ranking");
        for (Weight weight : answer.ranking()) {
            json.startObject();
            json.text("name", weight.spread().key());
            json.number("mean_size", weight.meanSize());
            json.number("mean", weight.mean());
            json.number("deviation", weight.deviation());
            json.text("worst_at", ToleranceTables.end(answer.corner(), weight.spread()));
            json.endObject();
        }
        json.endArray();
    }

    private void reserve(String name, Reserve reserve) {
        json.startObject(name);
        json.flag("held", reserve.held());
        json.text("lost", reserve.lost() == null ? null : name(reserve.lost()));
        json.number("reserve", reserve.least());
        json.number("pressure", reserve.pressure());
        json.number("margin", reserve.margin());
        json.number("engagement", reserve.engagement());
        json.endObject();
    }

    private static String name(Enum<?> criterion) {
        return criterion.name().toLowerCase(Locale.ROOT);
    }
}

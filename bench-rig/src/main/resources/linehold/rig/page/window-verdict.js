// The verdict on a window: one row for each demonstration drive, with the oil temperature that came closest to its limit.
import { element } from "./dom.js";
import { number, scale } from "./units.js";

const held = (run) => run.verdict === "held";
const pressureOf = (run) => (held(run) ? run.settled_pressure_min_pa : run.engaged_pressure_min_pa) ?? Infinity;

function moment(run) {
  const which = held(run) ? "settled" : "engaged";
  const atS = run[`${which}_pressure_min_at_s`];
  return atS === null ? "–" : `${atS.toFixed(2)} s, ${run[`${which}_pressure_min_gear`]}`;
}

/** A lost run before any that is held, then the lowest pressure. */
function worst(runs) {
  const gone = runs.filter((run) => !held(run));
  const run = (gone.length ? gone : runs).reduce((a, b) => (pressureOf(b) < pressureOf(a) ? b : a));
  return { run, gone: gone.length };
}

function rows(drive, runs) {
  const { run, gone } = worst(runs);
  const row = element(
    "tr",
    { class: gone ? "lost" : false },
    element("th", { scope: "row" }, drive),
    element("td", { class: gone ? "bad" : "good" }, gone ? `✕ lost ${gone} of ${runs.length}` : "✓ held"),
    element("td", { class: "n" }, number("pressure", pressureOf(run))),
    element("td", { class: "n" }, number("temperature", run.oil_c)),
    element("td", {}, moment(run)),
  );
  // Why it came so far is worth its lines where it was lost.
  return gone ? [row, element("tr", {}, element("td", { class: "why", colspan: 5 }, element("p", {}, `${run.weakest}.`)))] : [row];
}

/**
 * @param said the line that a screen reader tells whenever it changes
 * @param ms how long the answer took
 */
export function showVerdict(said, where, verdict, ms) {
  const lost = verdict.runs.filter((run) => !held(run)).length;
  const drives = [...new Set(verdict.runs.map((run) => run.drive))];
  const heads = ["Drive", "Verdict", `Lowest, ${scale("pressure").label}`, `Oil, ${scale("temperature").label}`, "At, gear"];
  said.className = lost ? "bad" : "good";
  said.dataset.verdict = verdict.verdict;
  said.textContent = lost ? `✕ Lost: ${lost} of ${verdict.runs.length} runs.` : `✓ Held: all ${verdict.runs.length} runs.`;
  where.replaceChildren(
    element("p", {}, `Weakest: ${verdict.weakest}.`),
    element(
      "div",
      { class: "scroll", tabindex: 0, role: "region", "aria-label": "Verdict of each drive" },
      element(
        "table",
        {},
        element("thead", {}, element("tr", {}, heads.map((head, i) => element("th", { scope: "col", class: i === 2 || i === 3 ? "n" : false }, head)))),
        element("tbody", {}, drives.flatMap((drive) => rows(drive, verdict.runs.filter((run) => run.drive === drive)))),
      ),
    ),
    element("p", { class: "quiet" }, `Answered in ${(ms / 1000).toFixed(2)} s. The same as ./linehold prove with this window.`),
  );
}

// What limits the window, in words, and which of them the switch-on speed keeps.
import { element } from "./dom.js";
import { text } from "./units.js";

export class Limits {
  #marks = [];

  constructor(where) {
    this.where = where;
  }

  /** While the search goes on. */
  wait({ stage, done, steps }) {
    this.#marks = [];
    this.where.replaceChildren(
      element("h2", {}, "What limits the window"),
      element("p", { role: "status" }, `The words are made in these units: ${stage}, ${done} of ${steps}.`),
    );
  }

  /** @param answer the window with its words, in the units of the page */
  show({ window: found, words }) {
    this.#marks = [];
    const parts = [];
    if (found.no_window.length) {
      parts.push(element("p", { class: "bad" }, "There is no window for this build."), element("ul", {}, found.no_window.map((why) => element("li", {}, why))));
    }
    if (found.pair) {
      parts.push(
        ...this.#bounds("The switch-on speed must exceed, by shaft speed alone", found.pair.on_bounds, true),
        ...this.#bounds(`The switch-off speed must reach, with ${text("speed", found.pair.on_rad_per_s)} as the switch-on speed`, found.pair.off_bounds, false),
      );
    }
    this.where.replaceChildren(
      element("h2", {}, "What limits the window"),
      ...parts,
      ...(words.length ? [element("h3", {}, "What to know beside it"), ...words.map((sentence) => element("p", {}, sentence))] : []),
    );
  }

  /** @param marked whether the handle is held against them */
  #bounds(title, bounds, marked) {
    const lines = bounds.map((bound) => {
      const mark = marked ? element("span", {}) : null;
      if (marked) this.#marks.push({ mark, least: bound.speed_rad_per_s });
      return element("li", {}, mark, `${marked ? " " : ""}${text("speed", bound.speed_rad_per_s)}, ${bound.name}: ${bound.why}`);
    });
    return [element("h3", {}, title), element("ul", { class: marked ? "marked" : false }, lines)];
  }

  /** @param onRadPerS where the handle of the switch-on speed is */
  mark(onRadPerS) {
    for (const { mark, least } of this.#marks) {
      const kept = onRadPerS >= least * (1 - 1e-9);
      mark.className = kept ? "good" : "bad";
      mark.textContent = kept ? "✓ kept" : "✕ not kept";
    }
  }
}

// The window view: move the switch-over window and see at once what it does to every demonstration drive.
import { ask, send } from "./api.js";
import { element } from "./dom.js";
import { text, unitsAreUs } from "./units.js";
import { Handles } from "./window-handles.js";
import { Limits } from "./window-limits.js";
import { drawMap } from "./window-map.js";
import { SaveForm } from "./window-save.js";
import { showVerdict } from "./window-verdict.js";

const POLL_MS = 700;
const ON = "switch-on-speed";
const OFF = "switch-off-speed";
const units = () => `units=${unitsAreUs() ? "us" : "metric"}`;

export function open(view, page) {
  return new WindowView(view, page);
}

class WindowView {
  #page;
  #answer = null;
  #oil;
  #asked = 0;
  #timer = 0;
  #closed = false;

  constructor(view, page) {
    this.#page = page;
    this.#oil = page.state.get("oil");
    if (!document.getElementById("window-style")) {
      document.head.append(element("link", { id: "window-style", rel: "stylesheet", href: "/page/window.css" }));
    }
    this.said = element("p", { role: "status", id: "verdict" }, "Proving every demonstration drive …");
    this.table = element("div", {});
    this.verdict = element("section", { "aria-label": "Verdicts with this window", id: "verdicts" }, element("h2", {}, "Demonstration drives with this window"), this.said, this.table);
    this.sliders = element("div", { class: "handles" });
    this.tools = element("section", { "aria-label": "The window" }, this.sliders);
    this.map = element("section", { "aria-label": "Map of the lowest pressure" }, element("p", { role: "status" }, "The map is asked for …"));
    const words = element("section", { "aria-label": "What limits the window" });
    this.limits = new Limits(words);
    view.append(
      element("h1", {}, "Window"),
      element(
        "p",
        { class: "quiet" },
        "Below the switch-on speed the electric pump runs; above the switch-off speed the internal pump may carry the line alone. " +
          "Move a handle and let it go: every demonstration drive is proved again at every oil temperature. The rig that runs is not changed.",
      ),
      element("div", { class: "window-view" }, this.tools, this.verdict, this.map, words),
    );
    this.#start().catch((problem) => this.tools.replaceChildren(element("p", { class: "bad" }, problem.message)));
  }

  async #start() {
    const given = await ask("/api/window/handles");
    if (this.#closed) return;
    this.handles = new Handles(this.sliders, given, this.#page.state, { moved: () => this.#moved(), letGo: () => this.#letGo() });
    this.presentOn = given.find((one) => one.key === ON).present;
    this.alone = element("input", { type: "checkbox", id: "alone", checked: this.#page.state.get("alone") === "yes", onchange: () => this.#letGo() });
    this.take = element("button", { type: "button", disabled: true, onclick: () => this.#recommended() }, "As recommended");
    const reset = () => {
      this.handles.set();
      this.#letGo();
    };
    this.tools.append(
      element("p", { class: "alone" }, this.alone, " ", element("label", { for: "alone" }, "by shaft speed alone: no early switch-on, no help pressure, no brake switch")),
      element("p", { class: "tools" }, element("button", { type: "button", onclick: reset }, "As the build has it"), this.take),
    );
    this.save = new SaveForm(this.tools, () => this.#body());
    this.#prove();
    this.#poll();
  }

  #moved() {
    this.save?.clear();
    this.#drawMap();
    this.limits.mark(this.handles.si(ON));
  }

  #recommended() {
    const { pair } = this.#answer.window;
    this.handles.set({ [ON]: pair.on_rad_per_s, [OFF]: pair.off_rad_per_s });
    this.#letGo();
  }

  #letGo() {
    this.save.clear();
    this.#remember();
    this.#prove();
  }

  #remember() {
    const state = this.handles.state();
    if (this.alone.checked) state.alone = "yes";
    if (this.#oil !== null) state.oil = this.#oil;
    this.#page.remember(state);
  }

  #body = () => ({ ...this.handles.typed(), "speed-alone": this.alone.checked });

  /** Only the last place of a handle counts: the server gives up what this page asked before. */
  async #prove() {
    const mine = ++this.#asked;
    this.verdict.setAttribute("aria-busy", "true");
    const began = performance.now();
    const past = () => this.#closed || mine !== this.#asked;
    try {
      const verdict = await send(`/api/window/verdict?${units()}`, this.#body());
      if (past()) return;
      showVerdict(this.said, this.table, verdict, performance.now() - began);
    } catch (problem) {
      if (past()) return;
      this.said.className = "bad";
      this.said.dataset.verdict = "none";
      this.said.textContent = `No verdict: ${problem.message}`;
      this.table.replaceChildren();
    }
    this.verdict.setAttribute("aria-busy", "false");
  }

  async #poll() {
    try {
      const answer = await ask(`/api/window?${units()}`);
      if (this.#closed) return;
      if (answer.window && !this.#answer) this.#ready(answer);
      if (answer.ready) {
        this.limits.show(answer);
        this.limits.mark(this.handles.si(ON));
        return;
      }
      if (answer.problem) throw new Error(answer.problem);
      if (answer.window) this.limits.wait(answer.state);
      else this.#wait(answer.state);
      this.#timer = setTimeout(() => this.#poll(), POLL_MS);
    } catch (problem) {
      if (this.#closed) return;
      this.map.replaceChildren(element("p", { class: "bad" }, problem.message));
      this.#answer = null;
      this.#timer = setTimeout(() => this.#poll(), 5 * POLL_MS);
    }
  }

  #wait({ stage, done, steps }) {
    this.map.replaceChildren(
      element("p", { role: "status" }, `The map is computed, once: ${stage}, ${done} of ${steps}. `, element("progress", { max: steps, value: done, "aria-label": stage })),
    );
  }

  #ready(answer) {
    this.#answer = answer;
    const oils = answer.window.maps.map((map) => map.oil_c);
    if (!oils.some((oilC) => String(oilC) === this.#oil)) this.#oil = String(oils[oils.length - 1]);
    const choose = () => {
      this.#oil = oil.value;
      this.#remember();
      this.#drawMap();
    };
    const oil = element(
      "select",
      { id: "map-oil", onchange: choose },
      oils.map((oilC) => element("option", { value: oilC, selected: String(oilC) === this.#oil }, text("temperature", oilC))),
    );
    this.sheet = element("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": "The map" });
    this.map.replaceChildren(
      element("h2", {}, "Lowest line pressure over switch-on speed and rate of the stop"),
      element("p", { class: "tools" }, element("label", { for: "map-oil" }, "Oil at"), oil),
      this.sheet,
    );
    this.take.disabled = !answer.window.pair;
    this.#drawMap();
  }

  #drawMap() {
    if (!this.#answer) return;
    drawMap(this.sheet, {
      answer: this.#answer,
      holdPa: this.#page.facts.holdPa,
      oilC: Number(this.#oil),
      on: this.handles.si(ON),
      off: this.handles.si(OFF),
      presentOn: this.presentOn,
      move: (which, radPerS) => this.handles.move(which === "on" ? ON : OFF, radPerS),
      letGo: () => this.#letGo(),
    });
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
  }
}

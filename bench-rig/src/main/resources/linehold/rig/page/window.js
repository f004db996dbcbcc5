// The window view: move the switch-over window and see at once what it does to every demonstration drive.
import { ask, send } from "./api.js";
import { element } from "./dom.js";
import { number, scale, text, toUnit, unitsAreUs } from "./units.js";
import { drawMap } from "./window-map.js";

const SHORT = { "switch-on-speed": "on", "switch-off-speed": "off", "minimum-run-time": "run", "help-pressure": "help" };
const STEP = { speed: 5, time: 0.1, pressure: 0.05 };
const DIGITS = { speed: 0, time: 1, pressure: 2 };
/** The handles end where nobody needs more; the controller's own bounds are wider. */
const MOST = { "switch-on-speed": 1500, "switch-off-speed": 2000, "minimum-run-time": 20, "help-pressure": 10 };
const SI = { rpm: Math.PI / 30, s: 1, bar: 1e5, psi: 6894.757293168361 };
const POLL_MS = 700;

export function open(view, page) {
  return new WindowView(view, page);
}

class WindowView {
  #page;
  #values = new Map();
  #answer = null;
  #oil = null;
  #proving = false;
  #again = false;
  #timer = 0;
  #closed = false;

  constructor(view, page) {
    this.#page = page;
    if (!document.getElementById("window-style")) {
      document.head.append(element("link", { id: "window-style", rel: "stylesheet", href: "/page/window.css" }));
    }
    this.verdict = element("section", { "aria-live": "polite", "aria-label": "Verdicts with this window", id: "verdicts" }, element("p", {}, "Proving every demonstration drive …"));
    this.handles = element("section", { "aria-label": "The window", class: "handles" });
    this.map = element("section", { "aria-label": "Map of the lowest pressure" }, element("p", { role: "status" }, "The map is asked for …"));
    this.words = element("section", { "aria-label": "What limits the window" });
    view.append(
      element("h1", {}, "Window"),
      element(
        "p",
        { class: "quiet" },
        "Below the switch-on speed the electric pump runs; above the switch-off speed the internal pump may carry the line alone. " +
          "Move a handle and let it go: every demonstration drive is proved again at every oil temperature. The rig that runs is not changed.",
      ),
      element("div", { class: "window-view" }, this.handles, this.verdict, this.map, this.words),
    );
    this.#start().catch((problem) => this.handles.replaceChildren(element("p", { class: "bad" }, problem.message)));
  }

  async #start() {
    this.all = await ask("/api/window/handles");
    if (this.#closed) return;
    this.#oil = this.#page.state.get("oil");
    for (const one of this.all) {
      const typed = this.#page.state.get(SHORT[one.key]);
      if (typed && this.#si(typed) !== null) this.#values.set(one.key, typed);
    }
    this.#buildHandles();
    this.#prove();
    this.#poll();
  }

  #si(typed) {
    const found = /^([0-9.]+) ?(rpm|s|bar|psi)$/.exec(typed);
    return found ? Number(found[1]) * SI[found[2]] : null;
  }

  #unit = (one) => (one.quantity === "time" ? "s" : scale(one.quantity).label);
  #shown = (one, si) => (one.quantity === "time" ? si : toUnit(one.quantity, si));
  #digits = (one) => (this.#unit(one) === "psi" ? 1 : DIGITS[one.quantity]);
  #now = (one) => (this.#values.has(one.key) ? this.#si(this.#values.get(one.key)) : one.present);

  #buildHandles() {
    this.inputs = new Map();
    const rows = this.all.map((one) => {
      const psi = this.#unit(one) === "psi";
      const shown = this.#shown(one, this.#now(one));
      const output = element("output", {}, this.#say(one));
      const input = element("input", {
        type: "range",
        id: `handle-${SHORT[one.key]}`,
        min: this.#shown(one, one.least).toFixed(this.#digits(one)),
        max: psi ? 145 : MOST[one.key],
        step: psi ? 0.5 : STEP[one.quantity],
        value: shown,
        "aria-valuetext": this.#say(one),
        "aria-describedby": `why-${SHORT[one.key]}`,
        oninput: () => this.#moved(one, Number(input.value)),
        onchange: () => this.#letGo(),
      });
      this.inputs.set(one.key, { input, output });
      return element(
        "div",
        { class: "handle" },
        element("label", { for: input.id }, `${one.name[0].toUpperCase()}${one.name.slice(1)}, ${this.#unit(one)}`),
        input,
        output,
        element("p", { class: "quiet", id: `why-${SHORT[one.key]}` }, `the build has ${this.#present(one)}`),
      );
    });
    this.alone = element("input", { type: "checkbox", id: "alone", checked: this.#page.state.get("alone") === "yes", onchange: () => this.#letGo() });
    this.name = element("input", { type: "text", id: "save-name", maxlength: 40, placeholder: "wider-window", spellcheck: "false", autocomplete: "off" });
    this.save = element("button", { type: "button", onclick: () => this.#save() }, "Prove and save as");
    this.saved = element("div", { role: "status" });
    this.handles.replaceChildren(
      ...rows,
      element("p", {}, this.alone, " ", element("label", { for: "alone" }, "by shaft speed alone: no early switch-on, no help pressure, no brake switch")),
      element(
        "p",
        { class: "tools" },
        element("button", { type: "button", onclick: () => this.#set(new Map()) }, "As the build has it"),
        (this.take = element("button", { type: "button", disabled: true, onclick: () => this.#recommended() }, "As recommended")),
      ),
      element("p", { class: "tools" }, element("label", { for: "save-name" }, "New name"), this.name, this.save),
      this.saved,
    );
  }

  #present = (one) => `${this.#shown(one, one.present).toFixed(this.#digits(one))} ${this.#unit(one)}`;
  #say = (one) => `${this.#shown(one, this.#now(one)).toFixed(this.#digits(one))} ${this.#unit(one)}`;

  /** What is shown is what is sent and saved: text with its unit. */
  #moved(one, shown) {
    const typed = `${shown.toFixed(this.#digits(one))} ${this.#unit(one)}`;
    if (typed === this.#present(one)) this.#values.delete(one.key);
    else this.#values.set(one.key, typed);
    this.#mark();
  }

  #mark() {
    for (const one of this.all) {
      const { input, output } = this.inputs.get(one.key);
      input.value = this.#shown(one, this.#now(one));
      output.textContent = this.#say(one);
      input.setAttribute("aria-valuetext", this.#say(one));
    }
    this.#drawMap();
  }

  #set(values) {
    this.#values = values;
    this.#mark();
    this.#letGo();
  }

  #recommended() {
    const { pair } = this.#answer.window;
    const values = new Map(this.#values);
    values.set("switch-on-speed", `${number("speed", pair.on_rad_per_s)} rpm`);
    values.set("switch-off-speed", `${number("speed", pair.off_rad_per_s)} rpm`);
    this.#set(values);
  }

  #letGo() {
    this.#remember();
    this.#prove();
  }

  #remember() {
    const state = {};
    for (const [key, typed] of this.#values) state[SHORT[key]] = typed;
    if (this.alone.checked) state.alone = "yes";
    if (this.#oil !== null) state.oil = this.#oil;
    this.#page.remember(state);
  }

  #body = () => ({ ...Object.fromEntries(this.#values), "speed-alone": this.alone.checked });

  /** One question at a time: an arrow key held down asks faster than answers come, and only the last place counts. */
  async #prove() {
    this.#again = true;
    if (this.#proving) return;
    this.#proving = true;
    this.verdict.setAttribute("aria-busy", "true");
    while (this.#again && !this.#closed) {
      this.#again = false;
      const began = performance.now();
      try {
        const verdict = await send(`/api/window/verdict?units=${unitsAreUs() ? "us" : "metric"}`, this.#body());
        if (!this.#again) this.#show(verdict, performance.now() - began);
      } catch (problem) {
        if (!this.#again) {
          this.verdict.replaceChildren(element("h2", {}, "No verdict"), element("p", { class: "bad", id: "refusal" }, problem.message));
        }
      }
    }
    this.#proving = false;
    this.verdict.setAttribute("aria-busy", "false");
  }

  #show(verdict, ms) {
    const lost = verdict.runs.filter((run) => run.verdict !== "held").length;
    const drives = [...new Set(verdict.runs.map((run) => run.drive))];
    const worst = (drive) => {
      const runs = verdict.runs.filter((run) => run.drive === drive);
      const pressure = (run) => (run.verdict === "held" ? run.settled_pressure_min_pa : run.engaged_pressure_min_pa) ?? Infinity;
      const gone = runs.filter((run) => run.verdict !== "held");
      return { gone, of: runs.length, run: (gone.length ? gone : runs).reduce((a, b) => (pressure(b) < pressure(a) ? b : a)), pressure };
    };
    const rows = drives.map((drive) => {
      const { gone, of, run, pressure } = worst(drive);
      const pa = pressure(run);
      return element(
        "tr",
        {},
        element("th", { scope: "row" }, drive),
        element("td", { class: gone.length ? "bad" : "good" }, gone.length ? `✕ lost ${gone.length} of ${of}` : "✓ held"),
        element("td", { class: "n" }, number("pressure", pa)),
        element("td", { class: "n" }, number("temperature", run.oil_c)),
        // Why it came so far is worth its lines where it was lost.
        element("td", {}, gone.length ? run.weakest : run.weakest.split(": ")[0]),
      );
    });
    this.verdict.replaceChildren(
      element("h2", {}, "Demonstration drives with this window"),
      element(
        "p",
        { class: lost ? "bad" : "good", id: "verdict", "data-verdict": verdict.verdict },
        lost ? `✕ Lost: ${lost} of ${verdict.runs.length} runs.` : `✓ Held: all ${verdict.runs.length} runs.`,
      ),
      element("p", {}, `Weakest: ${verdict.weakest}.`),
      element(
        "div",
        { class: "scroll", tabindex: 0, role: "region", "aria-label": "Verdict of each drive" },
        element(
          "table",
          {},
          element(
            "thead",
            {},
            element(
              "tr",
              {},
              ["Drive", "Verdict", `Lowest, ${scale("pressure").label}`, `Oil, ${scale("temperature").label}`, "Weakest moment"].map((head, i) =>
                element("th", { scope: "col", class: i === 2 || i === 3 ? "n" : false }, head),
              ),
            ),
          ),
          element("tbody", {}, rows),
        ),
      ),
      element("p", { class: "quiet" }, `Answered in ${(ms / 1000).toFixed(2)} s. The same as ./linehold prove with this window.`),
    );
  }

  async #poll() {
    if (this.#closed) return;
    try {
      const answer = await ask(`/api/window?units=${unitsAreUs() ? "us" : "metric"}`);
      if (this.#closed) return;
      if (answer.ready) {
        this.#ready(answer);
        return;
      }
      if (answer.problem) throw new Error(answer.problem);
      const { stage, done, steps } = answer.state;
      this.map.replaceChildren(
        element("p", { role: "status" }, `The map is computed, once: ${stage}, ${done} of ${steps}. `, element("progress", { max: steps, value: done, "aria-label": stage })),
      );
      this.#timer = setTimeout(() => this.#poll(), POLL_MS);
    } catch (problem) {
      this.map.replaceChildren(element("p", { class: "bad" }, problem.message));
      this.#timer = setTimeout(() => this.#poll(), 5 * POLL_MS);
    }
  }

  #ready(answer) {
    this.#answer = answer;
    const { window: found } = answer;
    const oils = found.maps.map((map) => map.oil_c);
    if (!oils.some((oilC) => String(oilC) === this.#oil)) this.#oil = String(oils[oils.length - 1]);
    this.oil = element(
      "select",
      {
        id: "map-oil",
        onchange: () => {
          this.#oil = this.oil.value;
          this.#remember();
          this.#drawMap();
        },
      },
      oils.map((oilC) => element("option", { value: oilC, selected: String(oilC) === this.#oil }, text("temperature", oilC))),
    );
    this.sheet = element("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": "The map" });
    this.map.replaceChildren(
      element("h2", {}, "Lowest line pressure over switch-on speed and rate of the stop"),
      element("p", { class: "tools" }, element("label", { for: "map-oil" }, "Oil at"), this.oil, element("span", { class: "quiet" }, "by shaft speed alone")),
      this.sheet,
    );
    this.take.disabled = !found.pair;
    this.#drawMap();
    const bounds = (title, list) => [
      element("h3", {}, title),
      element("ul", {}, list.map((bound) => element("li", {}, `${text("speed", bound.speed_rad_per_s)}, ${bound.name}: ${bound.why}`))),
    ];
    this.words.replaceChildren(
      element("h2", {}, "What limits the window"),
      ...(found.pair
        ? [...bounds("The switch-on speed must exceed", found.pair.on_bounds), ...bounds("The switch-off speed must reach", found.pair.off_bounds)]
        : [element("p", { class: "bad" }, "There is no window for this build."), element("ul", {}, found.no_window.map((why) => element("li", {}, why)))]),
      element("h3", {}, "Recommended, and what to know beside it"),
      ...answer.words.map((sentence) => element("p", {}, sentence)),
    );
  }

  #drawMap() {
    if (!this.sheet) return;
    const [on, off] = this.all;
    drawMap(this.sheet, {
      answer: this.#answer,
      holdPa: this.#page.facts.holdPa,
      oilC: Number(this.#oil),
      on: this.#now(on),
      off: this.#now(off),
      presentOn: on.present,
      move: (which, radPerS) => {
        const one = which === "on" ? on : off;
        this.#moved(one, Math.round(toUnit("speed", radPerS) / 5) * 5);
      },
      letGo: () => this.#letGo(),
    });
  }

  async #save() {
    this.save.disabled = true;
    this.saved.replaceChildren("Proving and writing …");
    try {
      const done = await send("/api/window/save", { ...this.#body(), name: this.name.value.trim() });
      this.saved.replaceChildren(
        element("p", { class: done.held ? "good" : "bad" }, done.held ? "✓ Saved, and it holds." : "✕ Saved, and it loses: do not drive with it."),
        element("p", { class: "sums" }, `${done.file} (SHA-256 ${done.sha256}; calibration ${done.calibration}), with its proof in ${done.proof}`),
      );
    } catch (problem) {
      this.saved.replaceChildren(element("p", { class: "bad" }, problem.message));
    } finally {
      this.save.disabled = false;
    }
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
  }
}

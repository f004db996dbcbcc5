// The live view: what the rig sees and decides, the last minute of it.
import { say } from "./connection.js";
import { element } from "./dom.js";
import { indexAt, Live } from "./live.js";
import { activeIn, lanesOf, momentOf } from "./now-words.js";
import { Strips } from "./strips.js";
import { number, text } from "./units.js";

const WHOLE_S = 60;
const LEAST_LIVE_S = 1;
const LEAST_S = 0.05;
/** The usual control period; with another one some steps of the slider meet no new sample. */
const TICK_S = 0.005;

export function open(view, page) {
  return new Now(view, page);
}

class Now {
  #live = new Live();
  #facts;
  #remember;
  #strips;
  /** Width of what is in sight while the picture moves. */
  #spanS = WHOLE_S;
  /** While it stands still: the columns as they were, and what of them is in sight. */
  #frozen = null;
  #fromS = 0;
  #toS = 0;
  /** A moment of a link that is to be shown once the rig has told it. */
  #wanted = null;
  #held = false;
  #hoverS = null;
  /** Where the slider stands, s after the beginning of what is in sight; null at the newest. */
  #place = null;
  #frame = 0;

  constructor(view, { facts, state, remember }) {
    this.#facts = facts;
    this.#remember = remember;
    const last = Number(state.get("last"));
    if (last >= LEAST_LIVE_S && last < WHOLE_S) this.#spanS = last;
    if (state.has("from") && Number(state.get("to")) > Number(state.get("from"))) {
      this.#wanted = { fromS: Number(state.get("from")), toS: Number(state.get("to")), atS: state.has("at") ? Number(state.get("at")) : null };
    }
    this.#strips = new Strips(facts, {
      onHover: (s) => {
        this.#hoverS = s;
        this.#ask();
      },
      onHold: (held) => {
        this.#held = held;
        this.#ask();
      },
      onZoom: (fromS, toS) => this.#still(fromS, toS),
      onWhole: () => this.#whole(),
    });
    this.#build(view);
    this.#live.onBatch = () => this.#ask();
    this.#live.onTrouble = (sentence) => {
      say("live", sentence);
      this.#ask();
    };
    this.#live.open();
    this.resize = () => this.#layout();
    addEventListener("resize", this.resize);
  }

  #build(view) {
    const tool = (words, act) => element("button", { type: "button", onclick: act }, words);
    this.pause = element("button", { type: "button", "aria-pressed": "false", onclick: () => this.#pause() }, "Pause");
    this.shown = element("p", { class: "quiet", id: "shown" });
    this.extremes = element("p", { class: "quiet", id: "extremes" });
    this.slider = element("input", {
      type: "range", class: "moment along", id: "moment", min: 0, max: WHOLE_S, step: TICK_S, "aria-label": "Moment to read",
      oninput: () => this.#slide(), onchange: () => this.#keep(),
    });
    this.reading = element("dl", { class: "reading", id: "reading" });
    this.codes = element("ul", { class: "codes", "aria-label": "Active trouble codes", role: "list" });
    view.append(
      element("h1", {}, "Now"),
      element("p", { class: "lead" },
        "What the rig sees and decides, as it happens. Below the window of shaft speed the electric pump holds the line pressure, "
        + "above it the transmission’s internal pump does; pressure must stay above the hold pressure, or clutches slip."),
      this.#figureList(),
      this.codes,
      element("div", { class: "tools" }, this.pause, tool("Closer", () => this.#zoom(0.5)), tool("Further", () => this.#zoom(2)),
        tool("Earlier", () => this.#pan(-0.5)), tool("Later", () => this.#pan(0.5)), tool("Whole minute", () => this.#whole()), this.shown),
      this.#strips.speed,
      this.#strips.pressure,
      this.#strips.lanes,
      this.slider,
      this.reading,
      this.extremes,
      element("p", { class: "quiet" },
        "Point at a chart, or move the slider, to read every lane at that moment; drag across a chart to look closer. ",
        this.#facts.normallyClosed ? "The pump is wired through a normally closed contact: while the main coil is energised, the pump rests." : null),
    );
    this.#layout();
  }

  #figureList() {
    this.figure = {};
    const figures = element("dl", { class: "figures" });
    for (const [key, title] of [["pressure", "Line pressure"], ["speed", "Shaft speed"], ["carries", "Carried by"], ["drive", "Drive"]]) {
      const value = element("dd", { id: `figure-${key}` }, "–");
      const note = element("dd", { class: "note", id: `note-${key}` });
      const cell = element("div", {}, element("dt", {}, title), value, note);
      this.figure[key] = { value, note, cell };
      figures.append(cell);
    }
    return figures;
  }

  /** In other colours. */
  redraw() {
    this.#layout();
  }

  #layout() {
    this.#strips.layout();
    this.#draw();
  }

  #ask() {
    if (this.#frame) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.#draw();
    });
  }

  #columns() {
    return this.#frozen ?? this.#live.columns;
  }

  /** What is in sight, and where its samples lie; null before the first. */
  #range() {
    const times = this.#columns().t;
    if (!times?.length) return null;
    const newest = times[times.length - 1];
    const fromS = this.#frozen ? this.#fromS : Math.max(times[0], newest - this.#spanS);
    const toS = this.#frozen ? this.#toS : fromS + this.#spanS;
    const first = Math.min(indexAt(times, fromS), times.length - 1);
    return { fromS, toS, first, end: Math.max(first + 1, indexAt(times, toS + 1e-6)) };
  }

  #pause() {
    const range = this.#range();
    if (this.#frozen) this.#run();
    else if (range) this.#still(range.fromS, range.toS);
  }

  #run() {
    this.#frozen = null;
    this.#changed();
  }

  /** The picture stands still and shows this. */
  #still(fromS, toS) {
    const { t } = this.#columns();
    if (!t?.length) return;
    this.#frozen ??= this.#live.frozen();
    const [first, last] = [t[0], t[t.length - 1]];
    const width = Math.min(Math.max(toS - fromS, LEAST_S), Math.max(last - first, LEAST_S));
    this.#fromS = Math.max(first, Math.min(fromS, last - width));
    this.#toS = this.#fromS + width;
    this.#place = null;
    this.#changed();
  }

  /** Around the moment that is read, or else to the newest. */
  #zoom(factor) {
    if (!this.#frozen) {
      this.#spanS = Math.min(WHOLE_S, Math.max(LEAST_LIVE_S, this.#spanS * factor));
      this.#changed();
      return;
    }
    const width = (this.#toS - this.#fromS) * factor;
    const read = this.#place !== null;
    const at = read ? this.#atS() : (this.#fromS + this.#toS) / 2;
    const share = (at - this.#fromS) / (this.#toS - this.#fromS);
    this.#still(at - width * share, at + width * (1 - share));
    if (read) this.#moveTo(at);
  }

  #pan(share) {
    const range = this.#range();
    if (!range) return;
    const by = (range.toS - range.fromS) * share;
    this.#still(range.fromS + by, range.toS + by);
  }

  #whole() {
    this.#spanS = WHOLE_S;
    if (this.#frozen) this.#still(-Infinity, Infinity);
    else this.#changed();
  }

  #slide() {
    this.#place = Number(this.slider.value);
    if (this.#place > this.#newestPlace() - TICK_S) this.#place = null;
    this.slider.setAttribute("aria-valuetext", momentOf(this.#columns(), this.#index(), this.#facts).map((pair) => pair.join(" ")).join(", "));
    this.#ask();
  }

  #moveTo(atS) {
    const place = atS - this.#fromS;
    this.#place = place >= 0 && place < this.#newestPlace() ? place : null;
    this.#changed();
  }

  #newestPlace() {
    const { fromS, end } = this.#range();
    return this.#columns().t[end - 1] - fromS;
  }

  /** The sample that is read. */
  #index() {
    const { fromS, end } = this.#range();
    const atS = this.#hoverS ?? (this.#place === null ? Infinity : fromS + this.#place);
    // Times are rounded to 0.1 ms.
    return Math.min(indexAt(this.#columns().t, atS - 1e-4), end - 1);
  }

  #atS() {
    return this.#columns().t[this.#index()];
  }

  #changed() {
    this.#keep();
    this.#draw();
  }

  #keep() {
    const digits = (s) => s.toFixed(3);
    const at = this.#place === null ? {} : { at: digits(this.#atS()) };
    if (this.#frozen) this.#remember({ from: digits(this.#fromS), to: digits(this.#toS), ...at });
    else this.#remember(this.#spanS === WHOLE_S ? {} : { last: this.#spanS });
  }

  /** A link to a moment: it can be shown while the rig still tells it. */
  #openWanted() {
    const { t } = this.#live.columns;
    if (!this.#wanted || !t?.length || t[t.length - 1] < this.#wanted.toS) return;
    const { fromS, toS, atS } = this.#wanted;
    this.#wanted = null;
    if (toS < t[0]) {
      this.gone = "The moment of this link is gone: only the last minute is kept here.";
      return;
    }
    this.#still(fromS, toS);
    if (atS !== null) this.#moveTo(atS);
  }

  #draw() {
    this.#figures();
    if (this.#held) return;
    this.#openWanted();
    const range = this.#range();
    if (!range) return;
    const columns = this.#columns();
    const { fromS, toS, first, end } = range;
    this.pause.setAttribute("aria-pressed", String(this.#frozen !== null));
    this.#tell(this.shown, this.#frozen
      ? `Stands still from ${fromS.toFixed(2)} s to ${toS.toFixed(2)} s; the figures above go on.`
      : `The last ${+this.#spanS.toFixed(2)} s. ${this.gone ?? ""}`);
    this.slider.max = toS - fromS;
    this.slider.value = this.#place ?? this.#newestPlace();
    const index = this.#index();
    const marked = this.#hoverS !== null || this.#place !== null;
    this.#strips.draw(columns, first, end, fromS, toS, marked ? columns.t[index] : null, lanesOf(columns, this.#facts));
    this.#tell(this.extremes,
      `In sight: line pressure ${span("pressure", columns.p, first, end)}, shaft speed ${span("speed", columns.n, first, end)}.`);
    this.#read(momentOf(columns, index, this.#facts));
  }

  #tell(node, words) {
    if (node.textContent !== words) node.textContent = words;
  }

  #read(pairs) {
    if (this.reading.childElementCount !== pairs.length) {
      this.reading.replaceChildren(...pairs.map(([name]) => element("div", {}, element("dt", {}, name), element("dd", {}))));
    }
    pairs.forEach(([, value], i) => this.#tell(this.reading.children[i].lastChild, value));
  }

  #figures() {
    const { holdPa, switchOnRadPerS, switchOffRadPerS, states, carriers, reasons, permissions, codes, rigFaults } = this.#facts;
    const last = (name) => this.#live.last(name);
    const [pressure, state, drive] = [last("p"), last("state"), last("drive")];
    const low = pressure !== null && pressure < holdPa;
    this.#figure("pressure", text("pressure", pressure), pressure === null ? `hold pressure ${text("pressure", holdPa)}` : `${low ? "BELOW" : "above"} the hold pressure ${text("pressure", holdPa)}`, low);
    this.#figure("speed", text("speed", last("n")), `pump on below ${number("speed", switchOnRadPerS)}, off above ${text("speed", switchOffRadPerS)}`);
    this.#figure("carries", state === null ? "–" : carriers[state], state === null ? "" : `${states[state]}: ${reasons[last("reason")]}`);
    this.#figure("drive", drive === null ? "–" : permissions[drive],
      drive === null ? "" : drive === 1 ? `at most ${text("torque", last("limit"))}` : drive === 2 ? "the motor may give no torque" : "the motor may give torque", drive > 0);
    const active = [
      ...activeIn(codes, last("codes")).map((code) => `${code.number} ${code.title}`),
      ...activeIn(rigFaults, last("rig")).map((fault) => `Rig: ${fault.text}`),
    ];
    const now = active.join("\n");
    if (this.codes.dataset.now !== now) {
      this.codes.dataset.now = now;
      this.codes.replaceChildren(...active.map((line) => element("li", {}, line)));
    }
  }

  #figure(key, value, note, alarm = false) {
    const figure = this.figure[key];
    this.#tell(figure.value, value);
    this.#tell(figure.note, note);
    figure.cell.classList.toggle("alarm", alarm);
  }

  close() {
    removeEventListener("resize", this.resize);
    cancelAnimationFrame(this.#frame);
    this.#live.close();
    this.#strips.destroy();
    say("live", "");
  }
}

function span(quantity, values, first, end) {
  let least = Infinity;
  let most = -Infinity;
  for (let i = first; i < end; i++) {
    if (values[i] === null) continue;
    least = Math.min(least, values[i]);
    most = Math.max(most, values[i]);
  }
  return least > most ? "not known" : `${number(quantity, least)} to ${text(quantity, most)}`;
}

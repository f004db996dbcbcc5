// One drive's whole run in charts, down to single samples, and another run over it.
import uPlot from "/lib/uPlot.js";
import { ask } from "./api.js";
import { colour, element } from "./dom.js";
import { number, scale, text, toUnit } from "./units.js";

const POINTS = 1200;
const WORST_S = 4;

export class DriveRun {
  #facts;
  #oils;
  #state;
  #judgedNow;
  #keep;
  #charts = [];
  #whole = null;
  #asked = 0;
  #closed = false;

  /**
   * @param state what the address holds: drive, oil, over, from, to
   * @param judged tells the verdict on this drive at an oil temperature, undefined while it is reckoned
   * @param keep puts the state into the address
   */
  constructor(where, { facts, oils, state, judged, keep }) {
    this.where = where;
    this.#facts = facts;
    this.#oils = oils;
    this.#state = { ...state };
    this.#judgedNow = judged;
    this.#keep = () => keep(Object.fromEntries(Object.entries(this.#state).filter(([, value]) => value !== undefined && value !== "")));
    this.resize = () => this.#size();
    addEventListener("resize", this.resize);
    this.#keep();
    this.#build();
  }

  /** The list knows more verdicts than before. */
  judgedAnew() {
    this.#tellWhy();
  }

  #judged() {
    return this.#judgedNow(Number(this.#state.oil));
  }

  #build() {
    const tool = (words, act) => element("button", { type: "button", onclick: act }, words);
    this.over = element("select", { "aria-label": "Lay another run over it", onchange: () => this.#lay() },
      element("option", { value: "" }, "no other run"),
      this.#oils.filter((oil) => oil !== Number(this.#state.oil)).map((oil) =>
        element("option", { value: oil, selected: oil === Number(this.#state.over) && this.#state.over !== undefined }, `over it: oil at ${text("temperature", oil)}`)));
    this.speedChart = element("div", { class: "chart", role: "img", "aria-label": "Shaft speed over the drive" });
    this.pressureChart = element("div", { class: "chart", role: "img", "aria-label": "Line pressure over the drive with the hold pressure" });
    this.words = element("p", { class: "cursor-text" });
    this.why = element("p", {});
    this.where.replaceChildren(
      element("h2", {}, `${this.#state.drive}, oil at ${text("temperature", Number(this.#state.oil))}`),
      this.why,
      element("div", { class: "tools" },
        tool("Worst moment", () => this.#worst()), tool("Whole drive", () => this.#show(...this.#whole)),
        tool("Closer", () => this.#zoom(0.5)), tool("Further", () => this.#zoom(2)),
        tool("Earlier", () => this.#pan(-0.5)), tool("Later", () => this.#pan(0.5)), this.over),
      this.speedChart, this.pressureChart, this.words,
      element("p", { class: "quiet" }, "Drag across a chart to look closer. Solid: this run. Dashed: the run laid over it."),
    );
    this.#whole = null;
    this.#show(Number(this.#state.from ?? -1e6), Number(this.#state.to ?? 1e6));
  }

  #lay() {
    this.#state.over = this.over.value;
    this.#show(...this.#range());
  }

  #range() {
    return [Number(this.#state.from ?? this.#whole?.[0] ?? -1e6), Number(this.#state.to ?? this.#whole?.[1] ?? 1e6)];
  }

  #worst() {
    const at = this.#judged()?.lowestAtS;
    if (at === null || at === undefined) this.words.textContent = "The worst moment is not known yet.";
    else this.#show(at - WORST_S / 2, at + WORST_S / 2);
  }

  #zoom(factor) {
    const [from, to] = this.#range();
    const half = Math.max(0.01, ((to - from) / 2) * factor);
    this.#show((from + to) / 2 - half, (from + to) / 2 + half);
  }

  #pan(share) {
    const [from, to] = this.#range();
    this.#show(from + (to - from) * share, to + (to - from) * share);
  }

  async #show(from, to) {
    const turn = ++this.#asked;
    const path = (oil) => `/api/drives/${encodeURIComponent(this.#state.drive)}/trace?oil=${oil}&from=${from}&to=${to}&points=${POINTS}`;
    try {
      const part = await ask(path(this.#state.oil));
      const other = this.#state.over ? await ask(path(this.#state.over)) : null;
      // Whoever asked later has the word.
      if (turn !== this.#asked || this.#closed) return;
      this.#whole = [part.startS, part.endS];
      const low = Math.max(from, part.startS);
      const high = Math.min(to, part.endS);
      if (low >= high) return this.#show(...this.#whole);
      const whole = low === part.startS && high === part.endS;
      this.#state.from = whole ? undefined : low.toFixed(3);
      this.#state.to = whole ? undefined : high.toFixed(3);
      this.#keep();
      this.#draw(part, other, low, high);
    } catch (problem) {
      this.words.textContent = problem.message;
    }
  }

  #draw(part, other, from, to) {
    for (const chart of this.#charts) chart.destroy();
    this.#charts = [
      this.#chart(this.speedChart, "speed", "nLow", "nHigh", part, other, from, to),
      this.#chart(this.pressureChart, "pressure", "pLow", "pHigh", part, other, from, to),
    ];
    this.#tellWhy();
    const lowest = Math.min(...part.pLow);
    this.words.textContent = `${from.toFixed(2)} s to ${to.toFixed(2)} s, ${part.single ? "every sample" : "lowest and highest of each step"}; lowest line pressure ${text("pressure", lowest)}`;
  }

  #tellWhy() {
    const judged = this.#judged();
    this.why.textContent = judged ? `${judged.held ? "Held" : "LOST"}. Weakest moment: ${judged.losses[0] ?? judged.weakest}` : "Being proved …";
  }

  #chart(where, quantity, low, high, part, other, from, to) {
    const units = (values) => Array.from(values, (si) => toUnit(quantity, si));
    const table = (one) => [one.t, units(one[low]), units(one[high])];
    const data = other ? uPlot.join([table(part), table(other)]) : table(part);
    const axis = { stroke: colour("quiet"), grid: { stroke: colour("grid"), width: 1 }, ticks: { stroke: colour("grid") } };
    const line = (ink, dash) => ({ stroke: colour(ink), width: 1.5, spanGaps: true, dash, points: { show: false } });
    const first = line(quantity);
    const second = line("window", [6, 4]);
    const ends = quantity === "pressure" ? [toUnit(quantity, this.#facts.holdPa)] : [];
    const chart = new uPlot({
      width: Math.max(260, where.clientWidth),
      height: 210,
      cursor: { sync: { key: "drives" }, drag: { x: true, y: false, setScale: false }, y: false },
      legend: { show: false },
      padding: [8, 12, 0, 0],
      scales: { x: { time: false, range: () => [from, to] }, y: { range: (u, min, max) => [Math.min(0, min ?? 0), Math.max(max ?? 1, ...ends) * 1.08] } },
      axes: [
        { ...axis, values: (u, ticks) => ticks.map((t) => `${+t.toFixed(3)} s`), size: 28, space: 70 },
        { ...axis, size: 62, label: `${quantity === "speed" ? "Shaft speed" : "Line pressure"}, ${scale(quantity).label}`, labelSize: 20 },
      ],
      series: [{}, first, first, ...(other ? [second, second] : [])],
      bands: part.single ? [] : [{ series: [2, 1], fill: `${colour(quantity)}33` }],
      hooks: {
        drawAxes: [(u) => ends.forEach((value) => hold(u, value))],
        setSelect: [(u) => u.select.width > 3 && this.#show(u.posToVal(u.select.left, "x"), u.posToVal(u.select.left + u.select.width, "x"))],
        setCursor: [(u) => this.#read(u, part)],
      },
    }, data, where);
    return chart;
  }

  #read(u, part) {
    if (u.cursor.left < 0 || part.t.length === 0) return;
    const at = u.posToVal(u.cursor.left, "x");
    const next = part.t.findIndex((t) => t > at);
    const i = next < 0 ? part.t.length - 1 : Math.max(0, next - 1);
    const span = (quantity, low, high) => (number(quantity, low) === number(quantity, high) ? text(quantity, low) : `${number(quantity, low)} to ${text(quantity, high)}`);
    this.words.textContent = `${part.t[i].toFixed(2)} s: ${span("speed", part.nLow[i], part.nHigh[i])}, ${span("pressure", part.pLow[i], part.pHigh[i])}, ${this.#facts.states[part.state[i]]}`;
  }

  #size() {
    for (const chart of this.#charts) chart.setSize({ width: Math.max(260, this.speedChart.clientWidth), height: 210 });
  }

  close() {
    this.#closed = true;
    removeEventListener("resize", this.resize);
    for (const chart of this.#charts) chart.destroy();
  }
}

function hold(u, value) {
  const y = u.valToPos(value, "y", true);
  const ratio = devicePixelRatio || 1;
  u.ctx.save();
  u.ctx.strokeStyle = u.ctx.fillStyle = colour("hold");
  u.ctx.setLineDash([8 * ratio, 4 * ratio]);
  u.ctx.beginPath();
  u.ctx.moveTo(u.bbox.left, y);
  u.ctx.lineTo(u.bbox.left + u.bbox.width, y);
  u.ctx.stroke();
  u.ctx.font = `${12 * ratio}px system-ui, sans-serif`;
  u.ctx.textAlign = "left";
  u.ctx.fillText("hold pressure", u.bbox.left + 6 * ratio, y - 5 * ratio);
  u.ctx.restore();
}

// One run of the fault campaign in charts: what broke when, what the line did, and what the controller did about it.
import uPlot from "/lib/uPlot.js";
import { colour, element } from "./dom.js";
import { drawLanes } from "./lanes.js";
import { scale, text, toUnit } from "./units.js";

const LEFT_PX = 78;
const RIGHT_PX = 12;
const BEFORE_S = 1;
const AFTER_S = 4;

const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}.`;

export class FaultRun {
  #facts;
  #story;
  #from;
  #to;
  #index;
  #charts = [];
  #frame = 0;

  constructor(where, facts, story, onClose) {
    this.#facts = facts;
    this.#story = story;
    const { run, trace } = story;
    this.#index = Math.max(0, trace.t.findIndex((t) => t >= run.startS));
    this.title = element("h2", { tabindex: "-1" }, `${run.title}, ${run.phaseTitle}, oil ${text("temperature", run.oilC)}`);
    this.speedChart = element("div", { class: "chart", role: "img", "aria-label": "Shaft speed of this run over time" });
    this.pressureChart = element("div", { class: "chart", role: "img", "aria-label": "Line pressure of this run over time" });
    this.lanes = element("canvas", { class: "lanes", role: "img", "aria-label": "Pump state, coils, pump, drive and codes over time" });
    this.cursor = element("output", { class: "cursor-text" });
    this.moment = element("input", { type: "range", class: "moment", min: 0, max: trace.t.length - 1, step: 1, "aria-label": "Moment to read", oninput: () => this.#read(Number(this.moment.value)) });
    this.moment.value = this.#index;
    const zoom = (words, from, to) => element("button", { type: "button", onclick: () => this.#show(from, to) }, words);
    const [first, last] = [trace.t[0], trace.t[trace.t.length - 1]];
    where.append(
      this.title,
      element("p", {}, `${sentence(story.effect)} ${sentence(story.reaction)}`),
      element(
        "div",
        { class: "tools" },
        zoom("Around the fault", Math.max(first, run.startS - BEFORE_S), Math.min(last, run.startS + AFTER_S)),
        zoom("Whole run", first, last),
        element("button", { type: "button", onclick: onClose }, "Close this run"),
        element("span", { class: "quiet" }, `Drive ${run.drive}; drag in a chart to zoom.`),
      ),
      this.speedChart,
      this.pressureChart,
      this.lanes,
      this.moment,
      this.cursor,
    );
    this.#from = Math.max(first, run.startS - BEFORE_S);
    this.#to = Math.min(last, run.startS + AFTER_S);
    this.resize = () => this.#layout();
    addEventListener("resize", this.resize);
    this.#layout();
  }

  focus() {
    this.title.focus();
    this.title.scrollIntoView({ block: "start" });
  }

  #layout() {
    for (const chart of this.#charts) chart.destroy();
    const { switchOnRadPerS, switchOffRadPerS, holdPa } = this.#facts;
    const { trace } = this.#story;
    this.#charts = [
      this.#chart(this.speedChart, "speed", trace.n, [
        [switchOffRadPerS, "pump off above", "window"],
        [switchOnRadPerS, "pump on below", "window"],
      ]),
      this.#chart(this.pressureChart, "pressure", trace.p, [[holdPa, "hold pressure", "hold"]]),
    ];
    this.#show(this.#from, this.#to);
    this.#read(this.#index);
  }

  #chart(where, quantity, values, marks) {
    const axis = { stroke: colour("quiet"), grid: { stroke: colour("grid"), width: 1 }, ticks: { stroke: colour("grid") } };
    const must = toUnit(quantity, marks[0][0]) * 1.25;
    return new uPlot(
      {
        width: Math.max(280, where.clientWidth),
        height: 190,
        cursor: { sync: { key: "fault-run" }, drag: { x: true, y: false, setScale: false }, y: false },
        legend: { show: false },
        padding: [8, RIGHT_PX, 0, 0],
        scales: { x: { time: false }, y: { range: (u, low, high) => [Math.min(0, low ?? 0), Math.max(high ?? 0, must) * 1.05] } },
        axes: [
          { ...axis, values: (u, ticks) => ticks.map((t) => `${+t.toFixed(3)} s`), size: 28 },
          { ...axis, size: LEFT_PX, label: `${quantity === "speed" ? "Shaft speed" : "Line pressure"}, ${scale(quantity).label}`, labelSize: 20 },
        ],
        series: [{}, { stroke: colour(quantity), width: 2, points: { show: false } }],
        hooks: {
          drawAxes: [
            (u) => {
              for (const [si, words, ink] of marks) this.#level(u, toUnit(quantity, si), words, ink);
              this.#fault(u);
            },
          ],
          setSelect: [
            (u) => {
              if (u.select.width < 4) return;
              const [from, to] = [u.posToVal(u.select.left, "x"), u.posToVal(u.select.left + u.select.width, "x")];
              u.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
              this.#show(from, to);
            },
          ],
          setCursor: [(u) => u.cursor.idx !== null && u.cursor.idx !== undefined && this.#read(u.cursor.idx)],
        },
      },
      [this.#story.trace.t, values.map((si) => toUnit(quantity, si))],
      where,
    );
  }

  #level(u, value, words, ink) {
    const y = u.valToPos(value, "y", true);
    const { left, width } = u.bbox;
    this.#dashed(u, ink, [left, y], [left + width, y], words, left + 6, y - 5);
  }

  #fault(u) {
    const x = u.valToPos(this.#story.run.startS, "x", true);
    const { left, top, width, height } = u.bbox;
    if (x < left || x > left + width) return;
    this.#dashed(u, "lost", [x, top], [x, top + height], "fault", x + 5, top + height - 6);
  }

  #dashed(u, ink, from, to, words, x, y) {
    const ratio = devicePixelRatio || 1;
    u.ctx.save();
    u.ctx.strokeStyle = colour(ink);
    u.ctx.fillStyle = colour(ink);
    u.ctx.setLineDash([8 * ratio, 4 * ratio]);
    u.ctx.beginPath();
    u.ctx.moveTo(...from);
    u.ctx.lineTo(...to);
    u.ctx.stroke();
    u.ctx.font = `${12 * ratio}px system-ui, sans-serif`;
    u.ctx.textAlign = "left";
    u.ctx.fillText(words, x, y);
    u.ctx.restore();
  }

  #show(from, to) {
    this.#from = from;
    this.#to = to;
    for (const chart of this.#charts) chart.setScale("x", { min: from, max: to });
    cancelAnimationFrame(this.#frame);
    this.#frame = requestAnimationFrame(() => this.#drawLanes());
  }

  #active(bits) {
    return this.#facts.codes.filter((code) => Math.floor(bits / 2 ** code.bit) % 2 === 1).map((code) => code.number);
  }

  #drawLanes() {
    const { trace, engagements } = this.#story;
    const { states, permissions } = this.#facts;
    drawLanes(this.lanes, trace, this.#from, this.#to, LEFT_PX + 20, RIGHT_PX, [
      { label: "Pump state", text: (i) => states[trace.state[i]] },
      { label: "Main coil", text: (i) => (trace.main[i] ? "energised" : ""), fill: "window" },
      { label: "Standby coil", text: (i) => (trace.standby[i] ? "energised" : ""), fill: "window" },
      { label: "Pump fed", text: (i) => (trace.contact[i] ? "fed" : ""), fill: "pump" },
      { label: "Element", text: (i) => engagements[trace.engagement[i]] },
      { label: "Drive", text: (i) => permissions[trace.drive[i]] },
      { label: "Codes", text: (i) => this.#active(trace.codes[i]).join(" "), fill: "lost" },
    ]);
  }

  #read(index) {
    this.#index = index;
    this.moment.value = index;
    const { trace, run, engagements } = this.#story;
    const words = [
      `${trace.t[index].toFixed(3)} s (${(trace.t[index] - run.startS).toFixed(3)} s after the fault)`,
      text("pressure", trace.p[index]),
      text("speed", trace.n[index]),
      `pump ${this.#facts.states[trace.state[index]]}`,
      `main coil ${trace.main[index] ? "energised" : "off"}`,
      `pump ${trace.contact[index] ? "fed" : "not fed"}`,
      `element ${engagements[trace.engagement[index]]}`,
      `drive ${this.#facts.permissions[trace.drive[index]]}`,
      `codes ${this.#active(trace.codes[index]).join(" ") || "none"}`,
    ].join("  ·  ");
    this.cursor.textContent = words;
    this.moment.setAttribute("aria-valuetext", words);
  }

  close() {
    removeEventListener("resize", this.resize);
    cancelAnimationFrame(this.#frame);
    for (const chart of this.#charts) chart.destroy();
    this.#charts = [];
  }
}

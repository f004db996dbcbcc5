// The live view: what the rig sees and decides, the last minute of it.
import uPlot from "/lib/uPlot.js";
import { colour, element } from "./dom.js";
import { drawLanes } from "./lanes.js";
import { Live } from "./live.js";
import { number, scale, text, toUnit } from "./units.js";

const SPANS_S = [5, 15, 60];
const LEFT_PX = 78;
const RIGHT_PX = 12;

export function open(view, page) {
  return new Now(view, page);
}

class Now {
  #live = new Live();
  #facts;
  #remember;
  #spanS;
  #paused = false;
  #frozen = null;
  #cursorS = null;
  #frame = 0;
  #charts = [];

  constructor(view, { facts, state, remember }) {
    this.#facts = facts;
    this.#remember = remember;
    this.#spanS = SPANS_S.includes(Number(state.get("last"))) ? Number(state.get("last")) : 60;
    this.#build(view);
    this.#live.onBatch = () => this.#ask();
    this.#live.onConnection = (up) => {
      document.getElementById("connection").textContent = up ? "" : "The rig does not answer. Trying again …";
    };
    this.#live.open();
    this.resize = () => this.#layout();
    addEventListener("resize", this.resize);
  }

  #build(view) {
    this.figure = {};
    const figures = element("dl", { class: "figures" });
    for (const [key, title] of [
      ["pressure", "Line pressure"],
      ["speed", "Shaft speed"],
      ["carries", "Carried by"],
      ["drive", "Drive"],
    ]) {
      const value = element("dd", { id: `figure-${key}` }, "–");
      const cell = element("div", {}, element("dt", {}, title), value);
      this.figure[key] = { value, cell };
      figures.append(cell);
    }
    this.pause = element("button", { type: "button", "aria-pressed": "false", onclick: () => this.#pause() }, "Pause");
    this.span = element(
      "select",
      { "aria-label": "Shown time", onchange: () => this.#zoom(Number(this.span.value)) },
      SPANS_S.map((s) => element("option", { value: s, selected: s === this.#spanS }, `last ${s} s`)),
    );
    this.speedChart = element("div", { class: "chart", role: "img", "aria-label": "Shaft speed over time with the switch-over window" });
    this.pressureChart = element("div", { class: "chart", role: "img", "aria-label": "Line pressure over time with the hold pressure" });
    this.lanes = element("canvas", { class: "lanes", role: "img", "aria-label": "Pump state, relays, readback and drive permission over time" });
    this.extremes = element("p", { class: "cursor-text quiet", id: "extremes" });
    this.cursor = element("p", { class: "cursor-text", "aria-live": "off" });
    this.codes = element("ul", { class: "codes", "aria-label": "Active trouble codes", role: "list" });
    view.append(
      element("h1", {}, "Now"),
      figures,
      this.codes,
      element("div", { class: "tools" }, this.pause, this.span),
      this.speedChart,
      this.pressureChart,
      this.lanes,
      this.extremes,
      this.cursor,
    );
    this.#layout();
  }

  #layout() {
    for (const chart of this.#charts) chart.destroy();
    this.#charts = [
      this.#chart(this.speedChart, "speed", (u) => this.#band(u)),
      this.#chart(this.pressureChart, "pressure", (u) => this.#line(u, toUnit("pressure", this.#facts.holdPa))),
    ];
    this.#draw();
  }

  #chart(where, quantity, behind) {
    const axis = { stroke: colour("quiet"), grid: { stroke: colour("grid"), width: 1 }, ticks: { stroke: colour("grid") } };
    return new uPlot(
      {
        width: Math.max(300, where.clientWidth),
        height: 190,
        cursor: { sync: { key: "now" }, drag: { x: false, y: false }, y: false },
        legend: { show: false },
        padding: [8, RIGHT_PX, 0, 0],
        scales: { x: { time: false }, y: { range: (u, low, high) => this.#range(quantity, low, high) } },
        axes: [
          { ...axis, values: (u, ticks) => ticks.map((t) => `${t} s`), size: 28 },
          { ...axis, size: LEFT_PX, label: `${quantity === "speed" ? "Shaft speed" : "Line pressure"}, ${scale(quantity).label}`, labelSize: 20 },
        ],
        series: [{}, { stroke: colour(quantity), width: 2, spanGaps: false }],
        hooks: {
          drawAxes: [behind],
          setCursor: [
            (u) => {
              this.#cursorS = u.cursor.left >= 0 ? u.posToVal(u.cursor.left, "x") : null;
              this.#readCursor();
            },
          ],
        },
      },
      [[], []],
      where,
    );
  }

  /** The window is always in sight, and so is the hold pressure. */
  #range(quantity, low, high) {
    const must = quantity === "speed" ? this.#facts.switchOffRadPerS : this.#facts.holdPa;
    const top = Math.max(high ?? 0, toUnit(quantity, must) * 1.25);
    return [Math.min(0, low ?? 0), top * 1.05];
  }

  #band(u) {
    const on = u.valToPos(toUnit("speed", this.#facts.switchOnRadPerS), "y", true);
    const off = u.valToPos(toUnit("speed", this.#facts.switchOffRadPerS), "y", true);
    const { left, width } = u.bbox;
    u.ctx.save();
    u.ctx.globalAlpha = 0.18;
    u.ctx.fillStyle = colour("window");
    u.ctx.fillRect(left, off, width, on - off);
    u.ctx.restore();
    this.#mark(u, off, "pump off above");
    this.#mark(u, on, "pump on below");
  }

  #line(u, value) {
    this.#mark(u, u.valToPos(value, "y", true), "hold pressure", "hold");
  }

  #mark(u, y, words, ink = "window") {
    const { left, width } = u.bbox;
    const ratio = devicePixelRatio || 1;
    u.ctx.save();
    u.ctx.strokeStyle = colour(ink);
    u.ctx.fillStyle = colour(ink);
    u.ctx.setLineDash([8 * ratio, 4 * ratio]);
    u.ctx.beginPath();
    u.ctx.moveTo(left, y);
    u.ctx.lineTo(left + width, y);
    u.ctx.stroke();
    u.ctx.font = `${12 * ratio}px system-ui, sans-serif`;
    u.ctx.textAlign = "left";
    u.ctx.fillText(words, left + 6 * ratio, y - 5 * ratio);
    u.ctx.restore();
  }

  #ask() {
    if (this.#frame) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.#draw();
    });
  }

  #pause() {
    this.#paused = !this.#paused;
    this.#frozen = this.#paused
      ? Object.fromEntries(Object.entries(this.#live.columns).map(([name, values]) => [name, values.slice()]))
      : null;
    this.pause.setAttribute("aria-pressed", String(this.#paused));
    this.#draw();
  }

  #zoom(spanS) {
    this.#spanS = spanS;
    this.#remember({ last: spanS });
    this.#draw();
  }

  #draw() {
    const columns = this.#frozen ?? this.#live.columns;
    this.#figures();
    if (!columns.t?.length) return;
    const fromS = Math.max(columns.t[0], columns.t[columns.t.length - 1] - this.#spanS);
    const toS = fromS + this.#spanS;
    const first = columns.t.findIndex((t) => t >= fromS);
    const times = columns.t.slice(first);
    const show = (chart, quantity, values) => {
      chart.setData([times, values.slice(first).map((si) => toUnit(quantity, si))], false);
      chart.batch(() => {
        chart.setScale("x", { min: fromS, max: toS });
        chart.setScale("y", { min: null, max: null });
      });
    };
    show(this.#charts[0], "speed", columns.n);
    show(this.#charts[1], "pressure", columns.p);
    this.extremes.textContent =
      `In sight: line pressure ${this.#span("pressure", columns.p.slice(first))}, ` +
      `shaft speed ${this.#span("speed", columns.n.slice(first))}.`;
    const { states, permissions, codes } = this.#facts;
    drawLanes(this.lanes, columns, fromS, toS, LEFT_PX + 20, RIGHT_PX, [
      { label: "Pump state", text: (i) => states[columns.state[i]] },
      { label: "Main coil", text: (i) => (columns.main[i] ? "energised" : ""), fill: "window" },
      { label: "Main contact", text: (i) => (columns.mainV[i] > 6 ? "live" : ""), fill: "pump" },
      { label: "Standby coil", text: (i) => (columns.standby[i] ? "energised" : ""), fill: "window" },
      { label: "Drive", text: (i) => permissions[columns.drive[i]] },
      { label: "Codes", text: (i) => this.#active(codes, columns.codes[i]).map((code) => code.number).join(" "), fill: "lost" },
    ]);
    this.#readCursor();
  }

  #span(quantity, values) {
    const known = values.filter((value) => value !== null);
    if (!known.length) return "not known";
    const least = known.reduce((a, b) => Math.min(a, b));
    const most = known.reduce((a, b) => Math.max(a, b));
    return `${number(quantity, least)} to ${text(quantity, most)}`;
  }

  /** Bits above 31 are beyond what JavaScript's own bit operators reach. */
  #active(list, bits) {
    return bits ? list.filter((one) => Math.floor(bits / 2 ** one.bit) % 2 === 1) : [];
  }

  #figures() {
    const { holdPa, carriers, permissions, codes, rigFaults } = this.#facts;
    const pressure = this.#live.last("p");
    const state = this.#live.last("state");
    const drive = this.#live.last("drive");
    this.figure.pressure.value.textContent = text("pressure", pressure);
    this.figure.pressure.cell.classList.toggle("alarm", pressure !== null && pressure < holdPa);
    this.figure.speed.value.textContent = text("speed", this.#live.last("n"));
    this.figure.carries.value.textContent = state === null ? "–" : carriers[state];
    this.figure.drive.value.textContent = drive === null ? "–" : permissions[drive];
    const active = [
      ...this.#active(codes, this.#live.last("codes")).map((code) => `${code.number} ${code.title}`),
      ...this.#active(rigFaults, this.#live.last("rig")).map((fault) => `Rig: ${fault.text}`),
    ];
    const now = active.join("\n");
    if (this.codes.dataset.now !== now) {
      this.codes.dataset.now = now;
      this.codes.replaceChildren(...active.map((line) => element("li", {}, line)));
    }
  }

  #readCursor() {
    const columns = this.#frozen ?? this.#live.columns;
    if (this.#cursorS === null || !columns.t?.length) {
      this.cursor.textContent = "";
      return;
    }
    let i = columns.t.findIndex((t) => t >= this.#cursorS);
    if (i < 0) i = columns.t.length - 1;
    const { states, reasons, permissions } = this.#facts;
    this.cursor.textContent = [
      `${columns.t[i].toFixed(3)} s`,
      text("pressure", columns.p[i]),
      text("speed", columns.n[i]),
      `pump ${states[columns.state[i]]} (${reasons[columns.reason[i]]})`,
      `main coil ${columns.main[i] ? "energised" : "off"}`,
      `contact ${columns.mainV[i] === null ? "–" : columns.mainV[i].toFixed(1)} V`,
      `drive ${permissions[columns.drive[i]]}`,
      `late ${(columns.late[i] * 1e3).toFixed(2)} ms`,
    ].join("  ·  ");
  }

  close() {
    removeEventListener("resize", this.resize);
    cancelAnimationFrame(this.#frame);
    this.#live.close();
    for (const chart of this.#charts) chart.destroy();
    document.getElementById("connection").textContent = "";
  }
}

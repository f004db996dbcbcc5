// Two strip charts over each other, shaft speed and line pressure, and the lanes below them, all on one time axis.
import uPlot from "/lib/uPlot.js";
import { colour, element } from "./dom.js";
import { drawLanes } from "./lanes.js";
import { scale, text, toUnit } from "./units.js";

/** With the label the width that the slider's margin in the style has, too. */
export const LEFT_PX = 84;
export const LABEL_PX = 20;
export const RIGHT_PX = 20;
const HEIGHT_PX = 190;
/** A shorter drag is a click. */
const LEAST_DRAG_PX = 4;

export class Strips {
  #facts;
  #told;
  #charts = [];
  #atS = null;

  /**
   * @param told onHover(s or null), onZoom(fromS, toS), onWhole(), and onHold(whether a button of the mouse is down)
   */
  constructor(facts, told) {
    this.#facts = facts;
    this.#told = told;
    this.speed = element("div", { class: "chart", role: "img", "aria-label": "Shaft speed over time with the switch-over window" });
    this.pressure = element("div", { class: "chart", role: "img", "aria-label": "Line pressure over time with the hold pressure" });
    this.lanes = element("canvas", { class: "lanes", role: "img", "aria-label": "Pump state, relays, contacts, drive permission and codes over time" });
    for (const chart of [this.speed, this.pressure]) chart.addEventListener("mousedown", () => this.#hold());
  }

  #hold() {
    this.#told.onHold(true);
    addEventListener("mouseup", () => this.#told.onHold(false), { once: true });
  }

  /** Makes the charts anew: their size, colours or units have changed. */
  layout() {
    this.destroy();
    const { switchOffRadPerS, holdPa } = this.#facts;
    this.#charts = [
      this.#chart(this.speed, "speed", (u) => this.#window(u), switchOffRadPerS),
      this.#chart(this.pressure, "pressure", (u) => mark(u, "pressure", holdPa, "hold pressure", "hold"), holdPa),
    ];
  }

  #window(u) {
    const { switchOnRadPerS, switchOffRadPerS } = this.#facts;
    const on = u.valToPos(toUnit("speed", switchOnRadPerS), "y", true);
    const off = u.valToPos(toUnit("speed", switchOffRadPerS), "y", true);
    u.ctx.save();
    u.ctx.globalAlpha = 0.18;
    u.ctx.fillStyle = colour("window");
    u.ctx.fillRect(u.bbox.left, off, u.bbox.width, on - off);
    u.ctx.restore();
    mark(u, "speed", switchOffRadPerS, "pump off above", "window");
    mark(u, "speed", switchOnRadPerS, "pump on below", "window");
  }

  /** @param inSight what is always in sight, whatever the curve does */
  #chart(where, quantity, behind, inSight) {
    const axis = { stroke: colour("quiet"), grid: { stroke: colour("grid"), width: 1 }, ticks: { stroke: colour("grid") } };
    const top = toUnit(quantity, inSight) * 1.25;
    return new uPlot(
      {
        width: Math.max(300, where.clientWidth),
        height: HEIGHT_PX,
        cursor: {
          x: false,
          y: false,
          points: { show: false },
          drag: { x: true, y: false, setScale: false },
          bind: { dblclick: () => () => this.#told.onWhole() },
        },
        legend: { show: false },
        padding: [8, RIGHT_PX, 0, 0],
        scales: { x: { time: false }, y: { range: (u, low, high) => [Math.min(0, low ?? 0), Math.max(high ?? 0, top) * 1.05] } },
        axes: [
          { ...axis, values: (u, ticks) => ticks.map((t) => `${+t.toFixed(3)} s`), size: 28, space: 64 },
          { ...axis, size: LEFT_PX, label: `${quantity === "speed" ? "Shaft speed" : "Line pressure"}, ${scale(quantity).label}`, labelSize: LABEL_PX },
        ],
        series: [{}, { stroke: colour(quantity), width: 2, spanGaps: false }],
        hooks: {
          drawAxes: [behind],
          draw: [(u) => this.#cursorLine(u)],
          setCursor: [(u) => this.#told.onHover(u.cursor.left >= 0 ? u.posToVal(u.cursor.left, "x") : null)],
          setSelect: [(u) => this.#selected(u)],
        },
      },
      [[], []],
      where,
    );
  }

  #selected(u) {
    const { left, width } = u.select;
    if (width < LEAST_DRAG_PX) return;
    u.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
    this.#told.onZoom(u.posToVal(left, "x"), u.posToVal(left + width, "x"));
  }

  #cursorLine(u) {
    if (this.#atS === null || this.#atS < u.scales.x.min || this.#atS > u.scales.x.max) return;
    const x = Math.round(u.valToPos(this.#atS, "x", true)) + 0.5;
    u.ctx.save();
    u.ctx.strokeStyle = colour("ink");
    u.ctx.beginPath();
    u.ctx.moveTo(x, u.bbox.top);
    u.ctx.lineTo(x, u.bbox.top + u.bbox.height);
    u.ctx.stroke();
    u.ctx.restore();
  }

  /**
   * @param columns t, n and p, and what the lanes read
   * @param first index of the first sample in sight
   * @param end index behind the last one
   * @param atS where the cursor stands; null draws none
   */
  draw(columns, first, end, fromS, toS, atS, lanes) {
    this.#atS = atS;
    // One sample beyond each edge, so that a curve reaches it.
    const from = Math.max(0, first - 1);
    const to = Math.min(columns.t.length, end + 1);
    const times = columns.t.slice(from, to);
    for (const [chart, quantity, values] of [
      [this.#charts[0], "speed", columns.n],
      [this.#charts[1], "pressure", columns.p],
    ]) {
      chart.batch(() => {
        chart.setData([times, values.slice(from, to).map((si) => toUnit(quantity, si))], false);
        chart.setScale("x", { min: fromS, max: toS });
        chart.setScale("y", { min: null, max: null });
      });
    }
    drawLanes(this.lanes, columns, fromS, toS, LEFT_PX + LABEL_PX, RIGHT_PX, lanes, atS);
  }

  destroy() {
    for (const chart of this.#charts) chart.destroy();
    this.#charts = [];
  }
}

/** A level across the chart, with its name and value on the paper's own ground, at its left or right, above or below it; no name draws the level alone. */
export function mark(u, quantity, si, words, ink, side = "right", below = false) {
  const ratio = devicePixelRatio || 1;
  const y = u.valToPos(toUnit(quantity, si), "y", true);
  const { left, width } = u.bbox;
  u.ctx.save();
  u.ctx.strokeStyle = colour(ink);
  u.ctx.setLineDash([8 * ratio, 4 * ratio]);
  u.ctx.beginPath();
  u.ctx.moveTo(left, y);
  u.ctx.lineTo(left + width, y);
  u.ctx.stroke();
  u.ctx.setLineDash([]);
  if (!words) {
    u.ctx.restore();
    return;
  }
  u.ctx.font = `${12 * ratio}px system-ui, sans-serif`;
  u.ctx.textAlign = side;
  u.ctx.fillStyle = colour(ink);
  u.ctx.strokeStyle = colour("paper");
  u.ctx.lineWidth = 4 * ratio;
  const label = `${words} ${text(quantity, si)}`;
  const x = side === "right" ? left + width - 6 * ratio : left + 6 * ratio;
  const base = y + (below ? 14 : -5) * ratio;
  u.ctx.strokeText(label, x, base);
  u.ctx.fillText(label, x, base);
  u.ctx.restore();
}

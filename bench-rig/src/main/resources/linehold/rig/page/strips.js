// Two strip charts over each other, shaft speed and line pressure, and the lanes below them, all on one time axis.
import uPlot from "/lib/uPlot.js";
import { colour, element } from "./dom.js";
import { drawLanes } from "./lanes.js";
import { axes, band, chosen, cursor, cursorLine, hovered, LABEL_PX, LEFT_PX, mark, RIGHT_PX, seconds, valueScale } from "./strip-drawing.js";
import { toUnit } from "./units.js";

const HEIGHT_PX = 190;

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
    band(u, this.#facts);
    mark(u, "speed", switchOffRadPerS, "pump off above", "window");
    mark(u, "speed", switchOnRadPerS, "pump on below", "window");
  }

  /** @param inSight what is always in sight, whatever the curve does */
  #chart(where, quantity, behind, inSight) {
    return new uPlot(
      {
        width: Math.max(300, where.clientWidth),
        height: HEIGHT_PX,
        cursor: cursor({ dblclick: () => () => this.#told.onWhole() }),
        legend: { show: false },
        padding: [8, RIGHT_PX, 0, 0],
        scales: { x: { time: false }, y: valueScale(() => toUnit(quantity, inSight)) },
        axes: axes(quantity, (u, ticks) => ticks.map(seconds), 64),
        series: [{}, { stroke: colour(quantity), width: 2, spanGaps: false }],
        hooks: {
          drawAxes: [behind],
          draw: [(u) => cursorLine(u, this.#atS)],
          setCursor: [hovered((atS) => this.#told.onHover(atS))],
          setSelect: [chosen((fromS, toS) => this.#told.onZoom(fromS, toS))],
        },
      },
      [[], []],
      where,
    );
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

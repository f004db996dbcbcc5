// Charts of a run, and of another one over it in dashes: shaft speed, line pressure and lanes on one time axis, as in Now.
import uPlot from "/lib/uPlot.js";
import { colour, element } from "./dom.js";
import { drawLanes } from "./lanes.js";
import { lanesOf, lanesTimes, overLanesOf } from "./run-words.js";
import { choosing, gestures } from "./strip-gestures.js";
import { axes, band, chosen, cursor, cursorLine, hovered, LABEL_PX, LEFT_PX, mark, RIGHT_PX, seconds, valueScale } from "./strip-drawing.js";
import { toUnit } from "./units.js";

const HEIGHT_PX = 200;
const DASH = [6, 4];
const CHARACTER_PX = 7;
/** Names of the dashed run's levels would lie on those of the other where a chart is narrower; the words above it have them too. */
const ROOM_PX = 520;

const markOver = (u, quantity, si, words, below) =>
  mark(u, quantity, si, words && u.over.clientWidth >= ROOM_PX && `dashed run: ${words}`, "over", "left", below);

/** A long time at the very edge would be cut off. */
const timesOf = (u, ticks) => ticks.map((s) => {
  const words = seconds(s);
  const roomPx = ((u.scales.x.max - s) / (u.scales.x.max - u.scales.x.min)) * u.over.clientWidth + RIGHT_PX;
  return words.length * CHARACTER_PX < 2 * roomPx ? words : "";
});

export class RunStrips {
  #facts;
  #told;
  #charts = [];
  #runs = [];
  #fromS = 0;
  #toS = 1;
  #atS = null;

  /** @param told onHover(s or null), onMove(fromS, toS), onWhole(), and whole() that tells whether all is in sight */
  constructor(facts, told) {
    this.#facts = facts;
    this.#told = told;
    this.speed = element("div", { class: "chart", role: "img", "aria-label": "Shaft speed over the drive with the switch-over window" });
    this.pressure = element("div", { class: "chart", role: "img", "aria-label": "Line pressure over the drive with the hold pressure" });
    this.lanes = element("canvas", { class: "lanes", role: "img", "aria-label": "Pump state, relays, contacts, drive permission and codes over the drive" });
    this.overLanes = element("canvas", { class: "lanes", role: "img", "aria-label": "Pump state, drive permission and codes of the dashed run over the drive" });
  }

  /** Makes the charts anew: their size, colours or units have changed, or the number of runs. */
  layout() {
    this.destroy();
    if (!this.#runs.length) return;
    this.#charts = [
      this.#chart(this.speed, "speed", (u) => band(u, this.#runs[0]), (u, named) => this.#windows(u, named)),
      this.#chart(this.pressure, "pressure", () => {}, (u, named) => this.#holds(u, named)),
    ];
    this.#fill();
  }

  /** @param runs one, or the other one over it too */
  show(runs) {
    const anew = runs.length !== this.#runs.length;
    this.#runs = runs;
    if (anew) this.layout();
    else this.#fill();
  }

  #fill() {
    this.#charts.forEach((chart, i) => {
      const [quantity, low, high] = i === 0 ? ["speed", "nLow", "nHigh"] : ["pressure", "pLow", "pHigh"];
      const units = (list) => list.map((si) => toUnit(quantity, si));
      const tables = this.#runs.map(({ part }) => [part.t, units(part[low]), units(part[high])]);
      chart.setData(tables.length > 1 ? uPlot.join(tables) : tables[0], false);
    });
    this.move(this.#fromS, this.#toS, this.#atS);
  }

  /** Shows another stretch of what is there. @param atS where the cursor stands; null draws none */
  move(fromS, toS, atS) {
    this.#fromS = fromS;
    this.#toS = toS;
    this.#atS = atS;
    for (const chart of this.#charts) {
      chart.batch(() => {
        chart.setScale("x", { min: fromS, max: toS });
        chart.setScale("y", { min: null, max: null });
      });
    }
    this.#runs.forEach(({ part }, i) => {
      const lanes = i === 0 ? lanesOf(part.lanes, this.#facts) : overLanesOf(part.lanes, this.#facts);
      const ends = Math.min(part.endS, part.toS) + part.periodS;
      drawLanes(i === 0 ? this.lanes : this.overLanes, lanesTimes(part.lanes, ends), fromS, toS, LEFT_PX + LABEL_PX, RIGHT_PX, lanes, atS);
    });
    this.overLanes.hidden = this.#runs.length < 2;
  }

  #windows(u, named) {
    const [run, over] = this.#runs;
    mark(u, "speed", run.switchOffRadPerS, named && "pump off above", "window");
    mark(u, "speed", run.switchOnRadPerS, named && "pump on below", "window", "right", true);
    if (!over) return;
    if (over.switchOffRadPerS !== run.switchOffRadPerS) markOver(u, "speed", over.switchOffRadPerS, named && "off above");
    if (over.switchOnRadPerS !== run.switchOnRadPerS) markOver(u, "speed", over.switchOnRadPerS, named && "on below", true);
  }

  #holds(u, named) {
    const [run, over] = this.#runs;
    mark(u, "pressure", run.holdPa, named && "hold pressure", "hold");
    if (over && over.holdPa !== run.holdPa) markOver(u, "pressure", over.holdPa, named && "hold pressure");
  }

  /**
   * @param behind drawn below all
   * @param levels their names are drawn below the curves, which no name may hide; the lines above: the curves of a day cover all
   *   that is below
   */
  #chart(where, quantity, behind, levels) {
    const line = (ink, dash) => ({ stroke: colour(ink), width: 1.5, spanGaps: true, dash });
    const inSight = () => Math.max(...this.#runs.map((run) => toUnit(quantity, quantity === "speed" ? run.switchOffRadPerS : run.holdPa)));
    const two = this.#runs.length > 1;
    const chart = new uPlot(
      {
        width: Math.max(300, where.clientWidth),
        height: HEIGHT_PX,
        cursor: cursor({
          dblclick: () => () => this.#told.onWhole(),
          mousedown: (u, target, act) => (event) => choosing(event, this.#told.whole()) && act(event),
        }),
        legend: { show: false },
        padding: [8, RIGHT_PX, 0, 0],
        scales: { x: { time: false }, y: valueScale(inSight) },
        axes: axes(quantity, timesOf, 72),
        series: [{}, line(quantity), line(quantity), ...(two ? [line("over", DASH), { spanGaps: true, points: { show: false } }] : [])],
        bands: [{ series: [2, 1], fill: `${colour(quantity)}33` }, ...(two ? [{ series: [4, 3], fill: `${colour("over")}44` }] : [])],
        hooks: {
          drawAxes: [behind, (u) => levels(u, true)],
          draw: [(u) => levels(u, false), (u) => cursorLine(u, this.#atS)],
          setCursor: [hovered((atS) => this.#told.onHover(atS))],
          setSelect: [chosen((fromS, toS) => this.#told.onMove(fromS, toS))],
        },
      },
      [[], [], [], ...(two ? [[], []] : [])],
      where,
    );
    gestures(chart, { range: () => [this.#fromS, this.#toS], whole: this.#told.whole, move: this.#told.onMove });
    return chart;
  }

  destroy() {
    for (const chart of this.#charts) chart.destroy();
    this.#charts = [];
  }
}

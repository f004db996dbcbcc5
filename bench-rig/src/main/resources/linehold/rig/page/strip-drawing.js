// What every strip chart is made of: its axes, what lies behind its curves, the cursor, and the choice by a drag.
import { colour } from "./dom.js";
import { scale, text, toUnit } from "./units.js";

/** With the label the width that the slider's margin in the style has, too. */
export const LEFT_PX = 84;
export const LABEL_PX = 20;
export const RIGHT_PX = 20;
/** A shorter drag is a click. */
const LEAST_DRAG_PX = 4;

export const seconds = (s) => `${+s.toFixed(3)} s`;

/** @param times of the marks of the time axis in words @param space between them, px */
export function axes(quantity, times, space) {
  const axis = { stroke: colour("quiet"), grid: { stroke: colour("grid"), width: 1 }, ticks: { stroke: colour("grid") } };
  const title = quantity === "speed" ? "Shaft speed" : "Line pressure";
  return [
    { ...axis, values: times, size: 28, space },
    { ...axis, size: LEFT_PX, label: `${title}, ${scale(quantity).label}`, labelSize: LABEL_PX },
  ];
}

/** Zero and a level are always in sight. @param inSight gives the level, in the unit shown */
export const valueScale = (inSight) => ({
  range: (u, low, high) => [Math.min(0, low ?? 0), Math.max(high ?? 0, inSight() * 1.25) * 1.05],
});

/** Charts draw the cursor themselves, and choose by a drag. */
export const cursor = (bind) => ({
  x: false,
  y: false,
  points: { show: false },
  drag: { x: true, y: false, setScale: false },
  bind,
});

/** Tells where the pointer is, s; null where it has left. */
export const hovered = (onHover) => (u) => onHover(u.cursor.left >= 0 ? u.posToVal(u.cursor.left, "x") : null);

/** Tells what was chosen by a drag, and takes the choice away. */
export const chosen = (onChoose) => (u) => {
  const { left, width } = u.select;
  if (width < LEAST_DRAG_PX) return;
  u.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
  onChoose(u.posToVal(left, "x"), u.posToVal(left + width, "x"));
};

export function band(u, { switchOnRadPerS, switchOffRadPerS }) {
  const on = u.valToPos(toUnit("speed", switchOnRadPerS), "y", true);
  const off = u.valToPos(toUnit("speed", switchOffRadPerS), "y", true);
  u.ctx.save();
  u.ctx.globalAlpha = 0.18;
  u.ctx.fillStyle = colour("window");
  u.ctx.fillRect(u.bbox.left, off, u.bbox.width, on - off);
  u.ctx.restore();
}

/** @param atS null draws none */
export function cursorLine(u, atS) {
  if (atS === null || atS < u.scales.x.min || atS > u.scales.x.max) return;
  const x = Math.round(u.valToPos(atS, "x", true)) + 0.5;
  u.ctx.save();
  u.ctx.strokeStyle = colour("ink");
  u.ctx.beginPath();
  u.ctx.moveTo(x, u.bbox.top);
  u.ctx.lineTo(x, u.bbox.top + u.bbox.height);
  u.ctx.stroke();
  u.ctx.restore();
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

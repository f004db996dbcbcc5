// Lanes under the strip charts: states as words, switched things as bars, codes as flags. Words and shapes, not colour alone.
import { colour } from "./dom.js";

const LANE_PX = 22;
const FONT = "12px system-ui, sans-serif";

/**
 * @param lanes [{label, text(i) -> string or "", value(i), fill, flag}]: one value a sample; equal neighbours are one box,
 *   compared by value where there is one; a flag stands where its box begins and may be wider than it
 * @param atS where the cursor stands; null or undefined draws none
 */
export function drawLanes(canvas, columns, fromS, toS, leftPx, rightPx, lanes, atS) {
  const ratio = devicePixelRatio || 1;
  const width = canvas.clientWidth;
  const height = lanes.length * LANE_PX;
  if (canvas.style.height !== `${height}px`) canvas.style.height = `${height}px`;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  const pen = canvas.getContext("2d");
  pen.scale(ratio, ratio);
  pen.font = FONT;
  pen.textBaseline = "middle";
  const span = width - leftPx - rightPx;
  const x = (s) => leftPx + ((s - fromS) / (toS - fromS)) * span;
  const shades = {};
  const ink = (name) => (shades[name] ??= colour(name));
  lanes.forEach((lane, row) => drawLane(pen, lane, row * LANE_PX, columns.t ?? [], { x, fromS, toS, leftPx, span, ink }));
  if (atS === undefined || atS === null || atS < fromS || atS > toS) return;
  pen.strokeStyle = ink("ink");
  pen.beginPath();
  pen.moveTo(x(atS), 0);
  pen.lineTo(x(atS), height);
  pen.stroke();
}

function drawLane(pen, lane, top, times, frame) {
  pen.fillStyle = frame.ink("quiet");
  pen.textAlign = "right";
  pen.fillText(lane.label, frame.leftPx - 6, top + LANE_PX / 2);
  pen.textAlign = "left";
  pen.save();
  pen.beginPath();
  pen.rect(frame.leftPx, top, frame.span, LANE_PX);
  pen.clip();
  const value = lane.value ?? lane.text;
  let start = 0;
  frame.free = frame.leftPx;
  for (let i = 1; i <= times.length; i++) {
    if (i < times.length && value(i) === value(start)) continue;
    const end = i < times.length ? times[i] : times[times.length - 1];
    if (end >= frame.fromS && times[start] <= frame.toS) {
      const text = lane.text(start);
      if (text) (lane.flag ? flag : box)(pen, lane, text, frame.x(times[start]), frame.x(end), top, frame);
    }
    start = i;
  }
  pen.restore();
}

function box(pen, lane, text, from, to, top, frame) {
  const width = Math.max(2, to - from);
  pen.fillStyle = frame.ink(lane.fill ?? "sheet");
  pen.strokeStyle = frame.ink("rule");
  pen.fillRect(from, top + 3, width, LANE_PX - 6);
  pen.strokeRect(from, top + 3, width, LANE_PX - 6);
  const shownFrom = Math.max(from, frame.leftPx);
  if (pen.measureText(text).width + 8 <= to - shownFrom) {
    pen.fillStyle = frame.ink(lane.fill ? "paper" : "ink");
    pen.fillText(text, shownFrom + 4, top + LANE_PX / 2);
  }
}

function flag(pen, lane, text, from, to, top, frame) {
  const at = Math.max(from, frame.leftPx);
  pen.fillStyle = frame.ink(lane.fill);
  pen.fillRect(at, top + LANE_PX - 4, Math.max(2, to - at), 3);
  pen.fillRect(at, top + 1, 2, LANE_PX - 2);
  if (at + 5 < frame.free) return;
  pen.fillText(text, at + 6, top + LANE_PX / 2 - 1);
  frame.free = at + 10 + pen.measureText(text).width;
}

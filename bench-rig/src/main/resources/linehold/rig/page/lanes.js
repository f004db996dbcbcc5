// Lanes under the strip charts: states as words, switched things as bars, codes as flags. Words and shapes, not colour alone.
import { colour } from "./dom.js";

const LANE_PX = 22;
const FONT = "12px system-ui, sans-serif";

/** @param lanes [{label, text(i) -> string or "" , fill}] one value a sample; equal neighbours are one box */
export function drawLanes(canvas, columns, fromS, toS, leftPx, rightPx, lanes) {
  const ratio = devicePixelRatio || 1;
  const width = canvas.clientWidth;
  const height = lanes.length * LANE_PX;
  canvas.style.height = `${height}px`;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  const pen = canvas.getContext("2d");
  pen.scale(ratio, ratio);
  pen.font = FONT;
  pen.textBaseline = "middle";
  const span = width - leftPx - rightPx;
  const x = (s) => leftPx + ((s - fromS) / (toS - fromS)) * span;
  lanes.forEach((lane, row) => drawLane(pen, lane, row * LANE_PX, columns.t ?? [], { x, fromS, toS, leftPx, span }));
}

function drawLane(pen, lane, top, times, frame) {
  pen.fillStyle = colour("quiet");
  pen.textAlign = "right";
  pen.fillText(lane.label, frame.leftPx - 6, top + LANE_PX / 2);
  pen.textAlign = "left";
  pen.save();
  pen.beginPath();
  pen.rect(frame.leftPx, top, frame.span, LANE_PX);
  pen.clip();
  let start = 0;
  for (let i = 1; i <= times.length; i++) {
    if (i < times.length && lane.text(i) === lane.text(start)) continue;
    const end = i < times.length ? times[i] : times[times.length - 1];
    if (end >= frame.fromS && times[start] <= frame.toS && lane.text(start)) {
      box(pen, lane, lane.text(start), frame.x(times[start]), frame.x(end), top, frame);
    }
    start = i;
  }
  pen.restore();
}

function box(pen, lane, text, from, to, top, frame) {
  const width = Math.max(2, to - from);
  pen.fillStyle = colour(lane.fill ?? "sheet");
  pen.strokeStyle = colour("rule");
  pen.fillRect(from, top + 3, width, LANE_PX - 6);
  pen.strokeRect(from, top + 3, width, LANE_PX - 6);
  const shownFrom = Math.max(from, frame.leftPx);
  if (pen.measureText(text).width + 8 <= to - shownFrom) {
    pen.fillStyle = colour(lane.fill ? "paper" : "ink");
    pen.fillText(text, shownFrom + 4, top + LANE_PX / 2);
  }
}

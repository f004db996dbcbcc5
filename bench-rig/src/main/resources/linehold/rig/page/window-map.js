// Lowest line pressure over switch-on speed (upward) and rate of the stop (rightward): a cell with its number for each
// pair tried, so both axes are stretched between the values tried. The handles are for the pointer; the sliders beside
// the map do the same from the keyboard.
import { number, scale, text } from "./units.js";

const LEFT = 66;
const COLUMN = 48;
const ROW = 24;
const TOP = 26;
const BOTTOM = 44;
const MARGIN = 184;

function shape(name, attributes, words) {
  const node = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (words !== undefined) node.textContent = words;
  return node;
}

export function drawMap(where, what) {
  const { answer, holdPa, oilC } = what;
  const map = answer.window.maps.find((one) => one.oil_c === oilC);
  const speeds = map.rows.map((row) => row.on_rad_per_s);
  const rates = map.rows[0].lowest.map((cell) => cell.rate_rad_per_s2);
  const right = LEFT + rates.length * COLUMN;
  const floor = TOP + speeds.length * ROW;
  // A row's lower edge is its own speed; above the last row the scale goes on as it was.
  const y = (radPerS) => {
    let row = speeds.findIndex((speed) => speed > radPerS);
    if (row < 0) row = speeds.length - 1;
    row = Math.max(1, row);
    const part = (radPerS - speeds[row - 1]) / (speeds[row] - speeds[row - 1]);
    return Math.min(floor, Math.max(TOP, floor - (row - 1 + part) * ROW));
  };
  // The contour goes along the cells: below the first row at or above the lowest speed that the search found.
  const edge = (radPerS) => {
    const row = speeds.findIndex((speed) => radPerS <= speed * (1 + 1e-9));
    return row < 0 ? TOP : floor - row * ROW;
  };
  const speedAt = (place) => {
    const row = Math.min(speeds.length - 2, Math.max(0, Math.floor((floor - place) / ROW)));
    return Math.max(speeds[0], speeds[row] + ((floor - place) / ROW - row) * (speeds[row + 1] - speeds[row]));
  };
  const svg = shape("svg", {
    viewBox: `0 0 ${right + MARGIN} ${floor + BOTTOM}`,
    width: right + MARGIN,
    height: floor + BOTTOM,
    class: "window-map",
    role: "img",
    "aria-label": `Lowest line pressure in ${scale("pressure").label} with oil at ${text("temperature", oilC)}; ${contourWords(answer, oilC)}`,
  });
  map.rows.forEach((row, i) => {
    const top = floor - (i + 1) * ROW;
    svg.append(shape("text", { x: LEFT - 6, y: floor - i * ROW + 4, class: "end" }, number("speed", row.on_rad_per_s)));
    row.lowest.forEach((cell, c) => {
      const part = cell.pressure_pa / holdPa;
      const shade = part < 0.75 ? "deep" : part < 1 ? "low" : part < 1.1 ? "near" : part < 1.5 ? "fair" : "high";
      const x = LEFT + c * COLUMN;
      svg.append(
        shape("rect", { x, y: top, width: COLUMN, height: ROW, class: `cell ${shade}` }),
        shape("text", { x: x + COLUMN / 2, y: top + 16, class: "middle" }, `${part < 1 ? "✕ " : ""}${number("pressure", cell.pressure_pa)}`),
      );
    });
  });
  rates.forEach((rate, c) => {
    svg.append(shape("text", { x: LEFT + (c + 0.5) * COLUMN, y: floor + 16, class: "middle" }, number("speed", rate)));
  });
  svg.append(
    shape("text", { x: (LEFT + right) / 2, y: floor + 36, class: "middle" }, "how fast the shaft stops, rpm/s"),
    shape("text", { x: 2, y: 14 }, `Oil at ${text("temperature", oilC)}, by shaft speed alone: switch-on speed, rpm, upward; in the cells the lowest pressure, ${scale("pressure").label}`),
    shape("path", { class: "contour", d: contour(answer, oilC, edge) }),
  );
  key(svg, right, floor, holdPa);
  const labels = [];
  const level = (kind, radPerS, words) => {
    svg.append(shape("path", { class: `level ${kind}`, d: `M${LEFT} ${y(radPerS)}H${right}` }));
    labels.push({ kind, at: y(radPerS), words });
  };
  level("rule", answer.rule_rad_per_s, "500 rpm rule of thumb");
  level("present", what.presentOn, `build ${number("speed", what.presentOn)} rpm`);
  const { pair } = answer.window;
  if (pair) level("recommended", pair.on_rad_per_s, `recommended ${number("speed", pair.on_rad_per_s)} rpm`);
  handle(svg, "off", what.off, `▲ off above ${number("speed", what.off)}`);
  handle(svg, "on", what.on, `▼ on below ${number("speed", what.on)}`);
  write(svg, labels, right);
  const scrolled = where.scrollLeft;
  where.replaceChildren(svg);
  where.scrollLeft = scrolled;

  function handle(into, which, radPerS, words) {
    const group = shape("g", { class: `grip ${which}`, "data-handle": which });
    group.append(
      shape("path", { class: "wide", d: `M${LEFT} ${y(radPerS)}H${right}` }),
      shape("path", { class: "thin", d: `M${LEFT} ${y(radPerS)}H${right}` }),
      shape("rect", { x: right - 14, y: y(radPerS) - 9, width: 18, height: 18, rx: 3 }),
    );
    labels.push({ kind: which, at: y(radPerS), words });
    group.addEventListener("pointerdown", (press) => {
      press.preventDefault();
      // The map is drawn anew while the handle moves, so the window hears of the pointer.
      const { top, height } = where.firstElementChild.getBoundingClientRect();
      const move = (moved) => what.move(which, speedAt(((moved.clientY - top) / height) * (floor + BOTTOM)));
      const end = () => {
        removeEventListener("pointermove", move);
        removeEventListener("pointerup", end);
        removeEventListener("pointercancel", end);
        what.letGo();
      };
      addEventListener("pointermove", move);
      addEventListener("pointerup", end);
      addEventListener("pointercancel", end);
    });
    into.append(group);
  }
}

/** What the contour is, under the labels. */
function key(svg, right, floor, holdPa) {
  svg.append(
    shape("path", { class: "contour", d: `M${right + 10} ${floor + 12}h24` }),
    shape("text", { x: right + 40, y: floor + 16 }, `hold pressure ${text("pressure", holdPa)}`),
    shape("text", { x: right + 10, y: floor + 36 }, "✕ below it"),
  );
}

/** Labels beside the map, moved apart where levels lie close. */
function write(svg, labels, right) {
  labels.sort((a, b) => a.at - b.at);
  let last = -Infinity;
  for (const { kind, at, words } of labels) {
    last = Math.max(at, last + 15);
    svg.append(shape("text", { x: right + 10, y: last + 4, class: `label ${kind}` }, words));
  }
}

const stopsAt = (answer, oilC) => answer.window.stops.filter((stop) => stop.oil_c === oilC);

function contour(answer, oilC, edge) {
  return stopsAt(answer, oilC)
    .map((stop, c) => {
      const on = stop.alone.on_rad_per_s;
      return on === null ? "" : `M${LEFT + c * COLUMN} ${edge(on)}h${COLUMN}`;
    })
    .join("");
}

function contourWords(answer, oilC) {
  const all = stopsAt(answer, oilC).map((stop) => stop.alone.on_rad_per_s);
  return all.includes(null)
    ? "some stops are lost at every switch-on speed"
    : `every stop is kept from ${text("speed", Math.max(...all))} on`;
}

// What a drive's run says in words: its lanes, and the reading at one moment. A lane's value is a set of what was there.
import { activeIn } from "./now-words.js";
import { number, scale, text } from "./units.js";

/** Of switched things: 1 off, 2 on, 3 both in a stretch too short to be drawn. */
const COIL = ["", "off", "energised", "switches"];
const CONTACT = ["", "dead", "live", "switches"];

/** The words of a set, bit by bit. */
const words = (bits, names) => names.filter((name, i) => (bits >> i) & 1).join(", ");
const numbers = (codes, bits) => activeIn(codes, bits).map((code) => code.number).join(" ");

/** The last place that begins no later than a moment. */
export function placeAt(times, atS) {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] > atS + 1e-9) high = middle;
    else low = middle + 1;
  }
  return Math.max(0, low - 1);
}

/** What drawLanes draws: the last place lasts until the end of the part. */
export const lanesTimes = (lanes, endS) => ({ t: [...lanes.t, endS] });

export function lanesOf(lanes, facts) {
  const { states, permissions, codes, standbyFitted } = facts;
  const lane = (label, values, say) => ({ label, value: (i) => values[i], text: (i) => say(values[i]) });
  const switched = (label, values, names, fill) => ({ ...lane(label, values, (bits) => (bits > 1 ? names[bits] : "")), fill });
  return [
    lane("Pump state", lanes.state, (bits) => words(bits, states)),
    switched("Main coil", lanes.main, COIL, "window"),
    switched("Main contact", lanes.contact, CONTACT, "pump"),
    ...(standbyFitted ? [switched("Standby coil", lanes.standby, COIL, "window"), switched("Standby contact", lanes.standbyContact, CONTACT, "pump")] : []),
    lane("Drive", lanes.drive, (bits) => words(bits, permissions)),
    { ...lane("Codes", lanes.codes, (bits) => numbers(codes, bits)), flag: true, fill: "lost" },
  ];
}

/** The same of the run over it, as far as it says what differs. */
export function overLanesOf(lanes, facts) {
  const all = lanesOf(lanes, facts);
  const [drive, codes] = all.slice(-2);
  return [{ ...all[0], label: "Dashed: pump" }, { ...drive, label: "Dashed: drive" }, { ...codes, label: "Dashed: codes" }];
}

/** From lowest to highest, or the one value where they are the same. */
export const span = (quantity, low, high) =>
  number(quantity, low) === number(quantity, high) ? text(quantity, low) : `${number(quantity, low)} to ${text(quantity, high)}`;

const values = (part, i) => [
  ["Line pressure", span("pressure", part.pLow[i], part.pHigh[i])],
  ["Shaft speed", span("speed", part.nLow[i], part.nHigh[i])],
];

/** Every lane at one moment, as pairs of name and value. */
export function momentOf(part, atS, facts) {
  const { lanes } = part;
  const k = placeAt(lanes.t, atS);
  return [
    ["Time", `${atS.toFixed(3)} s`],
    ...values(part, placeAt(part.t, atS)),
    ["Pump state", words(lanes.state[k], facts.states)],
    ["Because", words(lanes.reason[k], facts.reasons)],
    ["Main coil", COIL[lanes.main[k]]],
    ["Main contact", CONTACT[lanes.contact[k]]],
    ...(facts.standbyFitted ? [["Standby coil", COIL[lanes.standby[k]]], ["Standby contact", CONTACT[lanes.standbyContact[k]]]] : []),
    ["Drive", words(lanes.drive[k], facts.permissions)],
    ["Codes", numbers(facts.codes, lanes.codes[k]) || "none"],
  ];
}

/** The same of the run over it, as far as it says what differs. */
export function overMomentOf(part, atS, facts) {
  if (atS > part.endS) return [["Dashed run", "is over"]];
  const k = placeAt(part.lanes.t, atS);
  return [
    ...values(part, placeAt(part.t, atS)),
    ["Pump state", words(part.lanes.state[k], facts.states)],
    ["Drive", words(part.lanes.drive[k], facts.permissions)],
    ["Codes", numbers(facts.codes, part.lanes.codes[k]) || "none"],
  ].map(([name, value]) => [`Dashed: ${name.toLowerCase()}`, value]);
}

/** Lowest and highest of what is in sight. */
export function inSight(part, fromS, toS) {
  const first = placeAt(part.t, fromS);
  const end = placeAt(part.t, toS) + 1;
  const least = (list) => list.slice(first, end).reduce((a, b) => Math.min(a, b), Infinity);
  const most = (list) => list.slice(first, end).reduce((a, b) => Math.max(a, b), -Infinity);
  return `In sight of the solid run: line pressure ${span("pressure", least(part.pLow), most(part.pHigh))}, shaft speed ${span("speed", least(part.nLow), most(part.nHigh))}.`;
}

/** How the lowest pressures of two runs differ, in a sentence. */
export function compared(run, over) {
  if (run.lowestPa === null || over.lowestPa === null) return "In one of the runs no element was ever engaged, so their lowest pressures cannot be compared.";
  const [here, there] = [text("pressure", run.lowestPa), text("pressure", over.lowestPa)];
  // Of the numbers that stand there, so that they add up.
  const by = Number(number("pressure", over.lowestPa)) - Number(number("pressure", run.lowestPa));
  const { digits, label } = scale("pressure");
  const difference = here === there ? "no difference" : `${Math.abs(by).toFixed(digits)} ${label} ${by < 0 ? "lower" : "higher"}`;
  return `Lowest line pressure with an element engaged: ${here} in the solid run, ${there} in the dashed one: ${difference}.`;
}

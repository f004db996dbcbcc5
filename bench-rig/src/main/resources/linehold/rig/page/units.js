// Numbers for people. SI comes in; what a person reads is metric or US, remembered by the browser.
const METRIC = {
  pressure: { label: "bar", factor: 1e-5, digits: 2 },
  speed: { label: "rpm", factor: 30 / Math.PI, digits: 0 },
  torque: { label: "N·m", factor: 1, digits: 0 },
  temperature: { label: "°C", factor: 1, digits: 0 },
  roadSpeed: { label: "km/h", factor: 3.6, digits: 0 },
  voltage: { label: "V", factor: 1, digits: 1 },
  time: { label: "s", factor: 1, digits: 1 },
};
const US = {
  pressure: { label: "psi", factor: 1 / 6894.757293168361, digits: 1 },
  speed: METRIC.speed,
  torque: { label: "lbf·ft", factor: 1 / 1.3558179483314004, digits: 0 },
  temperature: { label: "°F", factor: 1.8, offset: 32, digits: 0 },
  roadSpeed: { label: "mph", factor: 1 / 0.44704, digits: 0 },
  voltage: METRIC.voltage,
  time: METRIC.time,
};

let us = localStorage.getItem("units") === "us";

export const unitsAreUs = () => us;

export function setUs(value) {
  us = value;
  localStorage.setItem("units", value ? "us" : "metric");
}

export const scale = (quantity) => (us ? US : METRIC)[quantity];

export const toUnit = (quantity, si) => {
  const { factor, offset = 0 } = scale(quantity);
  return si === null || si === undefined ? null : si * factor + offset;
};

/** A number without its unit; what is not known is a dash. */
export function number(quantity, si) {
  const value = toUnit(quantity, si);
  if (value === null || !Number.isFinite(value)) return "–";
  const text = value.toFixed(scale(quantity).digits);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

export const text = (quantity, si) => {
  const n = number(quantity, si);
  return n === "–" ? n : `${n} ${scale(quantity).label}`;
};

/** What typed text such as "770 rpm" is in SI, in any unit of that quantity; null where it is none. */
export function siOf(quantity, typed) {
  const [, digits, label] = /^([0-9]+(?:\.[0-9]+)?) ?(\S+)$/.exec(typed ?? "") ?? [];
  const unit = [METRIC, US].map((system) => system[quantity]).find((one) => one.label === label);
  return unit ? (Number(digits) - (unit.offset ?? 0)) / unit.factor : null;
}

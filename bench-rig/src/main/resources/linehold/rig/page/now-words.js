// What the live view says of a tick: its lanes and the reading at the cursor.
import { text } from "./units.js";

/** Bits above 31 are beyond what JavaScript's own bit operators reach. */
export const activeIn = (list, bits) => (bits ? list.filter((one) => Math.floor(bits / 2 ** one.bit) % 2 === 1) : []);

const volts = (value) => (value === null ? "–" : `${value.toFixed(1)} V`);

/** The voltage behind a contact counts as the controller counts it, beside the supply or its usual value. */
const closed = ({ contactClosedFraction, nominalBusV }, contactV, busV) => contactV !== null && contactV > contactClosedFraction * (busV ?? nominalBusV);

export function lanesOf(columns, facts) {
  const { states, permissions, codes, standbyFitted } = facts;
  const coil = (label, values) => ({ label, value: (i) => values[i], text: (i) => (values[i] ? "energised" : ""), fill: "window" });
  const contact = (label, values) => {
    const live = (i) => closed(facts, values[i], columns.bus[i]);
    return { label, value: live, text: (i) => (live(i) ? "live" : ""), fill: "pump" };
  };
  return [
    { label: "Pump state", value: (i) => columns.state[i], text: (i) => states[columns.state[i]] },
    coil("Main coil", columns.main),
    contact("Main contact", columns.mainV),
    ...(standbyFitted ? [coil("Standby coil", columns.standby), contact("Standby contact", columns.standbyV)] : []),
    { label: "Drive", value: (i) => columns.drive[i], text: (i) => permissions[columns.drive[i]] },
    {
      label: "Codes", value: (i) => columns.codes[i], flag: true, fill: "lost",
      text: (i) => activeIn(codes, columns.codes[i]).map((code) => code.number).join(" "),
    },
  ];
}

/** Every lane at one sample, as pairs of name and value. */
export function momentOf(columns, i, facts) {
  const { states, reasons, permissions, codes, standbyFitted } = facts;
  const coil = (on) => (on ? "energised" : "off");
  const at = (name) => columns[name][i];
  if (at("state") === null) return [["Time", `${at("t").toFixed(3)} s`], ["Ticks", "missed here"]];
  return [
    ["Time", `${at("t").toFixed(3)} s`],
    ["Line pressure", text("pressure", at("p"))],
    ["Shaft speed", text("speed", at("n"))],
    ["Pump state", states[at("state")]],
    ["Because", reasons[at("reason")]],
    ["Main coil", coil(at("main"))],
    ["Main contact", volts(at("mainV"))],
    ...(standbyFitted ? [["Standby coil", coil(at("standby"))], ["Standby contact", volts(at("standbyV"))]] : []),
    ["Drive", at("drive") === 1 ? `${permissions[1]} to ${text("torque", at("limit"))}` : permissions[at("drive")]],
    ["Oil", text("temperature", at("oil"))],
    ["Codes", activeIn(codes, at("codes")).map((code) => code.number).join(" ") || "none"],
    ["Tick late by", `${(at("late") * 1e3).toFixed(2)} ms`],
  ];
}

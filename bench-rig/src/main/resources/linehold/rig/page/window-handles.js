// The handles of the window: the browser's own sliders, so that keyboard and screen reader have them too. What is shown is
// what is sent and saved: text with its unit.
import { element } from "./dom.js";
import { number, scale, siOf, text, toUnit } from "./units.js";

const STEP = { rpm: 5, s: 0.1, bar: 0.05, psi: 0.5 };
/** A handle ends where nobody needs more; the controller's own bounds are wider. */
const HANDLES = {
  "switch-on-speed": { short: "on", title: "Switch-on speed", most: "1500 rpm", means: "Below it the electric pump runs" },
  "switch-off-speed": { short: "off", title: "Switch-off speed", most: "2000 rpm", means: "Above it the internal pump may carry alone" },
  "minimum-run-time": { short: "run", title: "Minimum run time", most: "20 s", means: "Once on, the electric pump runs at least so long" },
  "help-pressure": { short: "help", title: "Help pressure", most: "10 bar", means: "Below it the electric pump helps at any speed; 0 turns this off" },
};

export class Handles {
  #rows = new Map();
  #typed = new Map();

  /** @param given what the server says of each: key, quantity, least and present value */
  constructor(where, given, state, { moved, letGo }) {
    this.given = given;
    this.moved = moved;
    for (const one of given) {
      const typed = state.get(HANDLES[one.key].short);
      if (siOf(one.quantity, typed) !== null) this.#typed.set(one.key, typed);
    }
    where.append(...given.map((one) => this.#row(one, letGo)));
    this.#mark();
  }

  #row(one, letGo) {
    const { short, title, most, means } = HANDLES[one.key];
    const step = STEP[scale(one.quantity).label];
    const output = element("output", { for: `handle-${short}` });
    const input = element("input", {
      type: "range",
      id: `handle-${short}`,
      min: number(one.quantity, one.least),
      max: Math.floor(toUnit(one.quantity, siOf(one.quantity, most)) / step) * step,
      step,
      "aria-describedby": `why-${short}`,
      oninput: () => this.move(one.key, toSi(one.quantity, Number(input.value))),
      onchange: letGo,
    });
    this.#rows.set(one.key, { one, input, output });
    return element(
      "div",
      { class: "handle" },
      element("label", { for: input.id }, title),
      input,
      output,
      element("p", { class: "quiet", id: `why-${short}` }, `${means}; the build has ${text(one.quantity, one.present)}.`),
    );
  }

  si(key) {
    const { one } = this.#rows.get(key);
    return this.#typed.has(key) ? siOf(one.quantity, this.#typed.get(key)) : one.present;
  }

  /** Moves a handle to the nearest place that can be shown. */
  move(key, si) {
    const { one } = this.#rows.get(key);
    const step = STEP[scale(one.quantity).label];
    const place = Math.round(toUnit(one.quantity, si) / step) * step;
    this.#put(one, `${place.toFixed(scale(one.quantity).digits)} ${scale(one.quantity).label}`);
    this.#mark();
    this.moved();
  }

  #put(one, typed) {
    if (typed === text(one.quantity, one.present)) this.#typed.delete(one.key);
    else this.#typed.set(one.key, typed);
  }

  /** All as the build has them, or some others by key in SI. */
  set(values = {}) {
    if (!Object.keys(values).length) this.#typed.clear();
    for (const [key, si] of Object.entries(values)) {
      const { one } = this.#rows.get(key);
      this.#put(one, text(one.quantity, si));
    }
    this.#mark();
    this.moved();
  }

  #mark() {
    for (const { one, input, output } of this.#rows.values()) {
      const words = text(one.quantity, this.si(one.key));
      input.value = toUnit(one.quantity, this.si(one.key));
      output.textContent = words;
      input.setAttribute("aria-valuetext", words);
    }
  }

  /** What differs from the build, as it is sent: "770 rpm" by key. */
  typed = () => Object.fromEntries(this.#typed);

  /** The same by the short names of the address. */
  state = () => Object.fromEntries([...this.#typed].map(([key, typed]) => [HANDLES[key].short, typed]));
}

const toSi = (quantity, shown) => siOf(quantity, `${shown} ${scale(quantity).label}`);

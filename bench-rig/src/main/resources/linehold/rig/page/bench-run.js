// One procedure as it runs: its step, what is measured, what is asked, what was found.
import { ask, send } from "./api.js";
import { element } from "./dom.js";
import { key } from "./bench-key.js";
import { number, scale, text, toUnit } from "./units.js";

/** Units of findings that the person's choice of units changes. */
const QUANTITIES = { bar: "pressure", psi: "pressure", "°C": "temperature", "°F": "temperature" };
const VERDICTS = { pass: "✓ pass", fail: "✗ out of limits", information: "for information" };
const OUTCOMES = { pass: "✓ Passed", fail: "✗ Failed", stopped: "■ Stopped" };
const amps = (value) => (value === null ? "–" : `${value.toFixed(1)} A`);

export class BenchRun {
  #about;
  #shownStep = null;
  #shownAsk = null;
  #findings = 0;
  #procedure = null;

  /** @param about what the bench says of itself */
  constructor(where, about, onState) {
    this.#about = about;
    this.onState = onState;
    this.where = where;
    this.title = element("h2", { tabindex: "-1", id: "bench-title" });
    this.step = element("p", { id: "bench-step", role: "status" });
    this.instruction = element("p", { id: "bench-instruction" });
    this.time = element("p", { class: "quiet", id: "bench-time" });
    this.answers = element("div", { class: "answers" });
    this.problem = element("p", { class: "bad", role: "alert" });
    this.outcome = element("p", { id: "bench-outcome", role: "status" });
    this.found = element("ol", { class: "found", role: "list", "aria-label": "What was found, the last first" });
    this.value = {};
    const limits = about.limits;
    const figures = element(
      "dl",
      { class: "figures" },
      [
        ["shaft", "Shaft speed", ""],
        ["line", "Line pressure", `at most ${text("pressure", limits.highestPa)}`],
        ["amps", "Pump current", `stalled: ${amps(limits.stalledAmps)}`],
        ["oil", "Oil", `at most ${text("temperature", limits.hottestC)}`],
      ].map(([name, title, limit]) => {
        this.value[name] = element("dd", { id: `bench-${name}` }, "–");
        return element("div", {}, element("dt", {}, title), this.value[name], limit ? element("dd", { class: "limit" }, limit) : null);
      }),
    );
    where.append(this.title, this.step, this.instruction, this.answers, this.problem, this.outcome, figures, this.time, this.found);
  }

  show(state) {
    const { values } = state;
    this.value.shaft.textContent = text("speed", values.shaftRadPerS);
    this.value.line.textContent = text("pressure", values.linePa);
    this.value.amps.textContent = amps(values.amps);
    this.value.oil.textContent = text("temperature", values.oilC);
    const known = this.#about.procedures.find((one) => one.key === state.procedure);
    this.title.textContent = known ? known.title : state.busy ? "Beginning …" : "No procedure has run yet";
    if (state.procedure !== this.#procedure || state.findings.length < this.#findings) {
      this.#procedure = state.procedure;
      this.#findings = 0;
      this.found.replaceChildren();
      this.problem.textContent = "";
    }
    for (; this.#findings < state.findings.length; this.#findings++) {
      this.found.prepend(finding(state.findings[this.#findings]));
    }
    this.#showStep(state.step);
    this.#showOutcome(state);
  }

  #showStep(step) {
    const name = step ? `${this.#procedure} ${step.number}` : "";
    if (name !== this.#shownStep) {
      this.#shownStep = name;
      this.step.textContent = step ? `Step ${step.number} of ${step.of}: ${step.title}` : "";
      this.instruction.textContent = step?.instruction ?? "";
      this.problem.textContent = "";
    }
    this.time.textContent = step ? `${Math.floor(step.forS)} s in this step, ${Math.round(step.longestS)} s at most` : "";
    const asked = step?.question ? `${step.question} ${step.handDone} ${key.mine}` : "";
    if (asked !== this.#shownAsk) {
      this.#shownAsk = asked;
      const focused = this.answers.contains(document.activeElement);
      const typed = this.answers.querySelector("input")?.value ?? "";
      this.answers.replaceChildren(...(step?.question ? this.#answers(step) : []));
      const input = this.answers.querySelector("input");
      if (input) input.value = typed;
      // A button that has gone must not leave the keyboard nowhere.
      if (focused) (this.answers.querySelector("input, button:enabled") ?? this.title).focus();
    }
  }

  #showOutcome({ result, records, busy }) {
    this.outcome.hidden = !result || busy;
    if (this.outcome.hidden) return;
    const [last] = records;
    const words = `${OUTCOMES[result.outcome]}${result.sentence ? `: ${result.sentence}` : "."} ${last ? (last.file ? `Record: ${last.file}` : `No record: ${last.problem}`) : ""}`;
    if (this.outcome.textContent === words) return;
    this.outcome.textContent = words;
    this.outcome.className = result.outcome === "pass" ? "good" : "bad";
  }

  #answers(step) {
    if (!key.mine) return [element("p", { class: "quiet" }, "Whoever holds the bench key answers this.")];
    const button = (words, answer) =>
      element("button", { type: "button", class: "large", disabled: !step.handDone, onclick: () => this.#answer(step, answer()) }, words);
    const parts = [];
    if (step.ask === "confirm") parts.push(button("It is so", () => ({ yes: true })));
    if (step.ask === "yes-no") parts.push(button("Yes", () => ({ yes: true })), button("No", () => ({ yes: false })));
    if (step.quantity) parts.push(...this.#entry(step, button));
    if (!step.handDone) parts.push(element("p", { class: "quiet" }, "The simulated hand is turning the shaft …"));
    return parts;
  }

  #entry(step, button) {
    const { label, digits } = scale(step.quantity);
    const input = element("input", { type: "text", inputmode: "decimal", autocomplete: "off", id: "bench-number", size: "7" });
    const enter = button("Enter", () => ({ typed: `${input.value.trim().replace(",", ".")} ${label}` }));
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !enter.disabled) enter.click();
    });
    const what = step.quantity === "pressure" ? "The gauge shows" : "The oil has";
    const parts = [element("label", { for: "bench-number" }, `${what}, in ${label}`), input, enter];
    if (step.gauge !== null) {
      const read = async () => {
        const now = (await ask("/api/bench/state")).step?.gauge;
        if (now !== undefined && now !== null) input.value = toUnit(step.quantity, now).toFixed(digits);
      };
      parts.push(element("button", { type: "button", class: "large", onclick: () => read().catch(() => {}) }, "Read the simulated gauge"));
    }
    return parts;
  }

  async #answer(step, answer) {
    this.problem.textContent = "";
    try {
      this.onState(await send("/api/bench/answer", { secret: key.secret, question: step.question, ...answer }));
    } catch (problem) {
      this.problem.textContent = problem.message;
    }
  }
}

function finding({ title, value, least, most, unit, text: shown, limit, verdict }) {
  const quantity = QUANTITIES[unit];
  const words = quantity ? text(quantity, value) : shown;
  return element(
    "li",
    {},
    element("span", { class: "what" }, title),
    element("span", { class: "measured" }, words),
    element("span", { class: "quiet" }, quantity ? limits(quantity, least, most) : limit),
    element("strong", { class: { pass: "good", fail: "bad", information: "quiet" }[verdict] }, VERDICTS[verdict]),
  );
}

function limits(quantity, least, most) {
  if (least !== null && most !== null) return `${number(quantity, least)} to ${text(quantity, most)}`;
  return least !== null ? `≥ ${text(quantity, least)}` : most !== null ? `≤ ${text(quantity, most)}` : "";
}

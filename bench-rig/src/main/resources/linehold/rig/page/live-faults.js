// Faults put into the running simulated car, and cleared again. Beside a board the server refuses, and says why.
import { ask, send } from "./api.js";
import { sayFaults } from "./car-faults.js";
import { element } from "./dom.js";

const EVERY_MS = 1000;

const STATES = { coming: "begins at the next tick", present: "is there now", going: "ends at the next tick" };

export class LiveFaults {
  #timer = null;
  #closed = false;
  #shown = null;

  constructor(where) {
    this.heading = element("h2", { id: "live-faults" }, "Live: a fault in the simulated car");
    this.choice = element("select", { "aria-label": "Fault to put in" });
    this.put = element("button", { type: "button", disabled: true, onclick: () => this.#wish(this.choice.value, true) }, "Put it in");
    this.tools = element("div", { class: "tools" }, this.choice, this.put, element("a", { href: "#/now" }, "Watch it under Now"));
    this.list = element("ul", { class: "codes", role: "list", "aria-label": "Faults in the car" });
    this.status = element("p", { role: "status", class: "quiet" });
    where.append(this.heading, this.tools, this.list, this.status);
    this.#follow();
  }

  async #follow() {
    try {
      this.#show(await ask("/api/live-faults"));
    } catch (problem) {
      this.#refused(problem);
    }
    if (!this.#closed) this.#timer = setTimeout(() => this.#follow(), EVERY_MS);
  }

  #refused(problem) {
    this.#shown = null;
    this.put.disabled = true;
    this.list.replaceChildren();
    this.status.textContent = problem.message;
  }

  async #wish(fault, present) {
    try {
      this.#show(await send("/api/live-faults", { fault, present }));
    } catch (problem) {
      this.status.textContent = problem.message;
    }
  }

  #show(kinds) {
    if (this.#closed) return;
    sayFaults(kinds);
    this.put.disabled = false;
    if (!this.choice.options.length) this.#offer(kinds);
    const there = kinds.filter((kind) => kind.state !== "absent");
    const now = there.map((kind) => `${kind.fault} ${kind.state}`).join();
    if (now === this.#shown) return;
    this.#shown = now;
    this.status.textContent = there.length ? `${there.length} ${there.length === 1 ? "fault" : "faults"} in the car` : "No fault in the car.";
    const held = document.activeElement?.dataset?.fault;
    this.list.replaceChildren(...there.map((kind) => this.#line(kind)));
    if (held) (this.list.querySelector(`[data-fault="${held}"]`) ?? this.choice).focus();
  }

  #offer(kinds) {
    for (const part of new Set(kinds.map((kind) => kind.part))) {
      const options = kinds
        .filter((kind) => kind.part === part)
        .map((kind) => {
          const more = [kind.size, kind.lastsS === null ? "" : `lasts ${kind.lastsS} s`].filter(Boolean).join(", ");
          return element("option", { value: kind.fault }, more ? `${kind.title} (${more})` : kind.title);
        });
      this.choice.append(element("optgroup", { label: part }, options));
    }
  }

  #line(kind) {
    return element(
      "li",
      {},
      `${kind.title} ${STATES[kind.state]} `,
      element("button", { type: "button", "data-fault": kind.fault, "aria-label": `Clear: ${kind.title}`, onclick: () => this.#wish(kind.fault, false) }, "Clear"),
    );
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
  }
}

// Drives: the verdict on each, and its whole run down to single samples.
import { ask } from "./api.js";
import { element } from "./dom.js";
import { DriveRun } from "./drive-run.js";
import { text } from "./units.js";

const AGAIN_MS = 700;

export function open(view, page) {
  return new Drives(view, page);
}

class Drives {
  #facts;
  #remember;
  #state;
  #drives = [];
  #oils = [];
  #timer = 0;
  #closed = false;

  constructor(view, { facts, state, remember }) {
    this.#facts = facts;
    this.#remember = remember;
    this.#state = Object.fromEntries(state);
    this.status = element("p", { role: "status" }, "The drives are being proved …");
    this.table = element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Drives and verdicts" });
    this.place = element("section", { "aria-label": "The run" });
    view.append(element("h1", {}, "Drives"), this.status, this.table, this.place);
    this.#load();
  }

  async #load() {
    try {
      const { oilC, drives } = await ask("/api/drives");
      if (this.#closed) return;
      const first = this.#drives.length === 0;
      this.#oils = oilC;
      this.#drives = drives;
      const open = drives.filter((drive) => !drive.runs).length;
      this.status.textContent = open ? `${open} of ${drives.length} drives are being proved …` : this.#sum();
      this.#list();
      this.run?.judgedAnew();
      if (first && this.#state.drive) this.#openRun(this.#state);
      if (open) this.#timer = setTimeout(() => this.#load(), AGAIN_MS);
    } catch (problem) {
      this.status.textContent = problem.message;
    }
  }

  #sum() {
    const lost = this.#drives.filter((drive) => drive.runs.some((run) => !run.held)).length;
    return lost ? `${lost} of ${this.#drives.length} drives lost.` : `All ${this.#drives.length} drives held.`;
  }

  #list() {
    const focused = document.activeElement?.id;
    const head = element("tr", {}, element("th", { scope: "col" }, "Drive"),
      this.#oils.map((oil) => element("th", { scope: "col" }, `oil at ${text("temperature", oil)}`)));
    this.table.replaceChildren(
      element("table", {}, element("thead", {}, head), element("tbody", {}, this.#drives.map((drive) => this.#row(drive)))),
    );
    if (focused) document.getElementById(focused)?.focus();
  }

  #row(drive) {
    return element("tr", {}, element("th", { scope: "row", title: drive.source }, drive.name),
      this.#oils.map((oil, i) => {
        const run = drive.runs?.[i];
        const verdict = run ? (run.held ? "held" : "LOST") : "…";
        const low = run ? ` ${text("pressure", run.lowestPa)}` : "";
        return element("td", {}, element("button", {
          type: "button", id: `run-${drive.name}-${i}`, class: run ? (run.held ? "good" : "bad") : null,
          "aria-label": `${drive.name} at ${text("temperature", oil)}: ${run ? verdict : "being proved"}${low}, open`,
          onclick: () => this.#choose({ drive: drive.name, oil }),
        }, verdict + low));
      }));
  }

  #choose(state) {
    this.#openRun(state);
    this.place.scrollIntoView({ block: "start" });
  }

  #openRun(state) {
    this.run?.close();
    this.run = new DriveRun(this.place, {
      facts: this.#facts,
      oils: this.#oils,
      state,
      judged: (oil) => this.#drives.find((one) => one.name === state.drive)?.runs?.find((run) => run.oilC === oil),
      keep: this.#remember,
    });
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.run?.close();
  }
}

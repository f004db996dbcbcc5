// Drives: the demonstration drives and own logs, the verdict on each, and its whole run down to single samples.
import { ask } from "./api.js";
import { element } from "./dom.js";
import { DriveRun } from "./drive-run.js";
import { LogMapping } from "./log-mapping.js";
import { Logs } from "./logs.js";
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
  #listed = "";
  #timer = 0;
  #closed = false;

  constructor(view, { facts, state, remember }) {
    this.#facts = facts;
    this.#remember = remember;
    this.#state = Object.fromEntries(state);
    this.status = element("p", { role: "status" }, "The drives are being proved …");
    this.refused = element("div", { role: "alert" });
    this.table = element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Drives and verdicts" });
    this.columns = element("section", { "aria-label": "Columns of a log" });
    this.place = element("section", { "aria-label": "The run" });
    const own = element("section", { "aria-label": "Own logs" });
    this.logs = new Logs(own, { changed: (file) => this.#changed(file) });
    const lead = element("p", { class: "lead" },
      "Each drive on paper with this build, at each oil temperature: held, where line pressure stays above the hold pressure under every engaged "
      + "element, or lost. The figure is the lowest of it. Press one to see its whole run.");
    view.append(element("h1", {}, "Drives"), lead, own, this.status, this.refused, this.columns, this.table, this.place);
    this.#begin();
  }

  async #begin() {
    await this.#load();
    if (this.#closed) return;
    if (this.#state.drive) this.#openRun(this.#state);
    if (this.logs.list.some((log) => log.file === this.#state.columns)) this.#openColumns(this.#state.columns);
  }

  async #load() {
    clearTimeout(this.#timer);
    try {
      await this.logs.load();
      const { oilC, drives } = await ask("/api/drives");
      if (this.#closed) return;
      this.#oils = oilC;
      this.#drives = drives;
      const open = drives.filter(isOpen).length;
      this.status.textContent = open ? `${open} of ${drives.length} drives are being proved …` : this.#sum();
      this.#list();
      clearTimeout(this.#timer);
      if (open) this.#timer = setTimeout(() => this.#load(), AGAIN_MS);
    } catch (problem) {
      this.status.textContent = problem.message;
    }
  }

  /** A log has come; null where one has gone. */
  async #changed(file) {
    await this.#load();
    if (this.#closed) return;
    const log = this.logs.list.find((one) => one.file === file);
    if (log?.problem && !log.mapped) this.#openColumns(file);
    if (this.form && !this.logs.list.some((one) => one.file === this.form.file)) this.#closeColumns();
    if (this.run && !this.#drives.some((one) => one.name === this.run.drive)) this.#closeRun();
  }

  #sum() {
    const judged = this.#drives.filter((drive) => drive.runs);
    const lost = judged.filter((drive) => drive.runs.some((run) => !run.held)).length;
    const refused = this.#drives.length - judged.length;
    return (lost ? `${lost} of ${judged.length} drives lost.` : `All ${judged.length} drives held.`) + (refused ? ` ${refused} cannot be proved.` : "");
  }

  /** Why logs cannot be proved, in the words of the command; told anew only where it is new. */
  #tellRefused() {
    const sentences = [
      ...this.logs.list.filter((log) => log.problem && log.mapped).map((log) => log.problem),
      ...this.#drives.map((drive) => drive.problem).filter((problem) => problem),
    ];
    if (sentences.join("\n") === this.told) return;
    this.told = sentences.join("\n");
    this.refused.replaceChildren(...sentences.map((sentence) => element("p", { class: "bad" }, sentence)));
  }

  #list() {
    this.#tellRefused();
    const listed = JSON.stringify([this.#drives.map((drive) => ({ ...drive, progress: 0 })), this.logs.list]);
    // A button that is replaced while it is pressed does nothing: the list is made again only where it has changed.
    if (listed !== this.#listed) {
      this.#listed = listed;
      this.#rows();
    }
    for (const drive of this.#drives.filter(isOpen)) {
      for (const words of this.table.querySelectorAll(`[data-progress="${CSS.escape(drive.name)}"]`)) {
        words.textContent = drive.progress > 0 ? `${Math.floor(drive.progress * 100)} %` : "…";
      }
    }
  }

  #rows() {
    const focused = document.activeElement?.id;
    const head = element("tr", {}, element("th", { scope: "col" }, "Drive"),
      this.#oils.map((oil) => element("th", { scope: "col" }, `oil at ${text("temperature", oil)}`)));
    const nameless = this.logs.list.filter((log) => log.problem);
    this.table.replaceChildren(element("table", {}, element("thead", {}, head),
      element("tbody", {}, this.#drives.map((drive) => this.#row(drive)), nameless.map((log) => this.#refusedRow(log.file,
        log.mapped ? "cannot be read" : "its columns are not named yet")))));
    if (focused) document.getElementById(focused)?.focus();
  }

  #row(drive) {
    if (drive.problem) return this.#refusedRow(drive.name, "cannot be proved");
    return element("tr", {}, this.#name(drive.name, drive.log, drive.source),
      this.#oils.map((oil, i) => {
        const run = drive.runs?.[i];
        const low = run ? ` ${text("pressure", run.lowestPa)}` : "";
        const verdict = run ? (run.held ? "held" : "LOST") : element("span", { "data-progress": drive.name }, "…");
        return element("td", {}, element("button", {
          type: "button", id: `run-${drive.name}-${i}`, class: run ? (run.held ? "good" : "bad") : null,
          "aria-label": `${drive.name} at ${text("temperature", oil)}: ${run ? verdict : "being proved"}${low}, open`,
          onclick: () => this.#choose({ drive: drive.name, oil }),
        }, verdict, low));
      }));
  }

  #refusedRow(file, why) {
    return element("tr", {}, this.#name(file, true, file), element("td", { colspan: String(this.#oils.length), class: "bad" }, `✗ ${why}`));
  }

  #name(name, isLog, source) {
    const tool = (id, words, act) => element("button", { type: "button", id: `${id}-${name}`, class: "opener", "aria-label": `${words} of ${name}`, onclick: act }, words);
    return element("th", { scope: "row", title: source }, name, isLog
      ? element("div", { class: "row-tools" }, tool("columns", "Columns", () => this.#openColumns(name)),
        element("button", { type: "button", id: `remove-${name}`, class: "opener", "aria-label": `Remove ${name}`, onclick: () => this.logs.remove(name) }, "Remove"))
      : null);
  }

  #openColumns(file) {
    this.#closeColumns();
    this.form = new LogMapping(this.columns, {
      file,
      fields: this.logs.fields,
      done: (kept) => {
        this.#closeColumns();
        document.getElementById(`columns-${file}`)?.focus();
        if (kept) this.#closeRunOf(file);
        this.#changed(null);
      },
    });
    this.form.file = file;
    this.#remember({ columns: file });
  }

  #closeColumns() {
    if (!this.form) return;
    this.form.close();
    this.form = null;
    this.#remember({});
  }

  #choose(state) {
    this.#closeColumns();
    this.#openRun(state);
    this.place.scrollIntoView({ block: "start" });
  }

  #openRun(state) {
    this.run?.close();
    this.run = new DriveRun(this.place, {
      facts: this.#facts,
      oils: this.#oils,
      state,
      keep: this.#remember,
    });
    this.run.drive = state.drive;
  }

  /** What is drawn was made with other columns. */
  #closeRunOf(file) {
    if (this.run?.drive === file) this.#closeRun();
  }

  #closeRun() {
    this.run.close();
    this.run = null;
    this.place.replaceChildren();
    this.#remember({});
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.logs.close();
    this.form?.close();
    this.run?.close();
  }
}

const isOpen = (drive) => !drive.runs && !drive.problem;

// The fault campaign as a table, one run of it in charts, and faults put into the running simulated car.
import { ask, send } from "./api.js";
import { element } from "./dom.js";
import { FaultRun } from "./fault-run.js";
import { LiveFaults } from "./live-faults.js";
import { text, unitsAreUs } from "./units.js";

const PROGRESS_MS = 500;
const seconds = (s) => (s === null ? "–" : `${s.toFixed(3)} s`);

/** What each column shows, and what it is sorted by; nothing known comes last. */
const COLUMNS = [
  { key: "fault", title: "Fault", show: (row) => row.title, by: (row) => row.title },
  { key: "part", title: "Part", show: (row) => row.part, by: (row) => row.part },
  { key: "phase", title: "Phase", show: (row) => row.phaseTitle, by: (row) => row.phaseRank },
  { key: "oil", title: "Oil", n: true, show: (row) => text("temperature", row.oilC), by: (row) => row.oilC },
  { key: "class", title: "Class", show: (row, words) => words[row.rank], by: (row) => row.rank },
  { key: "claimed", title: "Claimed", show: (row) => (row.claimed ? "yes" : "no"), by: (row) => (row.claimed ? 0 : 1) },
  { key: "noticed", title: "Noticed after", n: true, show: (row) => seconds(row.noticedAfterS), by: (row) => row.noticedAfterS },
  { key: "slip", title: "Slip after", n: true, show: (row) => seconds(row.slipAfterS), by: (row) => row.slipAfterS },
  { key: "lowest", title: "Lowest pressure", n: true, show: (row) => text("pressure", row.lowestPa), by: (row) => row.lowestPa },
  { key: "highest", title: "Highest pressure", n: true, show: (row) => text("pressure", row.highestPa), by: (row) => row.highestPa },
  { key: "codes", title: "Codes", show: (row) => row.codes.join(" ") || "none", by: (row) => row.codes.join(" ") },
];

const nameOf = (row) => `${row.fault}@${row.phase}@${row.oilC}`;

export function open(view, page) {
  return new Faults(view, page);
}

class Faults {
  #page;
  #values;
  #rows = [];
  #outcomes = [];
  #timer = null;
  #closed = false;
  #run = null;
  #live = null;

  constructor(view, page) {
    this.#page = page;
    this.#values = Object.fromEntries(page.state);
    this.status = element("p", { role: "status" });
    this.start = element("button", { type: "button", hidden: true, onclick: () => this.#start() }, "Try every fault");
    this.bar = element("progress", { hidden: true, "aria-label": "Runs made" });
    this.story = element("section", { "aria-label": "One run" });
    this.table = element("div", {});
    const lead = element("p", { class: "lead" },
      "What happens when a part breaks: whether the clutches slip, and whether the controller notices in time. Nothing here touches a real car.");
    const parts = [element("h1", {}, "Faults"), lead];
    if (page.facts.rig) {
      const live = element("section", { "aria-labelledby": "live-faults" });
      this.#live = new LiveFaults(live);
      parts.push(live);
    }
    view.append(
      ...parts,
      element("h2", {}, "On paper: every fault in every phase of driving"),
      element("div", { class: "tools" }, this.start, this.bar, this.status),
      this.story,
      this.table,
    );
    this.#load();
    if (this.#values.run) this.#open(this.#values.run, false);
  }

  #remember(values) {
    Object.assign(this.#values, values);
    for (const [key, value] of Object.entries(this.#values)) if (!value) delete this.#values[key];
    this.#page.remember(this.#values);
  }

  async #load() {
    try {
      const { progress, outcomes, rows } = await ask("/api/faults");
      if (this.#closed) return;
      this.#outcomes = outcomes;
      this.#rows = rows;
      this.#progress(progress);
      if (rows.length) this.#build();
    } catch (problem) {
      this.#say(problem.message, true);
    }
  }

  async #start() {
    this.start.hidden = true;
    try {
      this.#progress(await send("/api/faults/start", {}));
    } catch (problem) {
      this.start.hidden = false;
      this.#say(problem.message, true);
    }
  }

  #progress({ state, done, steps, problem }) {
    this.start.hidden = state === "running" || state === "done";
    this.bar.hidden = state !== "running";
    this.bar.max = steps;
    this.bar.value = done;
    const words = {
      idle: `${steps} runs, alone and beside silent faults; ${
        this.#page.facts.rig
          ? "beside this rig they leave the ticks a core. ./linehold page makes them in a program of its own"
          : "well under a minute on an idle machine"
      }.`,
      running: `Trying faults: ${done} of ${steps} runs`,
      done: "The table of linehold faults, single faults; open one to see its run.",
      failed: problem,
    };
    this.#say(words[state], state === "failed");
    if (state === "running") this.#timer = setTimeout(() => this.#follow(), PROGRESS_MS);
  }

  async #follow() {
    try {
      const progress = await ask("/api/faults/progress");
      if (this.#closed) return;
      if (progress.state === "done") await this.#load();
      else this.#progress(progress);
    } catch (problem) {
      if (this.#closed) return;
      this.#say(`${problem.message} Trying again …`, true);
      this.#timer = setTimeout(() => this.#follow(), PROGRESS_MS * 4);
    }
  }

  #say(words, bad) {
    this.status.textContent = words;
    this.status.className = bad ? "bad" : "quiet";
  }

  #build() {
    const choose = (key, label, all, words) => {
      const select = element("select", { onchange: () => this.#choose(key, select.value) });
      select.append(element("option", { value: "" }, all), ...words.map((word) => element("option", { value: word, selected: word === this.#values[key] }, word)));
      return element("label", {}, `${label} `, select);
    };
    this.count = element("span", { role: "status", class: "quiet" });
    this.heads = COLUMNS.map((column) =>
      element("th", { scope: "col", class: column.n ? "n" : null }, element("button", { type: "button", class: "sort", onclick: () => this.#sort(column.key) }, column.title)),
    );
    this.body = element("tbody", {});
    this.table.replaceChildren(
      element(
        "div",
        { class: "tools" },
        choose("class", "Class", "every class", this.#outcomes),
        choose("part", "Part", "every part", [...new Set(this.#rows.map((row) => row.part))]),
        this.count,
      ),
      element(
        "div",
        { class: "scroll", tabindex: "0", role: "region", "aria-label": "Table of faults" },
        element("table", {}, element("thead", {}, element("tr", {}, this.heads)), this.body),
      ),
    );
    this.#fill();
  }

  #choose(key, value) {
    this.#remember({ [key]: value });
    this.#fill();
  }

  #sort(key) {
    const again = (this.#values.sort ?? "") === key;
    this.#remember({ sort: key, down: again && !this.#values.down ? "1" : "" });
    this.#fill();
  }

  /** In the campaign's own order until a column is chosen. */
  #sorted(rows) {
    const column = COLUMNS.find((one) => one.key === this.#values.sort);
    if (!column) return rows;
    const sign = this.#values.down ? -1 : 1;
    return rows.slice().sort((a, b) => {
      const [x, y] = [column.by(a), column.by(b)];
      if (x === y) return 0;
      if (x === null) return 1;
      if (y === null) return -1;
      return (x < y ? -1 : 1) * sign;
    });
  }

  #fill() {
    COLUMNS.forEach((column, i) => {
      const sorted = column.key === this.#values.sort;
      if (sorted) this.heads[i].setAttribute("aria-sort", this.#values.down ? "descending" : "ascending");
      else this.heads[i].removeAttribute("aria-sort");
    });
    const { class: wanted, part } = this.#values;
    const rows = this.#sorted(this.#rows.filter((row) => (!wanted || this.#outcomes[row.rank] === wanted) && (!part || row.part === part)));
    this.count.textContent = `${rows.length} of ${this.#rows.length} runs`;
    this.body.replaceChildren(...rows.map((row) => this.#row(row)));
  }

  #row(row) {
    const cells = COLUMNS.map((column) => {
      const shown = column.show(row, this.#outcomes);
      if (column.key === "fault") {
        const opener = element("button", { type: "button", class: "opener", onclick: () => this.#open(nameOf(row), true) }, shown);
        return element("th", { scope: "row" }, opener, row.size ? ` ${row.size}` : "");
      }
      const kind = column.key === "class" ? (row.covered ? "good" : "bad") : column.n ? "n" : null;
      return element("td", { class: kind }, shown);
    });
    return element("tr", {}, cells);
  }

  async #open(name, focus) {
    const [fault, phase, oil] = name.split("@");
    this.#run?.close();
    this.#run = null;
    this.#remember({ run: name });
    this.story.replaceChildren(element("p", { role: "status", class: "quiet" }, "Driving this run again …"));
    if (focus) this.story.scrollIntoView({ block: "nearest" });
    try {
      const story = await send("/api/faults/run", { fault, phase, oilC: Number(oil), units: unitsAreUs() ? "us" : "metric" });
      if (this.#closed || this.#values.run !== name) return;
      this.story.replaceChildren();
      this.#run = new FaultRun(this.story, this.#page.facts, story, () => this.#close());
      if (focus) this.#run.focus();
    } catch (problem) {
      this.story.replaceChildren(element("p", { class: "bad", role: "alert" }, problem.message));
    }
  }

  #close() {
    this.#run?.close();
    this.#run = null;
    this.story.replaceChildren();
    this.#remember({ run: "" });
    this.table.querySelector("button")?.focus();
  }

  /** In other colours: only the charts are drawn, all else is style. */
  redraw() {
    this.#run?.resize();
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#run?.close();
    this.#live?.close();
  }
}

// Bench procedures: cautions, the bench key, the list, and the procedure that runs. Whoever sees this may stop it.
import { ask, send } from "./api.js";
import { say } from "./connection.js";
import { element } from "./dom.js";
import { key } from "./bench-key.js";
import { BenchRun } from "./bench-run.js";

const BUSY_MS = 150;
const IDLE_MS = 400;
const PATIENCE_MS = 3000;
const GONE = "The bench does not answer. What ran there is stopped after 3 s, and the pump runs on. Trying again …";
const COMMANDS = [
  ["./linehold bench --page", "a simulated bench"],
  ["./linehold bench --page --io pi --board board.yaml --build mycar.yaml", "a real one"],
];

export function open(view, page) {
  return new Bench(view, page);
}

class Bench {
  #view;
  #page;
  #about = null;
  #state = null;
  #chosen;
  #timer = null;
  #closed = false;
  #run = null;
  #records = null;
  #lostWhy = "";

  constructor(view, page) {
    this.#view = view;
    this.#page = page;
    this.#chosen = page.state.get("procedure");
    if (!document.getElementById("bench-style")) {
      document.head.append(element("link", { id: "bench-style", rel: "stylesheet", href: "/page/bench.css" }));
    }
    this.onKey = (event) => {
      if (event.key === "Escape" && this.#state?.busy) {
        event.preventDefault();
        this.#stop();
      }
    };
    addEventListener("keydown", this.onKey, true);
    key.onChange = (why) => this.#keyChanged(why);
    this.#load();
  }

  async #load() {
    try {
      const about = await ask("/api/bench", { signal: AbortSignal.timeout(PATIENCE_MS) });
      if (this.#closed) return;
      say("bench", "");
      this.#build(about);
      if (about.mode === "bench") {
        key.enter();
        await this.#follow();
      }
    } catch (problem) {
      this.#lost(problem);
    }
  }

  #lost(problem) {
    if (this.#closed) return;
    say("bench", problem.status ? problem.message : GONE);
    this.#timer = setTimeout(() => this.#load(), 1000);
  }

  async #follow() {
    try {
      this.#show(await ask("/api/bench/state", { signal: AbortSignal.timeout(PATIENCE_MS) }));
    } catch (problem) {
      this.#lost(problem);
      return;
    }
    if (!this.#closed) this.#timer = setTimeout(() => this.#follow(), this.#state.busy ? BUSY_MS : IDLE_MS);
  }

  #build(about) {
    // Answered anew after each loss of the server, and mostly the same.
    if (JSON.stringify(about) === JSON.stringify(this.#about)) return;
    this.#about = about;
    this.#state = null;
    this.#records = null;
    const bench = about.mode === "bench";
    this.mode = element("p", { class: bench && !about.simulated ? "bad" : null }, ...this.#modeWords());
    this.runs = element("section", { class: "run", "aria-labelledby": "bench-title", hidden: true });
    this.keys = element("section", { "aria-label": "Cautions and bench key" });
    this.list = element("ol", { class: "procedures", role: "list" });
    this.procedures = element("section", { "aria-labelledby": "bench-procedures" }, element("h2", { id: "bench-procedures" }, "Procedures"), this.list);
    this.written = element("ol", { class: "written", role: "list", "aria-label": "Records of this session" });
    this.history = element("section", { hidden: true }, element("h2", {}, "Records of this session, the last one first"), this.written);
    this.halt = element(
      "button",
      { type: "button", class: "stop", "aria-keyshortcuts": "Escape", onclick: () => this.#stop() },
      "Stop ",
      element("span", {}, "(Escape)"),
    );
    this.trouble = element("p", { class: "bad", role: "alert" });
    this.bar = element("div", { class: "stop-bar", hidden: true }, this.trouble, this.halt);
    const root = element("div", { class: "bench" }, element("h1", {}, "Bench"), this.mode, this.runs, this.keys, this.procedures, this.history, this.bar);
    this.#view.replaceChildren(root);
    if (bench) this.#run = new BenchRun(this.runs, about, (state) => this.#show(state));
    this.#showKey();
    this.#showList();
  }

  #modeWords() {
    const { mode, simulated, refusal } = this.#about;
    if (mode === "bench") {
      return [simulated ? "This bench is simulated: nothing real moves." : "This bench is real: procedures switch its relays and its pump."];
    }
    const commands = COMMANDS.map(([command, what]) => element("span", { class: "command" }, element("code", {}, command), ` (${what})`));
    return [`${refusal} A bench has a page of its own and is started by `, commands[0], " or ", commands[1]];
  }

  #show(state) {
    if (this.#closed) return;
    const before = this.#state;
    this.#state = state;
    this.runs.hidden = !state.busy && !state.procedure && state.values.oilC === null && state.values.linePa === null;
    this.#run.show(state);
    this.procedures.hidden = state.busy;
    this.keys.hidden = state.busy && !this.#lostWhy;
    this.bar.hidden = !state.busy && !key.mine;
    document.documentElement.classList.toggle("with-stop", !this.bar.hidden);
    this.halt.disabled = !state.busy;
    if (!state.busy) this.trouble.textContent = "";
    if (before?.busy !== state.busy || before?.holder !== state.holder) {
      if (before && !before.busy && state.busy) {
        this.runs.scrollIntoView({ block: "start" });
        if (key.mine) this.#run.title.focus();
      }
      this.#showKey();
      this.#showList();
    }
    this.#showRecords(state.records);
  }

  #keyChanged(why) {
    this.#lostWhy = why;
    if (!this.#about) return;
    if (why) this.keys.hidden = false;
    this.#showKey();
    this.#showList();
  }

  #showKey() {
    const { mode, cautions, refusal } = this.#about;
    const held = this.keys.contains(document.activeElement);
    const list = element("ul", { class: "cautions" }, cautions.map((caution) => element("li", {}, caution)));
    const parts = [];
    if (this.#lostWhy) parts.push(element("p", { class: "bad", role: "alert" }, this.#lostWhy));
    if (mode === "bench" && key.mine) {
      parts.push(
        element("p", {}, "You hold the bench key. Leave this view, or let the screen go dark, and what runs is stopped."),
        element("button", { type: "button", onclick: () => key.giveBack() }, "Give the key back"),
        element("details", {}, element("summary", {}, "The cautions, which you have confirmed"), list),
      );
    } else {
      parts.push(element("h2", {}, "Before anything moves"), list);
      if (mode === "bench") parts.push(...this.#offer(refusal));
    }
    this.keys.replaceChildren(...parts);
    if (held) this.keys.querySelector("button")?.focus();
  }

  #offer(refusal) {
    if (refusal) return [element("p", { class: "warned" }, refusal)];
    if (this.#state?.holder) {
      return [element("p", { class: "warned" }, `Another browser (at ${this.#state.holder}) holds the bench key. You can watch, and stop.`)];
    }
    const problem = element("p", { class: "bad", role: "alert" });
    const take = async () => {
      try {
        await key.take(this.#about.cautionsMark);
      } catch (trouble) {
        problem.textContent = trouble.message;
      }
    };
    return [
      element("p", {}, "Whoever holds the bench key starts procedures and answers: one browser at a time."),
      element("button", { type: "button", class: "large", onclick: take }, "All of this is so: take the bench key"),
      problem,
    ];
  }

  #showList() {
    const held = this.list.contains(document.activeElement) ? document.activeElement.dataset.procedure : null;
    this.list.replaceChildren(...this.#about.procedures.map((one) => this.#item(one)));
    if (held) this.list.querySelector(`[data-procedure="${held}"]`)?.focus();
  }

  #item({ key: name, title, purpose, fits, steps }) {
    const reading = this.#about.mode !== "bench";
    const chosen = name === this.#chosen;
    const head = reading
      ? element("h3", {}, title)
      : element("button", { type: "button", class: "large choose", "data-procedure": name, "aria-expanded": String(chosen), onclick: () => this.#choose(chosen ? null : name) }, title);
    const parts = [head, element("p", {}, purpose)];
    if (!fits) parts.push(element("p", { class: "warned" }, "This build has no pressure sender, so it cannot run here."));
    if (chosen && !reading) {
      parts.push(
        element("ol", { class: "steps" }, steps.map((step) => element("li", {}, element("strong", {}, step.title), step.instruction ? `: ${step.instruction}` : ""))),
        this.#starter(name, title, fits),
      );
    }
    return element("li", { class: chosen ? "chosen" : null }, parts);
  }

  #starter(name, title, fits) {
    const problem = element("p", { class: "bad", role: "alert" });
    const start = async () => {
      problem.textContent = "";
      try {
        this.#show(await send("/api/bench/start", { secret: key.secret, procedure: name }));
      } catch (trouble) {
        problem.textContent = trouble.message;
      }
    };
    const ready = fits && key.mine;
    return element(
      "div",
      {},
      element("button", { type: "button", class: "large start", disabled: !ready, "data-procedure": `${name} start`, onclick: start }, `Start: ${title}`),
      ready || !fits ? null : element("p", { class: "quiet" }, "The bench key comes first; it is above."),
      problem,
    );
  }

  #choose(name) {
    this.#chosen = name;
    this.#page.remember(name ? { procedure: name } : {});
    this.#showList();
  }

  #showRecords(records) {
    const now = JSON.stringify(records);
    if (now === this.#records) return;
    this.#records = now;
    this.history.hidden = !records.length;
    const words = { pass: "✓ passed", fail: "✗ failed", stopped: "■ stopped" };
    this.written.replaceChildren(
      ...records.map(({ title, outcome, sentence, file, problem }) =>
        element(
          "li",
          {},
          element("strong", { class: outcome === "pass" ? "good" : "bad" }, words[outcome]),
          ` ${title}${sentence ? `: ${sentence}` : ""} `,
          file ? element("code", {}, file) : element("span", { class: "bad" }, `No record: ${problem}`),
        ),
      ),
    );
  }

  async #stop() {
    this.halt.disabled = true;
    try {
      this.#show(await send("/api/bench/stop", {}));
    } catch (problem) {
      this.halt.disabled = false;
      // Whoever cannot stop it by word stops it by silence.
      const silent = key.mine ? " This page falls silent now, and 3 s later the bench stops by itself." : "";
      key.drop("");
      this.trouble.textContent = `Stop did not get through: ${problem.message}${silent}`;
    }
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#timer);
    removeEventListener("keydown", this.onKey, true);
    document.documentElement.classList.remove("with-stop");
    say("bench", "");
    key.leave();
  }
}

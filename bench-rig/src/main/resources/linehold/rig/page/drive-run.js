// One drive's whole run in charts, down to single ticks, and another run over it: another oil temperature or another build.
import { ask } from "./api.js";
import { element } from "./dom.js";
import { RunFeed } from "./run-feed.js";
import { RunStrips } from "./run-strips.js";
import { compared, inSight, momentOf, overMomentOf } from "./run-words.js";
import { number, text, unitsAreUs } from "./units.js";

/** As many as a wide screen can show; beside what is in sight, half of it again is fetched at either side. */
const POINTS = 1200;
const WORST_S = 4;
const LEAST_S = 0.05;
/** Longer than any drive. */
const EVER_S = 1e8;
const KEEP_MS = 300;
const SLIDER_STEPS = 1000;

export class DriveRun {
  #facts;
  #oils;
  #state;
  #keepState;
  #strips;
  #feed;
  /** The runs as they were last told. */
  #runs = [];
  /** What is in sight; null for the whole drive, which is not known before the first answer. */
  #range = null;
  #hoverS = null;
  #atS = null;
  #frame = 0;
  #timer = 0;

  /**
   * @param state what the address holds: drive, oil, over, overBuild, from, to, at
   * @param keep puts the state into the address
   */
  constructor(where, { facts, oils, state, keep }) {
    this.#facts = facts;
    this.#oils = oils;
    this.#state = { ...state };
    this.#keepState = keep;
    if (Number(state.to) > Number(state.from)) this.#range = [Number(state.from), Number(state.to)];
    if (state.at !== undefined) this.#atS = Number(state.at);
    this.#strips = new RunStrips(facts, {
      onHover: (s) => {
        this.#hoverS = s;
        this.#ask();
      },
      onMove: (fromS, toS) => this.#show(fromS, toS),
      onWhole: () => this.#whole(),
      whole: () => this.#isWhole(),
    });
    this.#feed = new RunFeed({
      onRuns: (runs, wanted) => this.#take(runs, wanted),
      onWait: (reachedS, first) => this.#tell(this.status, `${first ? "This run" : "The run over it"} is being computed: ${clock(reachedS)} of the drive so far …`),
      onProblem: (words) => this.#trouble(words),
    });
    this.resize = () => this.#layout();
    addEventListener("resize", this.resize);
    this.#build(where);
    this.#keep();
    this.#want();
  }

  #build(where) {
    const tool = (words, act) => element("button", { type: "button", onclick: act }, words);
    this.over = element("select", { "aria-label": "Lay another run over it", onchange: () => this.#lay() });
    this.overWorst = tool("Worst moment, dashed", () => this.#worst(this.#runs[1]));
    this.before = tool("Change before", () => this.#around(this.#runs[0]?.part.stateBeforeS));
    this.after = tool("Next change", () => this.#around(this.#runs[0]?.part.stateAfterS));
    this.status = element("p", { role: "status" });
    this.legend = element("ul", { class: "legend", role: "list", "aria-label": "Runs in the charts" });
    this.difference = element("p", {});
    this.shown = element("p", { class: "quiet" });
    this.extremes = element("p", { class: "quiet", id: "extremes" });
    this.slider = element("input", { type: "range", class: "moment along", min: 0, max: SLIDER_STEPS, step: 1, "aria-label": "Moment to read", oninput: () => this.#slide() });
    this.reading = element("dl", { class: "reading" });
    where.replaceChildren(
      element("h2", {}, `${this.#state.drive}, oil at ${text("temperature", Number(this.#state.oil))}`),
      this.legend,
      this.difference,
      element("div", { class: "tools" },
        tool("Worst moment", () => this.#worst(this.#runs[0])), this.overWorst, this.before, this.after,
        tool("Whole drive", () => this.#whole()), tool("Closer", () => this.#zoom(0.5)), tool("Further", () => this.#zoom(2)),
        tool("Earlier", () => this.#pan(-0.5)), tool("Later", () => this.#pan(0.5)), this.over, this.shown),
      this.status,
      this.#strips.speed,
      this.#strips.pressure,
      this.#strips.lanes,
      this.#strips.overLanes,
      this.slider,
      this.reading,
      this.extremes,
      element("p", { class: "quiet hint" },
        "Point at a chart, or move the slider, to read every lane at that moment. Drag across the whole drive to look closer, or anywhere "
        + "with the shift key; closer, a drag moves the drive, and the wheel or two fingers zoom. A change is one of the pump's state."),
    );
    this.#offer();
  }

  /** What can be laid over the run. The builds come a moment later. */
  async #offer() {
    const { oil, over, overBuild } = this.#state;
    const option = (value, words, chosen) => element("option", { value, selected: chosen }, words);
    const oils = element("optgroup", { label: "Another oil temperature" }, this.#oils.filter((one) => one !== Number(oil)).map((one) =>
      option(`oil:${one}`, `over it: oil at ${text("temperature", one)}`, over !== undefined && one === Number(over))));
    this.over.replaceChildren(option("", "no other run", !over && !overBuild), oils);
    // Until it is known whether there is such a build, and for ever where there is none.
    if (overBuild) this.over.append(option(`build:${overBuild}`, `over it: build ${overBuild}`, true));
    try {
      const builds = await ask("/api/builds");
      const group = element("optgroup", { label: "Another build or calibration" }, builds.map(({ name, file }) =>
        option(`build:${name}`, `over it: build ${file ?? name}`, name === overBuild)));
      const { value } = this.over;
      this.over.append(group);
      if (builds.some(({ name }) => name === overBuild)) this.over.children[2].remove();
      this.over.value = value;
    } catch (problem) {
      this.#trouble(problem.message);
    }
  }

  #lay() {
    const [kind, ...name] = this.over.value.split(":");
    this.#state.over = kind === "oil" ? name.join(":") : undefined;
    this.#state.overBuild = kind === "build" ? name.join(":") : undefined;
    this.#runs.length = Math.min(1, this.#runs.length);
    if (this.#runs.length) this.#strips.show(this.#runs);
    this.#words();
    this.#keep();
    this.#want();
  }

  #laid() {
    return this.#state.over || this.#state.overBuild;
  }

  #want() {
    const [from, to] = this.#range ?? [-EVER_S, EVER_S];
    const more = this.#range ? (to - from) / 2 : 0;
    const path = (oil, build) =>
      `/api/drives/${encodeURIComponent(this.#state.drive)}/trace?oil=${oil}&build=${encodeURIComponent(build ?? "")}`
      + `&from=${from - more}&to=${to + more}&points=${2 * POINTS}&units=${unitsAreUs() ? "us" : "metric"}`;
    const paths = [path(this.#state.oil)];
    if (this.#laid()) paths.push(path(this.#state.over ?? this.#state.oil, this.#state.overBuild));
    this.#feed.want({ paths, for: `${this.#state.over} ${this.#state.overBuild}`, toS: to + more });
  }

  #take(runs, wanted) {
    const known = runs.filter(Boolean);
    for (const run of known) run.part.toS = wanted.toS;
    const other = known.length !== this.#runs.length;
    this.#runs = known;
    if (known.length === runs.length) this.#tell(this.status, "");
    if (this.#range) this.#range = this.#within(...this.#range);
    this.#strips.show(known);
    if (other) this.#words();
    this.#draw();
  }

  #trouble(words) {
    this.#tell(this.status, words);
  }

  #endS() {
    return Math.max(...this.#runs.map((run) => run.part.endS));
  }

  #isWhole() {
    return this.#range === null;
  }

  #inSight() {
    return this.#range ?? [0, this.#endS()];
  }

  /** No further than the drive, no closer than a few ticks; null for all of it. */
  #within(fromS, toS) {
    const end = this.#endS();
    const width = Math.max(toS - fromS, LEAST_S);
    if (width >= end) return null;
    const from = Math.max(0, Math.min(fromS, end - width));
    return [from, from + width];
  }

  #show(fromS, toS) {
    if (!this.#runs.length) return;
    this.#range = this.#within(fromS, toS);
    this.#keepSoon();
    this.#ask();
    this.#want();
  }

  #whole() {
    this.#show(0, Infinity);
  }

  #worst(run) {
    if (run) this.#around(run.weakestAtS);
  }

  /** A moment in the middle, read. */
  #around(atS) {
    if (atS === undefined || atS === null) return;
    this.#atS = atS;
    const width = Math.min(WORST_S, this.#range ? this.#range[1] - this.#range[0] : WORST_S);
    this.#show(atS - width / 2, atS + width / 2);
  }

  #zoom(factor) {
    const [from, to] = this.#inSight();
    const middle = this.#atS !== null && this.#atS > from && this.#atS < to ? this.#atS : (from + to) / 2;
    this.#show(middle - (middle - from) * factor, middle + (to - middle) * factor);
  }

  #pan(share) {
    const [from, to] = this.#inSight();
    this.#show(from + (to - from) * share, to + (to - from) * share);
  }

  #slide() {
    const [from, to] = this.#inSight();
    this.#atS = from + ((to - from) * Number(this.slider.value)) / SLIDER_STEPS;
    if (this.#runs.length) {
      this.slider.setAttribute("aria-valuetext", momentOf(this.#runs[0].part, this.#atS, this.#facts).map((pair) => pair.join(" ")).join(", "));
    }
    this.#keepSoon();
    this.#ask();
  }

  #keepSoon() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#keep(), KEEP_MS);
  }

  #keep() {
    const digits = (s) => s?.toFixed(3);
    const state = { ...this.#state, from: digits(this.#range?.[0]), to: digits(this.#range?.[1]), at: digits(this.#atS ?? undefined) };
    this.#keepState(Object.fromEntries(Object.entries(state).filter(([, value]) => value !== undefined && value !== "")));
  }

  #layout() {
    this.#strips.layout();
    if (this.#runs.length) this.#draw();
  }

  #ask() {
    if (this.#frame || !this.#runs.length) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.#draw();
    });
  }

  #draw() {
    const [run, over] = this.#runs;
    const [from, to] = this.#inSight();
    const { part } = run;
    const marked = this.#hoverS ?? this.#atS;
    const inside = marked !== null && marked >= from && marked <= to;
    const atS = inside ? Math.round(marked / part.periodS) * part.periodS : null;
    this.#strips.move(from, to, atS);
    this.#tell(this.shown, `${clock(from)} to ${clock(to)}; ${part.tickCount === 1 ? "every tick" : `a point is the lowest and highest of ${part.tickCount} ticks`}.`);
    this.#tell(this.extremes, inSight(part, from, to));
    this.slider.value = Math.round((((atS ?? from) - from) / (to - from)) * SLIDER_STEPS);
    this.before.disabled = part.stateBeforeS === null;
    this.after.disabled = part.stateAfterS === null;
    this.overWorst.hidden = !over;
    this.#read([...momentOf(part, atS ?? from, this.#facts), ...(over ? overMomentOf(over.part, atS ?? from, this.#facts) : [])]);
  }

  #read(pairs) {
    if (this.reading.childElementCount !== pairs.length) {
      this.reading.replaceChildren(...pairs.map(() => element("div", {}, element("dt", {}), element("dd", {}))));
    }
    pairs.forEach(([name, value], i) => {
      this.#tell(this.reading.children[i].firstChild, name);
      this.#tell(this.reading.children[i].lastChild, value);
    });
  }

  /** Both verdicts, and how far they are apart. */
  #words() {
    const [run, over] = this.#runs;
    const entry = (one, oil, line, which) => element("li", {}, element("i", { class: line, "aria-hidden": "true" }), element("span", {},
      `${which}: oil at ${text("temperature", Number(oil))}, build ${one.build}, window ${number("speed", one.switchOnRadPerS)} to ${text("speed", one.switchOffRadPerS)}. `,
      element("strong", { class: one.held ? "good" : "bad" }, one.held ? "Held" : "LOST"),
      `${one.held ? ". Weakest moment" : ""}: ${one.words.join("; ")}.`));
    this.legend.replaceChildren(...[
      run && entry(run, this.#state.oil, "solid", "Solid line, this run"),
      over && entry(over, this.#state.over ?? this.#state.oil, "dashed", "Dashed line, the run over it"),
    ].filter(Boolean));
    this.#tell(this.difference, over ? compared(run, over) : "");
  }

  #tell(node, words) {
    if (node.textContent !== words) node.textContent = words;
  }

  close() {
    this.#feed.close();
    clearTimeout(this.#timer);
    cancelAnimationFrame(this.#frame);
    removeEventListener("resize", this.resize);
    this.#strips.destroy();
  }
}

/** Seconds, and beyond the first ten minutes hours, minutes and seconds too. */
function clock(s) {
  if (s < 600) return `${s.toFixed(2)} s`;
  const two = (value) => String(Math.floor(value)).padStart(2, "0");
  return `${s.toFixed(s < 36000 ? 1 : 0)} s (${Math.floor(s / 3600)}:${two((s / 60) % 60)}:${two(s % 60)} h)`;
}

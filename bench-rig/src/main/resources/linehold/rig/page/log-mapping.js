// Which column of a log holds what: picked from lists, with the first rows as they are then read.
import { ask, send } from "./api.js";
import { element } from "./dom.js";
import { scale, toUnit } from "./units.js";

const SEPARATORS = [[",", "comma"], [";", "semicolon"], ["tab", "tab"], ["|", "bar |"]];
const DECIMALS = [["", "found by itself"], [".", "point"], [",", "comma"]];
const ENCODINGS = ["UTF-8", "windows-1252", "UTF-16LE", "UTF-16BE"];
const RANGES = [["", "not known"], ["p", "P"], ["r", "R"], ["n", "N"], ["d", "D"]];
const GEARS = [["", "not known"], ["n", "N"], ["1", "1"], ["2", "2"], ["r", "R"]];
// What a person reads a field's numbers in.
const QUANTITY = {
  time: "time", "motor-speed": "speed", "road-speed": "roadSpeed", "motor-torque": "torque",
  "oil-temperature": "temperature", "bus-voltage": "voltage",
};

const words = (key) => key.replaceAll("-", " ");
const path = (file, what) => `/api/logs/${encodeURIComponent(file)}/${what}`;

function select(label, choices, value, onchange, id) {
  return element("select", { "aria-label": label, id, onchange },
    choices.map(([key, text]) => element("option", { value: key, selected: key === value }, text)));
}

export class LogMapping {
  #file;
  #fields;
  #done;
  #shown = null;
  #turn = 0;

  /** @param done is told whether the columns were kept */
  constructor(where, { file, fields, done }) {
    this.where = where;
    this.#file = file;
    this.#fields = fields;
    this.#done = done;
    this.tools = element("div", { class: "tools" });
    this.picks = element("div", { class: "picks" });
    this.words = element("div", { class: "picks" });
    this.missing = element("p", { role: "status" });
    this.problem = element("p", { role: "alert", class: "bad" });
    this.rows = element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "The first rows as they are read" });
    this.keep = element("button", { type: "button", id: "keep-columns", onclick: () => this.#keep() }, "Prove with these columns");
    this.title = element("h2", { tabindex: "-1" }, `Columns of ${file}`);
    where.replaceChildren(
      this.title,
      element("p", {}, "Say which column holds what. Needed are the time, and the motor speed or the road speed; what else is logged makes the verdict sharper."),
      this.tools, this.picks, this.words,
      element("h3", {}, "The first rows as they are read"),
      this.missing, this.problem, this.rows,
      element("div", { class: "tools" }, this.keep, element("button", { type: "button", onclick: () => this.#done(false) }, "Leave it as it is")),
    );
    this.title.focus();
    this.#show(ask(path(file, "mapping")), true);
  }

  async #show(answer, anew) {
    const turn = ++this.#turn;
    try {
      const shown = await answer;
      // Whoever asked later has the word.
      if (turn !== this.#turn) return;
      this.#shown = shown;
      this.problem.textContent = "";
      if (anew) this.#lists();
      for (const [key, { unit }] of Object.entries(shown.picks.columns)) {
        if (unit) document.getElementById(`unit-${key}`).value = unit;
      }
      this.#words();
      this.#preview();
    } catch (problem) {
      if (turn !== this.#turn) return;
      this.problem.textContent = problem.message;
      this.rows.replaceChildren();
      this.keep.disabled = true;
    }
  }

  /** @param anew where the columns are found anew, because the file is cut otherwise; @param column as in #asked */
  #changed(anew, column) {
    this.#show(send(path(this.#file, "preview"), this.#asked(anew, column)), anew);
  }

  /** @param newColumn the quantity whose column was just picked: its unit may stand in the column's name */
  #asked(anew, newColumn) {
    const columns = {};
    for (const { key, units } of anew ? [] : this.#fields) {
      const column = document.getElementById(`column-${key}`).value;
      if (column !== "") columns[key] = { column, unit: units.length && key !== newColumn ? document.getElementById(`unit-${key}`).value : null };
    }
    return {
      separator: this.separator.value,
      decimal: this.decimal.value,
      encoding: this.encoding.value,
      maxGap: this.gap.value,
      columns,
      rangeValues: this.#explained("range"),
      gearValues: this.#explained("gear"),
    };
  }

  #explained(kind) {
    const known = { ...this.#shown.picks[`${kind}Values`] };
    for (const one of this.words.querySelectorAll(`select[data-kind="${kind}"]`)) {
      if (one.value === "") delete known[one.dataset.word];
      else known[one.dataset.word] = one.value;
    }
    return known;
  }

  #lists() {
    const { picks, columns } = this.#shown;
    const labelled = (text, control) => element("label", {}, `${text} `, control);
    this.separator = select("Separator between cells", SEPARATORS, picks.separator, () => this.#changed(true), "separator");
    this.decimal = select("Decimal mark", DECIMALS, picks.decimal ?? "", () => this.#changed(false), "decimal");
    const encodings = ENCODINGS.includes(picks.encoding) ? ENCODINGS : [picks.encoding, ...ENCODINGS];
    this.encoding = select("Encoding of letters", encodings.map((one) => [one, one]), picks.encoding, () => this.#changed(true), "encoding");
    this.gap = element("input", { "aria-label": "Longest step of time that is still evidence", size: "6", value: picks.maxGap ?? "2 s", onchange: () => this.#changed(false) });
    this.tools.replaceChildren(labelled("separator", this.separator), labelled("decimal mark", this.decimal),
      labelled("encoding", this.encoding), labelled("longest step", this.gap));

    const choices = [["", "not logged"], ...columns.filter((one) => one.name !== "")
      .map((one) => [one.name, one.sample ? `${one.name}, such as ${one.sample}` : one.name])];
    const known = new Map(columns.map((one) => [one.name.toLowerCase(), one.name]));
    this.picks.replaceChildren(element("table", {},
      element("thead", {}, element("tr", {}, ["Quantity", "Column of the log", "Its unit"].map((text) => element("th", { scope: "col" }, text)))),
      element("tbody", {}, this.#fields.map(({ key, units, unit, words: expected }) => {
        const pick = picks.columns[key];
        const column = known.get(pick?.column.trim().toLowerCase()) ?? "";
        return element("tr", {}, element("th", { scope: "row" }, words(key)),
          element("td", {}, select(`Column of ${words(key)}`, choices, column, () => this.#changed(false, key), `column-${key}`)),
          element("td", {}, units.length
            ? select(`Unit of ${words(key)}`, units.map((one) => [one, one]), pick?.unit ?? unit, () => this.#changed(false), `unit-${key}`)
            : element("span", { class: "quiet" }, expected)));
      }))));
  }

  /** What the log's own words for ranges and gears mean. */
  #words() {
    const focused = document.activeElement?.id;
    const list = (kind, label, choices) => {
      const told = this.#shown.picks[`${kind}Values`];
      const all = [...new Set([...this.#shown[`${kind}Words`], ...(this.#shown.picks.columns[kind] ? Object.keys(told) : [])])].sort();
      return all.map((word) => element("label", {}, `${label} "${word}" is `,
        element("select", { id: `word-${kind}-${word}`, "data-kind": kind, "data-word": word, "aria-label": `${label} ${word}`, onchange: () => this.#changed(false) },
          choices.map(([value, text]) => element("option", { value, selected: value === meaning(told[word]) }, text)))));
    };
    this.words.replaceChildren(...list("range", "Range", RANGES), ...list("gear", "Gear", GEARS));
    if (focused?.startsWith("word-")) document.getElementById(focused)?.focus();
  }

  #preview() {
    const { picks, rows, problem } = this.#shown;
    const missing = [
      picks.columns.time ? null : "the time",
      picks.columns["motor-speed"] || picks.columns["road-speed"] ? null : "the motor speed or the road speed",
    ].filter((one) => one);
    this.keep.disabled = missing.length > 0;
    this.missing.textContent = missing.length ? `Still to be picked: ${missing.join(", and ")}.` : "";
    this.problem.textContent = missing.length ? "" : (problem ?? "");
    const fields = this.#fields.filter(({ key }) => picks.columns[key]);
    const head = fields.map(({ key }) => {
      const unit = QUANTITY[key] ? `, ${scale(QUANTITY[key]).label}` : "";
      return element("th", { scope: "col" }, words(key) + unit);
    });
    this.rows.replaceChildren(element("table", {},
      element("thead", {}, element("tr", {}, element("th", { scope: "col" }, "Line"), head)),
      element("tbody", {}, rows.map((row) => element("tr", {}, element("th", { scope: "row" }, String(row.line)),
        fields.map(({ key }) => cell(row, key)))))));
  }

  async #keep() {
    this.keep.disabled = true;
    try {
      await send(path(this.#file, "mapping"), this.#asked(false));
      this.#done(true);
    } catch (problem) {
      this.problem.textContent = problem.message;
      this.keep.disabled = false;
    }
  }

  close() {
    this.#turn++;
    this.where.replaceChildren();
  }
}

/** The letter or number of a list for a meaning that a mapping file may also spell out. */
function meaning(told) {
  const spelled = { park: "p", reverse: "r", neutral: "n", drive: "d", first: "1", top: "2" };
  const plain = (told ?? "").toLowerCase();
  return spelled[plain] ?? { 0: "n", "-1": "r" }[plain] ?? plain;
}

function cell(row, key) {
  if (row.bad === key) return element("td", { class: "bad" }, `✗ "${row.badText}"`);
  const number = row.numbers[key];
  if (number !== undefined) {
    // Finer than elsewhere: whether the decimal mark was read right shows behind it.
    const value = toUnit(QUANTITY[key], number).toFixed(key === "time" ? 3 : scale(QUANTITY[key]).digits + 1);
    return element("td", { class: "n" }, value);
  }
  return element("td", {}, row.words[key] ?? "–");
}

// Own logs: taken in by the chooser or dropped anywhere on the view; recordings of the rig taken as logs.
import { ask, send } from "./api.js";
import { element } from "./dom.js";

export class Logs {
  #changed;
  #mostBytes = 0;
  #queue = Promise.resolve();
  #sending = null;
  #closed = false;

  /** @param changed is called with the name of a log that has come or gone */
  constructor(where, { changed }) {
    this.#changed = changed;
    this.list = [];
    this.fields = [];
    this.chooser = element("input", { type: "file", id: "log-file", multiple: true, accept: ".csv,.txt,.tsv,.log,text/csv,text/plain",
      onchange: () => this.#take([...this.chooser.files]) });
    this.bar = element("progress", { max: "1", value: "0", "aria-label": "Sent of the log", hidden: true });
    this.said = element("p", { role: "status" });
    this.problem = element("p", { role: "alert", class: "bad" });
    this.shelf = element("div", { hidden: true });
    this.opener = element("button", { type: "button", "aria-expanded": "false", onclick: () => this.#openShelf() }, "Recordings of the rig");
    where.append(
      element("div", { class: "tools" },
        element("label", { for: "log-file" }, "Add a CSV log, or drop it anywhere here:"), this.chooser, this.opener, this.bar),
      this.said, this.problem, this.shelf);
    this.over = (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      document.body.classList.add("dropping");
    };
    this.leave = (event) => {
      if (!event.relatedTarget) document.body.classList.remove("dropping");
    };
    this.drop = (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      document.body.classList.remove("dropping");
      this.#take([...event.dataTransfer.files]);
    };
    document.addEventListener("dragover", this.over);
    document.addEventListener("dragleave", this.leave);
    document.addEventListener("drop", this.drop);
  }

  async load() {
    const { mostBytes, fields, logs } = await ask("/api/logs");
    this.#mostBytes = mostBytes;
    this.fields = fields;
    this.list = logs;
  }

  #take(files) {
    this.chooser.value = "";
    this.problem.textContent = "";
    // One after another: the server takes few at once.
    for (const file of files) this.#queue = this.#queue.then(() => this.#sendOne(file));
  }

  async #sendOne(file) {
    if (this.#closed) return;
    this.said.textContent = `${file.name} is being sent …`;
    try {
      if (file.size > this.#mostBytes) {
        throw new Error(`${file.name}: found ${Math.round(file.size / 1e6)} MB, expected a log up to ${Math.round(this.#mostBytes / 1e6)} MB; split it, or prove it with 'linehold prove'`);
      }
      const taken = await this.#upload(file);
      this.said.textContent = `${file.name} is taken in${taken === file.name ? "" : ` as ${taken}`}.`;
      await this.#changed(taken);
    } catch (problem) {
      this.said.textContent = "";
      this.problem.append(element("span", {}, `${this.problem.textContent ? " " : ""}${problem.message}`));
    }
    this.bar.hidden = true;
  }

  /** Not fetch: only this tells how far it is. */
  #upload(file) {
    return new Promise((resolve, reject) => {
      const request = new XMLHttpRequest();
      this.#sending = request;
      this.bar.value = 0;
      this.bar.hidden = false;
      request.upload.onprogress = (event) => {
        this.bar.value = event.total ? event.loaded / event.total : 0;
      };
      request.onload = () => {
        let answer = {};
        try {
          answer = JSON.parse(request.responseText);
        } catch {
          answer = { problem: request.responseText };
        }
        if (request.status === 201) resolve(answer.file);
        else reject(new Error(answer.problem || `The log was refused with status ${request.status}.`));
      };
      request.onerror = () => reject(new Error(`${file.name}: the connection ended before it was taken.`));
      request.onabort = () => reject(new Error(`${file.name} was not sent to its end.`));
      request.open("POST", `/api/logs?name=${encodeURIComponent(file.name)}`);
      request.setRequestHeader("Content-Type", "application/octet-stream");
      request.send(file);
    });
  }

  async remove(file) {
    if (!confirm(`Remove ${file}? The log and what its columns hold are deleted from the page's folder; the file you took it from stays.`)) return;
    this.problem.textContent = "";
    try {
      await ask(`/api/logs/${encodeURIComponent(file)}`, { method: "DELETE" });
      this.said.textContent = `${file} is removed.`;
    } catch (problem) {
      this.problem.textContent = problem.message;
    }
    await this.#changed(null);
  }

  async #openShelf() {
    const open = this.shelf.hidden;
    this.opener.setAttribute("aria-expanded", String(open));
    this.shelf.hidden = !open;
    if (!open) return;
    this.shelf.replaceChildren(element("p", { role: "status" }, "The recordings are being looked through …"));
    try {
      const lines = await ask("/api/recordings");
      this.shelf.replaceChildren(lines.length ? this.#table(lines) : element("p", {}, "There are no recordings here. A rig makes them while it runs."));
    } catch (problem) {
      this.shelf.replaceChildren(element("p", { role: "alert", class: "bad" }, problem.message));
    }
  }

  #table(lines) {
    const head = ["Number", "Begin, UTC", "Length", "Rig", "End", "Use"].map((text) => element("th", { scope: "col" }, text));
    return element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Recordings" },
      element("table", {}, element("thead", {}, element("tr", {}, head)), element("tbody", {}, lines.map((line) => this.#line(line)))),
      element("p", { class: "quiet" }, "A recording's motor speed is the controller's, without a sign: a car that rolled back is not seen to do so. A running one is taken as far as it is written."));
  }

  #line(line) {
    const number = element("th", { scope: "row" }, String(line.id));
    if (line.problem) return element("tr", {}, number, element("td", { colspan: "5", class: "bad" }, line.problem));
    const take = element("button", { type: "button", "aria-label": `Take recording ${line.id} as a drive`, onclick: () => this.#takeRecording(line.id, take) }, "Take as a drive");
    return element("tr", {}, number, element("td", {}, line.start), element("td", { class: "n" }, clock(line.lengthS)),
      element("td", {}, line.source), element("td", {}, line.end), element("td", {}, take));
  }

  async #takeRecording(id, button) {
    button.disabled = true;
    this.problem.textContent = "";
    this.said.textContent = `Recording ${id} is being read …`;
    try {
      const { file } = await send(`/api/recordings/${id}`, {});
      this.said.textContent = `Recording ${id} is taken in as ${file}.`;
      await this.#changed(file);
    } catch (problem) {
      this.said.textContent = "";
      this.problem.textContent = problem.message;
    }
    button.disabled = false;
  }

  close() {
    this.#closed = true;
    this.#sending?.abort();
    document.body.classList.remove("dropping");
    document.removeEventListener("dragover", this.over);
    document.removeEventListener("dragleave", this.leave);
    document.removeEventListener("drop", this.drop);
  }
}

function clock(seconds) {
  const whole = Math.round(seconds);
  const two = (value) => String(value).padStart(2, "0");
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

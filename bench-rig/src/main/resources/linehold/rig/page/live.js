// The rig's ticks as they come, kept for 60 s in columns. Reconnects by itself, and says so while it cannot.
const KEPT_S = 60;
const RETRY_MS = 1000;
/** Batches come every 40 ms: nothing for so long is worth a word, and later another try. */
const SILENT_MS = 2000;
const DEAD_MS = 8000;
const GAP_S = 0.25;

export class Live {
  columns = {};
  /** False while the last tick is too old to be called now. */
  fresh = false;
  onBatch = () => {};
  /** Told what is wrong in one sentence, or "" when nothing is. */
  onTrouble = () => {};
  #socket = null;
  #retry = 0;
  #watch = 0;
  #lastMs = 0;

  open() {
    const socket = new WebSocket(`ws://${location.host}/api/live`);
    this.#socket = socket;
    this.#lastMs = performance.now();
    socket.onopen = () => {
      this.columns = {};
    };
    socket.onmessage = (event) => this.#add(JSON.parse(event.data));
    socket.onclose = () => this.#lost();
    this.#watch = setInterval(() => this.#listen(), SILENT_MS / 4);
  }

  #listen() {
    const silentMs = performance.now() - this.#lastMs;
    if (silentMs < SILENT_MS) return;
    this.fresh = false;
    if (silentMs < DEAD_MS) this.onTrouble("No tick has come from the rig for 2 s.");
    else this.#lost();
  }

  #lost() {
    this.#drop();
    this.fresh = false;
    this.onTrouble("The rig does not answer. Trying again …");
    this.#retry = setTimeout(() => this.open(), RETRY_MS);
  }

  #add(batch) {
    this.#lastMs = performance.now();
    if (!this.fresh) {
      this.fresh = true;
      this.onTrouble("");
    }
    const times = this.columns.t;
    // Another rig has started behind the same address: its time begins anew.
    if (times?.length && batch.t[0] < times[times.length - 1]) this.columns = {};
    const gapS = this.columns.t?.length ? batch.t[0] - this.columns.t[this.columns.t.length - 1] : 0;
    for (const [name, values] of Object.entries(batch)) {
      // What was missed is not drawn over.
      if (gapS > GAP_S) this.columns[name].push(name === "t" ? batch.t[0] - gapS / 2 : null);
      (this.columns[name] ??= []).push(...values);
    }
    const kept = this.columns.t;
    let drop = 0;
    while (kept[drop] < kept[kept.length - 1] - KEPT_S) drop++;
    if (drop > kept.length / 10) {
      for (const values of Object.values(this.columns)) values.splice(0, drop);
    }
    this.onBatch(batch);
  }

  /** The newest value; null where there is none. */
  last(name) {
    const values = this.columns[name];
    return this.fresh && values?.length ? values[values.length - 1] : null;
  }

  /** A copy that stands still. */
  frozen() {
    return Object.fromEntries(Object.entries(this.columns).map(([name, values]) => [name, values.slice()]));
  }

  #drop() {
    clearInterval(this.#watch);
    clearTimeout(this.#retry);
    const socket = this.#socket;
    if (!socket) return;
    socket.onopen = socket.onmessage = socket.onclose = null;
    socket.close();
    this.#socket = null;
  }

  close() {
    this.#drop();
  }
}

/** Index of the first time that is not before s. */
export function indexAt(times, s) {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < s) low = middle + 1;
    else high = middle;
  }
  return low;
}

// The rig's ticks as they come, kept for 60 s in columns. Reconnects by itself, and says so while it cannot.
const KEPT_S = 60;
const RETRY_MS = 1000;

export class Live {
  columns = {};
  onBatch = () => {};
  onConnection = () => {};
  #socket = null;
  #retry = null;
  #closed = false;

  open() {
    const socket = new WebSocket(`ws://${location.host}/api/live`);
    this.#socket = socket;
    socket.onopen = () => {
      this.columns = {};
      this.onConnection(true);
    };
    socket.onmessage = (event) => this.#add(JSON.parse(event.data));
    socket.onclose = () => {
      if (this.#closed) return;
      this.onConnection(false);
      this.#retry = setTimeout(() => this.open(), RETRY_MS);
    };
  }

  #add(batch) {
    const times = this.columns.t;
    // Another rig has started behind the same address: its time begins anew.
    if (times?.length && batch.t[0] < times[times.length - 1]) this.columns = {};
    for (const [name, values] of Object.entries(batch)) {
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

  last(name) {
    const values = this.columns[name];
    return values ? values[values.length - 1] : null;
  }

  close() {
    this.#closed = true;
    clearTimeout(this.#retry);
    this.#socket?.close();
  }
}

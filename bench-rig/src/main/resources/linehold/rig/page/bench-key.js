// The bench key as this browser has it: the secret, and the sign of life once a second without which the bench stops what
// runs. It beats only while the page is seen, because only then its Stop is in reach.
import { ask, send } from "./api.js";

const EVERY_MS = 1000;
const PATIENCE_MS = 1500;
/** A view that is built anew, as for other units, is no reason to give the key back. */
const GRACE_MS = 500;
const STORE = "bench-key";

class BenchKey {
  #secret = sessionStorage.getItem(STORE);
  #timer = null;
  #leaving = null;
  #awake = null;
  /** Told of every change, and why the key was lost. */
  onChange = () => {};

  get mine() {
    return this.#secret !== null;
  }

  get secret() {
    return this.#secret;
  }

  /** @param mark of the cautions that were shown and confirmed */
  async take(mark) {
    this.#keep((await send("/api/bench/key", { cautions: mark })).secret);
    this.onChange("");
    this.enter();
  }

  /** The view is open. */
  enter() {
    clearTimeout(this.#leaving);
    clearTimeout(this.#timer);
    if (this.mine) this.#beat();
  }

  /** The view is left: its Stop is out of reach now. */
  leave() {
    this.onChange = () => {};
    clearTimeout(this.#leaving);
    if (this.mine) this.#leaving = setTimeout(() => this.giveBack(), GRACE_MS);
  }

  giveBack() {
    const secret = this.#secret;
    this.drop("");
    if (secret !== null) send("/api/bench/give-back", { secret }).catch(() => {});
  }

  /** No further sign of life. */
  drop(why) {
    if (!this.mine) return;
    this.#keep(null);
    clearTimeout(this.#timer);
    this.onChange(why);
  }

  #keep(secret) {
    this.#secret = secret;
    if (secret === null) {
      sessionStorage.removeItem(STORE);
      this.#awake?.release?.().catch(() => {});
      this.#awake = null;
    } else {
      sessionStorage.setItem(STORE, secret);
    }
  }

  async #beat() {
    const secret = this.#secret;
    if (document.visibilityState === "visible") {
      this.#stayAwake();
      try {
        await ask("/api/bench/beat", {
          method: "POST",
          headers: { "Content-Type": "application/json" },
          body: JSON.stringify({ secret }),
          signal: AbortSignal.timeout(PATIENCE_MS),
        });
      } catch (problem) {
        if (problem.status && secret === this.#secret) this.drop("The bench key was lost: this page was not heard for 3 s, or the bench was started anew.");
      }
    }
    if (secret === this.#secret && this.mine) {
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => this.#beat(), EVERY_MS);
    }
  }

  /** A screen that goes dark takes the key with it. Browsers have this on the bench's own machine alone. */
  async #stayAwake() {
    if (this.#awake && !this.#awake.released) return;
    try {
      this.#awake = await navigator.wakeLock?.request("screen");
    } catch {
      this.#awake = null;
    }
  }
}

export const key = new BenchKey();

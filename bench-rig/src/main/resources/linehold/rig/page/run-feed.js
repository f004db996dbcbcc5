// Asks the server for the parts of runs that the charts want: one question at a time, and who wants last has the word.
import { ask } from "./api.js";

/** A usual run is there at once; a long one is asked for less often, but oftener than the server forgets who waits. */
const SOON_MS = 150;
const LATER_MS = 1000;

export class RunFeed {
  #told;
  #wanted = null;
  #busy = false;
  #wake = () => {};
  #closed = false;

  /** @param told onRuns(runs, wanted) with a null for a run that is under way, onWait(s of the drive computed so far), onProblem(words) */
  constructor(told) {
    this.#told = told;
  }

  /** @param wanted {paths, ...}: addresses of the runs, and whatever the one who is told wants back */
  want(wanted) {
    this.#wanted = wanted;
    this.#wake();
    if (!this.#busy) this.#work();
  }

  async #work() {
    this.#busy = true;
    let waitMs = SOON_MS;
    while (this.#wanted && !this.#closed) {
      const wanted = this.#wanted;
      try {
        const answers = await Promise.all(wanted.paths.map((path) => ask(path)));
        if (this.#closed) return;
        const under = answers.filter((answer) => !answer.run);
        if (this.#wanted === wanted && !under.length) this.#wanted = null;
        // What has been asked for meanwhile may be another drive.
        if (wanted.for !== (this.#wanted ?? wanted).for) continue;
        if (answers[0].run) this.#told.onRuns(answers.map((answer) => answer.run), wanted);
        if (under.length) {
          this.#told.onWait(Math.max(...under.map((answer) => answer.reachedS)), !answers[0].run);
          await this.#sleep(waitMs);
          waitMs = Math.min(LATER_MS, waitMs * 1.5);
        }
      } catch (problem) {
        if (this.#closed) return;
        if (this.#wanted === wanted) this.#wanted = null;
        this.#told.onProblem(problem.message);
      }
    }
    this.#busy = false;
  }

  /** Until it is time, or something else is wanted. */
  #sleep(ms) {
    return new Promise((done) => {
      const timer = setTimeout(done, ms);
      this.#wake = () => {
        clearTimeout(timer);
        done();
      };
    });
  }

  close() {
    this.#closed = true;
    this.#wake();
  }
}

// Asks the server for the parts of runs that the charts want: one question at a time, and who wants last has the word.
import { ask } from "./api.js";

const AGAIN_MS = 250;

export class RunFeed {
  #told;
  #wanted = null;
  #busy = false;
  #closed = false;

  /** @param told onRuns(runs, wanted) with a null for a run that is under way, onWait(s of the drive computed so far), onProblem(words) */
  constructor(told) {
    this.#told = told;
  }

  /** @param wanted {paths, ...}: addresses of the runs, and whatever the one who is told wants back */
  want(wanted) {
    this.#wanted = wanted;
    if (!this.#busy) this.#work();
  }

  async #work() {
    this.#busy = true;
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
          await new Promise((done) => setTimeout(done, AGAIN_MS));
        }
      } catch (problem) {
        if (this.#closed) return;
        if (this.#wanted === wanted) this.#wanted = null;
        this.#told.onProblem(problem.message);
      }
    }
    this.#busy = false;
  }

  close() {
    this.#closed = true;
  }
}

// Saves the window that is tried as a build file of its own, with its proof beside it.
import { send } from "./api.js";
import { element } from "./dom.js";

export class SaveForm {
  /** @param body what is tried, as it is sent */
  constructor(where, body) {
    this.body = body;
    this.name = element("input", { id: "save-name", maxlength: 40, placeholder: "wider-window", spellcheck: "false", autocomplete: "off" });
    this.button = element("button", {}, "Prove and save as");
    this.saved = element("div", { role: "status", id: "saved" });
    const submit = (event) => {
      event.preventDefault();
      this.#save();
    };
    where.append(
      element("form", { class: "tools", onsubmit: submit }, element("label", { for: "save-name" }, "New name"), this.name, this.button),
      this.saved,
    );
  }

  async #save() {
    this.button.disabled = true;
    this.saved.replaceChildren("Proving and writing …");
    try {
      const done = await send("/api/window/save", { ...this.body(), name: this.name.value.trim() });
      this.saved.replaceChildren(
        element("p", { class: done.held ? "good" : "bad" }, done.held ? "✓ Saved, and it holds." : "✕ Saved, and it loses: do not drive with it."),
        element("p", { class: "sums" }, `${done.file} (SHA-256 ${done.sha256}; calibration ${done.calibration}), with its proof in ${done.proof}. Nothing that runs has been changed.`),
      );
    } catch (problem) {
      this.saved.replaceChildren(element("p", { class: "bad" }, problem.message));
    } finally {
      this.button.disabled = false;
    }
  }

  /** What was saved is no longer what is tried. */
  clear() {
    this.saved.replaceChildren();
  }
}

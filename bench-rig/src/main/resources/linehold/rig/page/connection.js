// The line above the view that says what does not answer. Each part of the page has its own say in it.
import { ask } from "./api.js";

const EVERY_MS = 4000;
const said = new Map();

/** @param text "" when all is well again */
export function say(who, text) {
  said.set(who, text);
  const line = document.getElementById("connection");
  const now = [...new Set(said.values())].filter(Boolean).join(" ");
  if (line.textContent !== now) line.textContent = now;
}

/** Asks now and then whether the program is still the one that this page came from; another one needs the page anew. */
export function watch(facts) {
  const known = JSON.stringify(facts);
  const look = async () => {
    if (document.hidden) return;
    try {
      const now = await ask("/api/facts");
      if (JSON.stringify(now) !== known) location.reload();
      else say("server", "");
    } catch (problem) {
      say("server", `${problem.message} Trying again …`);
    }
  };
  setInterval(look, EVERY_MS);
  document.addEventListener("visibilitychange", look);
}

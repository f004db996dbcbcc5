// Says above every view which faults somebody has put into the simulated car, so that nobody takes them for the car's own.
import { ask } from "./api.js";
import { say } from "./connection.js";

const EVERY_MS = 2000;

/** @param kinds as the server lists them */
export function sayFaults(kinds) {
  const there = kinds.filter((kind) => kind.state !== "absent").map((kind) => kind.title);
  say("car-faults", there.length ? `Put into the simulated car: ${there.join(", ")}.` : "");
}

export async function watchFaults(facts) {
  if (!facts.rig?.startsWith("simulated")) return;
  try {
    sayFaults(await ask("/api/live-faults"));
  } catch (problem) {
    // Where the server answers, but takes no faults, there is nothing to watch; where it does not, another line says so.
    if (problem.status) return;
  }
  setTimeout(() => watchFaults(facts), EVERY_MS);
}

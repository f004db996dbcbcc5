// What the server is asked. A refusal is an Error with the server's one sentence and its status.
export async function ask(path, options = {}) {
  let answer;
  try {
    answer = await fetch(path, options);
  } catch {
    throw new Error("The rig does not answer.");
  }
  if (!answer.ok) {
    const body = await answer.text();
    let sentence = body;
    try {
      sentence = JSON.parse(body).problem ?? body;
    } catch {
      // It is plain text then.
    }
    throw Object.assign(new Error(sentence || `The rig refused with status ${answer.status}.`), { status: answer.status });
  }
  return answer.json();
}

/** This open page: what it asks later takes the place of what it asked before, where the server still works on that. */
const PAGE = Array.from(crypto.getRandomValues(new Uint32Array(2)), (part) => part.toString(36)).join("");

/** The server gives up a body that comes slower than 20 bytes a second, and takes its own pauses on a busy machine for the
 * sender's: blanks behind a short one, such as a stop, give it twelve seconds instead of a tenth. */
const LEAST_BODY = 256;

export const send = (path, value) =>
  ask(path, { method: "POST", headers: { "Content-Type": "application/json", "Page-Id": PAGE }, body: JSON.stringify(value).padEnd(LEAST_BODY) });

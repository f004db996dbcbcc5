// The page: one view at a time, named by the address, so that an address can be sent to a colleague.
import { ask } from "./api.js";
import { watchFaults } from "./car-faults.js";
import { watch } from "./connection.js";
import { element } from "./dom.js";
import { setUs, unitsAreUs } from "./units.js";

const VIEWS = [
  { name: "now", title: "Now", file: "./now.js", needsRig: true },
  { name: "drives", title: "Drives", file: "./drives.js" },
  { name: "window", title: "Window", file: "./window.js", needsRig: false },
  { name: "faults", title: "Faults", file: "./faults.js" },
  { name: "bench", title: "Bench", file: "./bench.js" },
];

const view = document.getElementById("view");
let facts;
let open = null;
let shows = 0;

/** The address after the hash: the view's name and what it wants to remember. */
function address() {
  const [name, query = ""] = location.hash.replace(/^#\/?/, "").split("?");
  return { name, state: new URLSearchParams(query) };
}

/** Remembers a view's state in the address without a step in the history. */
function remember(name, state) {
  const query = new URLSearchParams(state).toString();
  history.replaceState(null, "", `#/${name}${query ? `?${query}` : ""}`);
}

const offered = () => VIEWS.filter((one) => facts.rig || !one.needsRig);

async function show() {
  const mine = ++shows;
  const { name, state } = address();
  const wanted = offered().find((one) => one.name === name) ?? offered()[0];
  open?.close?.();
  open = null;
  for (const link of document.querySelectorAll("#views a")) {
    if (link.dataset.view === wanted?.name) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  view.replaceChildren();
  if (!wanted) {
    view.append(element("p", {}, "Nothing to show without a rig."));
    return;
  }
  document.title = `${wanted.title} – linehold`;
  const module = await import(wanted.file);
  // Another view may have been chosen while this one was on its way.
  if (mine !== shows) return;
  open = module.open(view, { facts, state, remember: (values) => remember(wanted.name, values) });
}

async function start() {
  facts = await ask("/api/facts");
  document.getElementById("build").textContent = `${facts.build}${facts.rig ? `, ${facts.rig}` : ""}`;
  document
    .getElementById("views")
    .append(...offered().map((one) => element("a", { href: `#/${one.name}`, "data-view": one.name }, one.title)));
  const units = document.getElementById("units");
  const mark = () => units.setAttribute("aria-pressed", String(unitsAreUs()));
  units.addEventListener("click", () => {
    setUs(!unitsAreUs());
    mark();
    show();
  });
  if (localStorage.getItem("units") === null) setUs(facts.units === "us");
  mark();
  addEventListener("hashchange", show);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => (open?.redraw ? open.redraw() : show()));
  for (const [event, printing] of [["beforeprint", true], ["afterprint", false]]) {
    addEventListener(event, () => {
      document.documentElement.classList.toggle("printing", printing);
      // Paper is light whatever the screen is; every view draws anew at a change of size.
      dispatchEvent(new Event("resize"));
    });
  }
  watch(facts);
  watchFaults(facts);
  await show();
}

start().catch((problem) => view.replaceChildren(element("p", { class: "bad" }, problem.message)));

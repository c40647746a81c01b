/* Which view is open is said by the address after its #, so that the way back is the reader's. */

const VIEWS = {
  stuck: ["#view-stuck", "It will not move", showStuck],
  torque: ["#view-torque", "How tight", showTorque],
  find: ["#view-find", "Find", showFind],
  entry: ["#view-entry", "Entry", showEntry],
  cards: ["#view-cards", "Cards", showCards],
  card: ["#view-cards", "Card", showCards],
};
const TABS = { entry: "find", card: "cards" };
const LOOK = "look"; // bright or dark; else as the reader's own setting has it
let look = "";
let shown = "";
let foundLast = "#find";

/* The address in its pieces: #view/part/part?name=value */
function address() {
  const [path, query] = location.hash.slice(1).split("?");
  const [view, ...parts] = path.split("/").map(plainly);
  const given = Object.fromEntries(new URLSearchParams(query));
  return { view: VIEWS[view] ? view : "stuck", parts, given };
}

function plainly(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text; // not an address of ours: it is looked for as it stands
  }
}

/* Put an address in place of the open one, the look kept with it. */
function replaceAddress(hash) {
  const [path, query] = hash.split("?");
  const given = new URLSearchParams(query);
  given.delete(LOOK);
  if (look) given.set(LOOK, look);
  const said = String(given);
  history.replaceState(null, "", said ? `${path}?${said}` : path);
}

function lastFound() {
  return foundLast;
}

async function follow(first = false) {
  const asked = address();
  if (asked.given[LOOK]) look = asked.given[LOOK];
  else if (look) replaceAddress(location.hash || "#stuck");
  paint();
  if (asked.view === "find") foundLast = location.hash.split("?")[0];
  const [selector, title, show] = VIEWS[asked.view];
  for (const view of document.querySelectorAll(".view")) view.hidden = !view.matches(selector);
  const tab = TABS[asked.view] ?? asked.view;
  for (const link of document.querySelectorAll("nav a")) {
    if (link.hash === `#${tab}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  const moved = asked.view !== shown || ["card", "entry", "stuck"].includes(asked.view);
  shown = asked.view;
  const heading = (await show(asked)) ?? one(`${selector} h1`);
  const named = ["entry", "card"].includes(asked.view) ? heading.textContent : title;
  document.title = `${named} - fastkit`;
  if (!first && moved) {
    (asked.view === "find" ? one("#find-words") : heading).focus({ preventScroll: true });
    scrollTo(0, 0);
  }
  one("#main").dataset.shows = location.hash;
}

function paint() {
  if (look) document.documentElement.dataset.look = look;
  else delete document.documentElement.dataset.look;
  for (const button of document.querySelectorAll("button[data-look]")) {
    button.setAttribute("aria-pressed", String(button.dataset.look === look));
  }
}

function begin() {
  document.documentElement.classList.add("js");
  for (const button of document.querySelectorAll("button[data-look]")) {
    button.addEventListener("click", () => {
      look = look === button.dataset.look ? "" : button.dataset.look;
      replaceAddress(location.hash || "#stuck");
      paint();
      one("#main").dataset.shows = location.hash;
    });
  }
  one(".skip").addEventListener("click", (event) => {
    event.preventDefault();
    one("#main").focus();
  });
  one("#find-words").addEventListener("input", whenTyped);
  beginTorque();
  addEventListener("hashchange", () => follow());
  addEventListener("beforeprint", () => {
    for (const how of document.querySelectorAll(".move details")) how.open = true;
  });
  follow(true);
}

begin();

/* Search as you type, and each entry's short facts. */

const MARKS = { memory: "m", practice: "p" };
const AT_ONCE = 12; // hits shown
let searching = null;

async function searcher() {
  const held = await carried("find");
  if (held && !searching) searching = new Search(held.search);
  return searching;
}

async function showFind({ parts }) {
  const input = one("#find-words");
  const words = parts.join("/");
  if (input.value !== words) input.value = words;
  const search = await searcher();
  if (!search || input.value !== words) return;
  if (!words.trim()) {
    fill(one("#find-hits"));
    one("#find-status").textContent = "";
    return;
  }
  const { readAs, hits, nearest } = search.find(words, AT_ONCE);
  fill(
    one("#find-status"),
    hits.length ? `${hits.length} found, read as ` : "Nothing found, read as ",
    made("b", {}, readAs),
    nearest.length ? `. Nearest: ${nearest.join(", ")}` : null,
  );
  const shown = hits.length ? hits : nearest.map((id) => search.entries[search.places.get(id)]);
  const stuck = search.stuck(words) ? optionLink("#stuck", "It will not move: what to do first") : null;
  fill(one("#find-hits"), stuck, made("ul", { class: "hits" }, shown.map(hitRow)));
}

const entryAddress = (id) => `#entry/${encodeURIComponent(id)}`;

function hitRow({ id, title }) {
  const words = [made("b", {}, title), made("span", { class: "id" }, id)];
  return made("li", {}, made("a", { href: entryAddress(id) }, words));
}

function whenTyped() {
  const words = encodeURIComponent(one("#find-words").value);
  replaceAddress(`#find/${words}`);
  showFind(address());
}

async function showEntry({ parts: [id] }) {
  const search = await searcher();
  if (!search) return;
  const held = await carried("find");
  const view = one("#view-entry");
  const entry = search.entries[search.places.get(id)];
  if (!entry) {
    fill(view, made("h1", { tabindex: "-1" }, "No such entry"), made("p", {}, id ?? ""));
    return;
  }
  const facts = entry.kind === "torque" ? await torqueFacts(entry.key) : entryFacts(held, entry);
  fill(
    view,
    made("h1", { tabindex: "-1" }, entry.title),
    made("p", { class: "kind" }, id),
    facts,
    made("p", { class: "step-links" }, optionLink(lastFound(), "Back to find")),
  );
}

function entryFacts({ facts, titles, governed, governs }, entry) {
  const [values, lists, sources] = facts[entry.id];
  const warned = lists.find(([name]) => name === "cautions");
  const others = lists.filter((each) => each !== warned);
  return [
    warned ? cautions(warned[1].map(([text]) => text)) : null,
    values.length ? made("dl", {}, values.flatMap(valueRow)) : null,
    ...others.flatMap(([name, rows, left]) => factList(name, rows, left, entry.id)),
    sources.length ? unfolding("Sources", list(sources.map((at) => titles[at]), { class: "facts" })) : null,
    governed.includes(entry.kind) ? made("p", {}, made("b", {}, governs)) : null,
  ];
}

function valueRow([name, words, mark]) {
  return [made("dt", {}, name), made("dd", {}, ...marked(words, mark))];
}

function marked(words, mark) {
  const letter = MARKS[mark];
  return [words, letter ? made("span", { class: "mark", title: mark }, ` ${letter}`) : null].filter(Boolean);
}

function factList(name, rows, left, id) {
  const items = rows.map(([words, mark]) => made("li", {}, ...marked(words, mark)));
  const more = left ? made("p", { class: "hint" }, `and ${left} more: fastkit show ${id}`) : null;
  return [made("h2", {}, name), made(name === "steps" ? "ol" : "ul", { class: "facts" }, items), more];
}

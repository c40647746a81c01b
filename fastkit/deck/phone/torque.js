/* How tight: the window of a thread in a class at a friction, both unit systems. */

const TORQUE_PICKS = ["thread", "class", "friction", "hangs"];
const NOTHING = { id: "", title: "none of these" };

/* One row in words; null where thread, class or condition is not on the page. */
function windowOf(torque, thread, grade, friction) {
  const { texts } = torque;
  const column = torque.frictions.find(({ id }) => id === friction)?.column;
  const held = torque.threads.find(({ id }) => id === thread)?.classes ?? [];
  const found = held.find(([number]) => torque.classes[number].id === grade);
  if (!found || column === undefined) return null;
  const [, twists, rows] = found;
  const [set, low, high, clamp, limit, opens] = torque.rows[rows[column]];
  const text = (number) => texts[number] ?? "";
  return {
    set: text(set),
    low: text(low),
    high: text(high),
    clamp: text(clamp),
    limit: text(limit),
    opens: opens.map(text),
    twistsOff: text(twists),
  };
}

function options(select, rows, chosen) {
  fill(
    select,
    rows.map(({ id, title }) => made("option", { value: id, selected: id === chosen }, title)),
  );
}

function pick(rows, id, usual) {
  return rows.find((row) => row.id === id) ?? rows.find((row) => row.id === usual) ?? rows[0];
}

/* Threads by their ids, which the trade knows; one without a window says what goes instead. */
function threadRows(torque) {
  return [...torque.threads, ...torque.others].map((row) => ({ ...row, title: row.id }));
}

async function showTorque({ parts }) {
  const torque = await carried("torque");
  if (!torque) return;
  const threads = threadRows(torque);
  const thread = pick(threads, parts[0], "M8x1.25");
  const classes = (thread.classes ?? []).map(([number]) => torque.classes[number]);
  const grade = pick(classes, parts[1], "8.8");
  const friction = pick(torque.frictions, parts[2], torque.usual);
  options(one("#torque-thread"), threads, thread.id);
  options(one("#torque-class"), classes, grade?.id);
  options(one("#torque-friction"), torque.frictions, friction.id);
  const lives = [NOTHING, ...torque.hangs.map((row) => ({ ...row, title: row.id }))];
  const life = pick(lives, parts[3], "");
  options(one("#torque-hangs"), lives, life.id);
  one("#torque-class").disabled = one("#torque-friction").disabled = !grade;
  const there = grade && !life.id;
  fill(
    one("#torque-answer"),
    life.id ? makerAlone(torque.stop, life) : null,
    there ? tightness(torque, windowOf(torque, thread.id, grade.id, friction.id), friction) : null,
    grade ? null : noWindow(thread),
    cautions([torque.caution]),
    there ? unfolding("Taken for granted", list(torque.assumed, { class: "facts" })) : null,
    made("p", { class: "step-links" }, optionLink(entryAddress(`thread:${thread.id}`), `Sizes of ${thread.id}`)),
  );
}

/* What a life hangs on: the command's own words for it. */
function makerAlone(stop, { id, because, instead }) {
  return warning("stop", "STOP", [stop.replace("{}", id), `${because}; instead: ${instead}`]);
}

function tightness(torque, { set, low, high, clamp, limit, opens, twistsOff }, friction) {
  const mu = friction.mu.map((value) => String(value));
  const facts = [
    ["clamp at that", clamp],
    ["bounded by", limit],
    ["twists off at", twistsOff],
    ["friction", `${mu[0]} to ${mu[2]}, middle ${mu[1]}`],
  ].filter(([, words]) => words);
  const rows = made("dl", {}, facts.flatMap((fact) => valueRow(fact)));
  if (!set) {
    return [
      made("p", { class: "numeral" }, "No window"),
      made("p", {}, `No setting clamps enough and spares the parts: at least ${low}, at most ${high}.`),
      opens.length ? [made("h2", {}, "What opens it"), list(opens, { class: "facts" })] : null,
      rows,
    ].flat();
  }
  return [
    made("p", { class: "setting" }, `${friction.title}. Set:`),
    made("p", { class: "numeral" }, ...numeral(set)),
    made("p", { class: "window" }, "Window ", made("b", {}, low), " to ", made("b", {}, high)),
    rows,
  ];
}

/* `17.7 N·m (13.1 lb·ft)`: the first number large, the rest beside it. */
function numeral(words) {
  const [number, ...rest] = words.split(" ");
  return [number, made("small", {}, ` ${rest.join(" ")}`)];
}

function noWindow({ reason, instead }) {
  return [
    made("p", { class: "numeral" }, "No window"),
    made("p", {}, `${reason}.`),
    made("h2", {}, "Instead"),
    list(instead, { class: "facts" }),
  ];
}

function whenPicked() {
  const picked = TORQUE_PICKS.map((name) => encodeURIComponent(one(`#torque-${name}`).value));
  replaceAddress(`#torque/${picked.join("/").replace(/\/+$/, "")}`);
  showTorque(address());
}

function beginTorque() {
  for (const name of TORQUE_PICKS) one(`#torque-${name}`).addEventListener("change", whenPicked);
}

/* What an entry of a torque says: its window at the usual friction, and where the others stand. */
async function torqueFacts(key) {
  const torque = await carried("torque");
  const [thread, grade] = key.split("@");
  const friction = pick(torque.frictions, torque.usual);
  const held = windowOf(torque, thread, grade, friction.id);
  const address = `#torque/${encodeURIComponent(thread)}/${encodeURIComponent(grade)}`;
  if (!held) return [made("p", {}, `Not worked out here: fastkit torque ${thread} ${grade}`)];
  return [
    ...tightness(torque, held, friction),
    cautions([torque.caution]),
    made("p", { class: "step-links" }, optionLink(address, "At another friction")),
  ];
}

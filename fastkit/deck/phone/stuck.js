/* It will not move: question by question to a plan that was made beforehand. */

const KIND = "kind"; // the question before all others: it leaves a few of the damages

const addressOf = (given) => `#stuck?${new URLSearchParams(given)}`;

/* The questions in order, of which the first two are what it is and what is wrong with it. */
function questions(stuck, given) {
  const kinds = { id: KIND, title: "What is it?", classes: stuck.kinds };
  const kind = stuck.kinds.find(({ id }) => id === given[KIND]);
  const [damage, ...others] = stuck.axes;
  const classes = damage.classes.filter((_, at) => kind?.damages.includes(at));
  return [kinds, { ...damage, classes }, ...others];
}

async function showStuck({ given }) {
  const stuck = await carried("stuck");
  if (!stuck) return;
  const asked = questions(stuck, given);
  const chosen = asked.map((axis) => axis.classes.find(({ id }) => id === given[axis.id]));
  const answered = chosen.findIndex((each) => !each);
  const open = answered < 0 ? asked.length : answered;
  const known = Object.fromEntries(asked.slice(0, open).map(({ id }) => [id, given[id]]));
  const rows = asked.slice(0, open).map((axis, n) => answeredRow(axis, chosen[n], known));
  const next = asked[open] ? openQuestion(asked[open], known, given, open, asked.length) : [];
  const never = open ? null : noPlan(stuck.hands_off);
  fill(one("#stuck-answer"), asked[open] ? [...next, never] : answer(stuck, chosen.slice(1)));
  fill(one("#stuck-asked"), rows.length ? [made("h2", {}, "You said"), made("ul", {}, rows)] : null);
  return rows.length ? one("#stuck-answer h2") : null;
}

/* What nobody should loosen at home, before anything is asked. */
function noPlan({ title, rows }) {
  const said = rows.map(([what, why, instead]) =>
    made("li", {}, made("b", {}, what), `: ${why}; instead: ${instead}`),
  );
  return unfolding(title, made("ul", { class: "ruled" }, said));
}

function answeredRow(axis, chosen, known) {
  const others = { ...known };
  delete others[axis.id];
  const question = made("span", { class: "question" }, axis.title);
  const change = made("span", { class: "change" }, "change");
  const words = made("span", {}, question, made("b", {}, chosen.title));
  return made("li", { class: "asked" }, made("a", { href: addressOf(others) }, words, change));
}

function openQuestion(axis, known, given, at, all) {
  const options = axis.classes.map(({ id, title }) =>
    made("li", {}, optionLink(addressOf({ ...given, ...known, [axis.id]: id }), title)),
  );
  const none = axis.outside && given.outside === axis.id;
  if (axis.outside) {
    const href = addressOf({ ...known, outside: axis.id });
    const outside = optionLink(href, axis.outside.title, { class: "option outside" });
    options.push(made("li", {}, outside));
  }
  return [
    made("h2", { tabindex: "-1" }, axis.title),
    made("p", { class: "hint" }, `Question ${at + 1} of ${all}`),
    none ? made("p", { class: "stop", role: "alert" }, axis.outside.says) : null,
    made("ul", { class: "options" }, options),
  ].filter(Boolean);
}

/* The plan of a mix of classes in words: cells count up, the first axis weighing most. */
function planOf(stuck, chosen) {
  const { texts, methods } = stuck;
  const words = (numbers) => numbers.map((number) => texts[number]);
  const place = (axis, n) => axis.classes.findIndex(({ id }) => id === chosen[n].id);
  const cell = stuck.axes.reduce((at, axis, n) => at * axis.classes.length + place(axis, n), 0);
  const plan = stuck.plans[stuck.cells[cell]];
  const [moves, more, fails, why, outs, stop, chance, minutes, dangers, after] = plan;
  return {
    more,
    why: begun(texts[why]),
    chance: texts[chance],
    minutes: texts[minutes],
    ifItFails: fails < 0 ? "" : texts[methods[fails][1]],
    stopWhen: words(stuck.lists[stop]),
    dangers: words(stuck.lists[dangers]),
    afterwards: words(stuck.lists[after]),
    moves: moves.map((number) => {
      const [method, tool, verdict, share, spent, before] = stuck.moves[number];
      const [slug, title, steps, after] = methods[method];
      return {
        slug,
        title: texts[title],
        tool: texts[tool] ?? "",
        numbers: `${texts[verdict].replace("-", " ")}: ${texts[share]}, ${texts[spent]}`,
        steps: words(steps),
        cautions: words([...before, ...after]),
      };
    }),
    ruledOut: stuck.lists[outs].map((number) => {
      const [method, because, opens] = stuck.outs[number];
      const again = texts[opens] ? ` Brought back by: ${texts[opens]}.` : "";
      return { title: texts[methods[method][1]], because: `${texts[because]}.${again}` };
    }),
  };
}

function answer(stuck, chosen) {
  const plan = planOf(stuck, chosen);
  const [first, ...rest] = plan.moves;
  const told = chosen[0].threaded ? chosen.slice(0, -1) : chosen; // the size comes last
  const corners = told.map(({ corner }) => corner).join("; ");
  const again = plan.ifItFails && plan.ifItFails === first?.title; // a stub, or a nut welded anew
  const then = again ? "the same once more, on what is left of it" : plan.ifItFails || stuck.nowhere;
  const left = plan.more === 1 ? "1 more way is" : `${plan.more} more ways are`;
  return made(
    "div",
    { class: "answer" },
    made("h2", { tabindex: "-1" }, first ? "What to do first" : "No safe way is left"),
    warning("danger", "DANGER, if it has been heated already", plan.dangers),
    first ? made("ol", {}, moveRow(first, 1)) : null,
    made("p", {}, first ? `${plan.why} If it fails: ${then}.` : plan.why),
    warning("stop", "STOP", plan.stopWhen),
    first ? made("p", { class: "also" }, `All of it: ${plan.chance}, ${plan.minutes}.`) : null,
    rest.length ? made("h2", {}, "Then") : null,
    made("ol", {}, rest.map((move, n) => moveRow(move, n + 2))),
    plan.more ? made("p", { class: "hint" }, `${left} left, not as good.`) : null,
    warning("after", "AFTER", plan.afterwards),
    unfolding(`Ruled out: ${plan.ruledOut.length}`, ruledOut(plan.ruledOut)),
    made("div", { class: "corner" }, made("b", {}, "Worked out for the worst of what you said: "), `${corners}.`),
    unfolding("Taken for granted", list(stuck.taken, { class: "facts" })),
    made("p", {}, made("b", {}, stuck.governs)),
    made("p", { class: "step-links" }, optionLink("#stuck", "Ask again")),
  );
}

function moveRow(move, rank) {
  const first = rank === 1;
  const steps = list(move.steps, { class: "facts" }, "ol");
  const inner = [
    made("h3", {}, move.title),
    move.tool ? made("p", {}, move.tool) : null,
    made("p", { class: "numbers" }, move.numbers),
    ...(first ? [steps, cautions(move.cautions)] : [unfolding("How", steps, cautions(move.cautions))]),
  ];
  return made(
    "li",
    { class: first ? "move first" : "move" },
    made("span", { class: "rank", "aria-hidden": "true" }, String(rank)),
    made("div", {}, inner),
  );
}

function ruledOut(outs) {
  const rows = outs.map(({ title, because }) => made("li", {}, made("b", {}, title), `: ${because}`));
  return made("ul", { class: "ruled" }, rows);
}

/* What was said aloud or typed in a hurry, put as it is written: fastkit/reference/heard.py, counted.py. */

function hearing(tables) {
  const { COUNTED, TENS, BELOW, GAUGES, PITCHES, LETTERS } = tables.words;
  const { SMALLEST, NEAR, MM_IN, COARSEST } = tables.numbers;
  const classes = new RegExp(`^(?:${tables.patterns.classes})$`, "u");
  const nought = ["zero", "oh", "nought"];
  const figure = (word) => (nought.includes(word) ? "0" : (COUNTED[word] ?? word));
  const number = (said) =>
    said.split(/[ -]/u).reduce((sum, word) => sum + (TENS[word] || Number(figure(word))), 0);
  const partOf = ({ above, below }) =>
    `${COUNTED[above || "one"]}/${BELOW[below.replaceAll("-", " ")]}`;
  const perInch = (size, tpi) => (GAUGES[size] ? split(GAUGES[size]).includes(String(tpi)) : false);
  const size = new RegExp(tables.patterns.size_heard, "gu");
  const writers = {
    undotted: (m) => m[0].replaceAll(".", ""),
    lettered: (m) => `${LETTERS[m[1]]} `,
    counted: (m) => COUNTED[m[1]],
    pointed: ({ groups: { whole, part } }) => `${figure(whole)}.${split(part).map(figure).join("")}`,
    class(m) {
      const said = `${COUNTED[m[1]]}.${COUNTED[m[2]]}`;
      return classes.test(said) ? said : m[0];
    },
    gauge(m) {
      const held = perInch(m[1], m[3]) && !(m[2] === "/" && m[3] === "64");
      return held ? `#${m[1]}-${m[3]}` : m[0];
    },
    figures(m) {
      const [first, second] = [number(m[1]), number(m[2])];
      return perInch(first, second) ? `#${first}-${second}` : `${first}${second}`;
    },
    hundreds: ({ groups: { first, oh, rest } }) =>
      String(100 * Number(COUNTED[first]) + number(oh || rest || "0")),
    alone: (m) => String(number(m[1]) + number(m[2] || "0")),
    fraction(m) {
      const { above, tpi } = m.groups;
      if (!above && !tpi) return m[0];
      return tpi ? `${partOf(m.groups)}-${number(tpi)}` : partOf(m.groups);
    },
    in_parts(m) {
      const { mm } = m.groups;
      const value = mm === undefined ? Number(m[0]) : Number(mm) / MM_IN;
      let [parts, below] = [Math.round(value * SMALLEST), SMALLEST];
      const thread = /m ?[\d.]+ ?x? ?$/u.test(m.line.slice(0, m.at));
      if (Math.abs(value - parts / SMALLEST) > NEAR || !parts || thread) return m[0];
      while (below > 1 && parts % 2 === 0) [parts, below] = [parts / 2, below / 2];
      const [whole, above] = [Math.floor(parts / below), parts % below];
      const size = [whole || "", above ? `${above}/${below}` : ""].filter(String).join("-");
      return mm === undefined ? size : `${size} in`;
    },
    pitched(m) {
      const size = m.groups.size || m.groups.mm;
      const { pitch } = m.groups;
      const held = PITCHES.includes(Number(pitch)) && Number(pitch) <= COARSEST * Number(size);
      return held ? `m${size}x${pitch}` : m[0];
    },
    in_tens({ groups: { before, tens, unit, ones } }) {
      return `${before}${(TENS[tens] ?? 0) + Number(COUNTED[unit || ones] ?? 0)}`;
    },
    and_a_half: ({ groups: { whole } }) => `${figure(whole)}.5`,
    together(m) {
      const sized = /^[#m0-9]/u.test(m[1]);
      const [first, last] = sized ? [m[1], m[3]] : [m[3], m[1]];
      return m.line.match(size).length === 1 ? `${first} ${last}${m[2]}` : m[0];
    },
    blade(m) {
      const ratio = Number(m[1]) / Number(m[2]);
      const slot = `slot ${plainNumber(m[1])}x${plainNumber(m[2])}`;
      return ratio >= 3 && ratio <= 9 ? slot : m[0];
    },
    mixed(m) {
      const whole = figure(m.groups.whole || "1");
      if (/m ?\d+ ?(?:x|by|,)? ?$/u.test(m.line.slice(0, m.at))) {
        const [above, below] = partOf(m.groups).split("/");
        return plainNumber(Number(whole) + above / below);
      }
      const size = `${whole}-${partOf(m.groups)}`;
      return m.groups.tpi ? `${size}-${m.groups.tpi}` : `${size} in`;
    },
  };
  const rules = tables.heard.map(([needs, pattern, text, name]) => {
    if (name && !writers[name]) throw new Error(`no writer of the name ${name}`);
    return { needs, pattern: new RegExp(pattern, "gu"), text, write: writers[name] };
  });

  return function heard(text) {
    text = text.toLowerCase();
    for (const { needs, pattern, text: written, write } of rules) {
      if (needs.length && !needs.some((need) => text.includes(need))) continue;
      text = write
        ? text.replace(pattern, (...given) => write(asMatch(given)))
        : text.replace(pattern, written);
    }
    return text.trim();
  };
}

/* What `replace` hands to a function, as one match with its named groups and the whole line. */
function asMatch(given) {
  const groups = typeof given.at(-1) === "object" ? given.pop() : {};
  const match = given.slice(0, -2);
  match.groups = groups;
  [match.at, match.line] = given.slice(-2);
  return match;
}

/* What was said aloud or typed in a hurry, put as it is written: fastkit/reference/heard.py. */

function hearing(tables) {
  const { COUNTED, TENS, PARTS_OF_INCH, GAUGES } = tables.words;
  const size = new RegExp(tables.patterns.size_heard, "gu");
  const writers = {
    undotted: (m) => m[0].replaceAll(".", ""),
    counted: (m) => COUNTED[m[1]],
    gauge(m) {
      const held = split(GAUGES[m[1]] ?? "").includes(m[3]) && !(m[2] === "/" && m[3] === "64");
      return held ? `#${m[1]}-${m[3]}` : m[0];
    },
    in_tens({ groups: { before, tens, unit, ones } }) {
      return `${before}${(TENS[tens] ?? 0) + Number(COUNTED[unit || ones] ?? 0)}`;
    },
    and_a_half: ({ groups: { whole } }) => `${COUNTED[whole] ?? whole}.5`,
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
      const whole = m.groups.whole || "1";
      const size = `${COUNTED[whole] ?? whole}-${PARTS_OF_INCH[m.groups.part]}`;
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
  match.line = given.at(-1);
  return match;
}

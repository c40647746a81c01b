/* What was said aloud or typed in a hurry, put as it is written: fastkit/reference/heard.py. */

function hearing(tables) {
  const { COUNTED, PARTS_OF_INCH, GAUGES } = tables.words;
  const writers = {
    undotted: (m) => m[0].replaceAll(".", ""),
    counted: (m) => COUNTED[m[1]],
    gauge(m) {
      const held = split(GAUGES[m[1]] ?? "").includes(m[3]) && !(m[2] === "/" && m[3] === "64");
      return held ? `#${m[1]}-${m[3]}` : m[0];
    },
    mixed(m) {
      const whole = m.groups.whole || "1";
      const size = `${COUNTED[whole] ?? whole}-${PARTS_OF_INCH[m.groups.part]}`;
      return m.groups.tpi ? `${size}-${m.groups.tpi}` : `${size} in`;
    },
  };
  const rules = tables.heard.map(([pattern, text, name]) => {
    if (name && !writers[name]) throw new Error(`no writer of the name ${name}`);
    return { pattern: new RegExp(pattern, "gu"), text, write: writers[name] };
  });

  return function heard(text) {
    text = text.toLowerCase();
    for (const { pattern, text: written, write } of rules) {
      text = write
        ? text.replace(pattern, (...given) => write(asMatch(given)))
        : text.replace(pattern, written);
    }
    return text.trim();
  };
}

/* What `replace` hands to a function, as one match with its named groups. */
function asMatch(given) {
  const groups = typeof given.at(-1) === "object" ? given.pop() : {};
  const match = given.slice(0, -2);
  match.groups = groups;
  return match;
}

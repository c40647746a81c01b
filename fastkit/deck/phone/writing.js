/* How the trade writes threads, drives and grades: fastkit/notation, read from its own table. */

const NUMBER_SHORT = 6; // digits of Python's :g

function plainNumber(text) {
  return String(Number(Number(text).toPrecision(NUMBER_SHORT)));
}

function fraction(text) {
  const cut = text.replaceAll(" ", "-").split("-");
  const part = cut.pop();
  const [above, below] = part.split("/").map(Number);
  if (!(above > 0 && above < below) || above % 2 === 0) return "";
  return cut.length ? `${cut.join("-")}-${part}` : part;
}

/* Key of the length that was read: `13mm`, `7/32in`; empty where it is none. */
function lengthKey(groups) {
  if (groups.cm) return `${plainNumber(10 * groups.cm)}mm`;
  if (groups.mm) return Number(groups.mm) > 0 ? `${plainNumber(groups.mm)}mm` : "";
  if (/^\d{3,}$/u.test(groups.inch)) return ""; // `din 472 in the gearbox` is no length
  const size = groups.inch.includes("/") ? fraction(groups.inch) : plainNumber(groups.inch);
  return size && size !== "0" ? `${size}in` : "";
}

function roughMm(size) {
  if (size.endsWith("mm")) return Number(size.slice(0, -2));
  const cut = size.slice(0, -2).split("-");
  const [above, below] = cut.pop().split("/");
  return 25.4 * (Number(cut.join("-") || 0) + Number(above) / Number(below || 1));
}

/* A pipe's inches: `1 1/4` as 1-1/4; null where it is none. */
function pipeInch(text, most) {
  if (text.includes("/")) return fraction(text) || null;
  return Number(text) > 0 && Number(text) <= most ? text : null;
}

const part = (kind, key, text) => ({ kind, key, text });

/* What reads a match, by the names of notation/rules.py and notation/other_threads.py. */
function readers(numbers, words) {
  const thread = (m, key) => (key ? [part("thread", key, m[0])] : null);
  const inches = (text) => pipeInch(text, numbers.PIPE_WHOLE);
  const fine = (text) => ["coarse", "fine"].includes(text);
  return {
    metric(m) {
      const { size, pitch, series } = m.groups;
      let { length } = m.groups;
      const value = Number(size);
      if (!(value > 0 && value <= 300)) return null;
      let key = `M${plainNumber(size)}`;
      if (pitch) {
        if (Number(pitch) > 0 && Number(pitch) <= numbers.COARSEST * value) {
          key += `x${plainNumber(pitch)}`;
        } else if (m.groups.joint.includes("x") && !length && Number(pitch) > 0) {
          length = pitch;
        } else return null;
      }
      if (series) {
        if (key.includes("x") || !fine(series)) return null;
        key += `-${series}`;
      }
      const found = thread(m, key);
      if (length) found.push(part("length", `${plainNumber(length)}mm`, m[0]));
      return found;
    },
    metric_graded: (m) => [
      ...thread(m, `M${plainNumber(m.groups.size)}`),
      part("grade", m.groups.grade, m[0]),
    ],
    metric_spaced(m) {
      const [size, pitch] = [Number(m.groups.size), Number(m.groups.pitch)];
      if (!words.PITCHES.includes(pitch) || pitch > numbers.COARSEST * size) return null;
      return thread(m, `M${plainNumber(size)}x${plainNumber(pitch)}`);
    },
    inch(m) {
      let { size } = m.groups;
      const { tpi, series, mark } = m.groups;
      if (!tpi && !series && !mark) return null;
      if (size.includes("/")) {
        size = fraction(size);
        if (!size) return null;
      } else if (mark || (tpi && Number(tpi) >= numbers.GAUGE_TPI) || Number(size) > 4) {
        if (Number(size) > 12) return null;
        size = `#${Number(size)}`;
      } else if (Number(size) === 0 || !tpi) return null;
      let key = size;
      if (tpi) {
        if (Number(tpi) < 3 || Number(tpi) > 80) return null;
        key += `-${plainNumber(tpi)}`;
      }
      if (series) key += `-${fine(series) ? series : series.toUpperCase()}`;
      return thread(m, key);
    },
    sized(m, { system, largest_mm }) {
      const size = lengthKey(m.groups);
      if (!size || roughMm(size) > largest_mm) return null;
      return [part("drive", `${system}-${size}`, m[0])];
    },
    bare_length(m) {
      const size = lengthKey(m.groups);
      return size ? [part("length", size, m[0])] : null;
    },
    key(m, { kind, head, low, high }) {
      const number = m.slice(1).find((group) => group);
      if (Number(number) < low || Number(number) > high) return null;
      return [part(kind, head + plainNumber(number), m[0])];
    },
    slot: (m) => [part("drive", `slot-${plainNumber(m[1])}x${plainNumber(m[2])}`, m[0])],
    other_grade: (m) => [
      part("grade", m.groups.key.toUpperCase().replaceAll("NUT-", "nut-"), m[0]),
    ],
    special(m) {
      const up = (letters) => letters.toUpperCase();
      return [part("drive", m.groups.key.replace(/(?<=-)[mp](?=\d)|^t(?=\d)/gu, up), m[0])];
    },
    grade: (m) => [part("grade", m.groups.key.toUpperCase().replaceAll(" ", "-"), m[0])],
    system: (m) => [part("system", m.groups.key, m[0])],
    of_series(m, { series }) {
      const size = inches(m.groups.size);
      if (size === null) return null;
      const tpi = m.groups.tpi && m.groups.tpi.replace(/[- ]1\/2/gu, ".5");
      const named = (m.groups.series || series).toUpperCase();
      return thread(m, tpi ? `${size}-${tpi}-${named}` : `${size}-${named}`);
    },
    pipe(m, { kind }) {
      const size = inches(m.groups.size);
      const taper = (m.groups.kind || "").startsWith("t") || m.groups.taper;
      return size && thread(m, `${kind || (taper ? "R" : "G")}${size}`);
    },
    tapping(m) {
      const { size } = m.groups;
      if (size.includes(".")) return words.TAPPING.includes(size) ? thread(m, `ST${size}`) : null;
      return thread(m, words.NUMBERED[size] && `ST${words.NUMBERED[size]}`);
    },
    sized_st(m) {
      const size = plainNumber(m.groups.size);
      return words.TAPPING.includes(size) ? thread(m, `ST${size}`) : null;
    },
    plug(m) {
      const { size, pitch } = m.groups;
      if (!words.PLUGS.includes(size)) return null;
      return thread(m, pitch ? `plug-M${size}x${plainNumber(pitch)}` : `plug-M${size}`);
    },
    ba: (m) => thread(m, `BA-${Number(m.groups.size)}`),
    pg: (m) => thread(m, `PG${m.groups.size}`),
    type_ab: (m) => thread(m, `#${m.groups.size}-${m.groups.tpi}-AB`),
    conduit: (m) => thread(m, `M${m.groups.size}x1.5`),
  };
}

/* Read the designations in a line; what is none comes back as words, in the line's order. */
function designations(tables) {
  const { numbers, words } = tables;
  const read = readers(numbers, words);
  const rules = tables.rules.map(([pattern, name, given]) => {
    if (!read[name]) throw new Error(`no reader of the name ${name}`);
    return { pattern: new RegExp(pattern, "uy"), read: read[name], given };
  });
  const fractions = Object.keys(words.FRACTIONS).sort((a, b) => b.length - a.length);
  const spoken = fractions.map((said) => [
    said,
    new RegExp(`(?<![\\p{L}\\p{N}_-])${said}${tables.patterns.spoken}`, "gu"),
  ]);

  /* Lower case, one blank between words, one sign for each of x, -, the decimal, the inch. */
  function plain(text) {
    for (const [sign, said] of Object.entries(words.SINGLE)) text = text.replaceAll(sign, ` ${said}`);
    text = text.toLowerCase().replace(/[×*✕]/gu, "x");
    text = text.replace(/[‐-―−]/gu, "-").replaceAll("⁄", "/");
    text = text.replace(/(?<=\d)(?: ?(?:"|″|”|''))/gu, " in ");
    text = text.replace(/(?<=\d),(?=\d)/gu, ".");
    text = text.replace(/(?<![\p{L}\p{N}_])metric (?=\d+(?:\.\d+)?(?![\d./]| ?mm))/gu, "m");
    return split(text).join(" ");
  }

  /* The line with every alias of a designation replaced by its entry, the longest first. */
  function replaced(line, aliases) {
    for (const [said, pattern] of spoken) {
      if (line.includes(said)) line = line.replace(pattern, words.FRACTIONS[said]);
    }
    const wanted = [...aliases].filter(([, id]) => /^(?:thread|drive|grade|system):/u.test(id));
    wanted.sort(([a], [b]) => longestFirst(a, b));
    for (const [said, id] of wanted) {
      if (!line.includes(said)) continue;
      const entry = id.startsWith("system:") ? id : `${id} `;
      const other = id.startsWith("system:") ? tables.patterns.other_wrenches : "";
      const found = new RegExp(
        `${other}(?<![\\p{L}\\p{N}_:/.-])${escaped(said)}(?![\\p{L}\\p{N}_:/])`,
        "gu",
      );
      line = line.split(found).join(entry.toLowerCase());
    }
    return line;
  }

  function matched(line, at) {
    for (const rule of rules) {
      rule.pattern.lastIndex = at;
      const match = rule.pattern.exec(line);
      const found = match && rule.read(match, rule.given);
      if (found) return [found, at + match[0].length];
    }
    return null;
  }

  function word(line, at) {
    const end = at + (/^[^\s,;()[\]]*/u.exec(line.slice(at))[0].length || 1);
    return [line.slice(at, end).replace(/^[.:?!'"`-]+|[.:?!'"`-]+$/gu, ""), end];
  }

  return function parse(text, aliases) {
    const line = replaced(plain(text), aliases);
    const parts = [];
    let at = 0;
    while (at < line.length) {
      if (" ,;:()[]-".includes(line[at])) {
        at += 1;
        continue;
      }
      const found = matched(line, at);
      if (found) {
        parts.push(...found[0]);
        at = found[1];
      } else {
        const [key, end] = word(line, at);
        if (key) parts.push(part("word", key, key));
        at = end;
      }
    }
    return parts;
  };
}

/* The pieces of a thread's key, whole or not: size, pitch or threads per inch, series. */
function threadName(key, sizeOf) {
  const match =
    /^((?:plug-)?M[\d.]+|#\d+|(?:\d+-)?\d+\/\d+|\d+)(?:x([\d.]+)|-([\d.]+))?(?:-([A-Za-z]+))?$/u.exec(
      key,
    );
  if (!match) return { size: key, pitch: null, series: null };
  const size = match[1] + (sizeOf[match[4] || ""] || "");
  return { size, pitch: match[2] || match[3] || null, series: match[4] || null };
}

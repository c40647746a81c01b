/* Anything by a few words, as `fastkit find`: fastkit/reference/search.py with its own weights. */

class Search {
  constructor(tables) {
    this.tables = tables;
    this.numbers = tables.numbers;
    this.sets = {};
    for (const [name, words] of Object.entries(tables.words)) {
      if (Array.isArray(words)) this.sets[name] = new Set(words);
    }
    this.entries = tables.entries.map(([id, title, , serves = ""], place) => ({
      ...idParts(id),
      title,
      serves,
      place,
    }));
    this.places = new Map(this.entries.map((entry) => [entry.id, entry.place]));
    this.spoken = new Spoken(tables, this.entries);
    for (const entry of this.entries) {
      entry.held = [entry.key, ...this.namesOf(entry.id), tables.entries[entry.place][2]].join(" ");
    }
    const said = tables.sayings.flatMap(([words]) => cut(words)).filter(alphabetic);
    this.index = new TextIndex(
      this.entries.map(({ title, held, serves }) => [title, held, serves]),
      said,
      tables.words,
    );
    this.spelling = spelling(tables, this.index);
    this.parse = designations(tables);
    this.heard = hearing(tables);
    this.scoring = new Scoring(tables, this.sets);
    this.standard = new RegExp(`^(?:${tables.patterns.standard})$`, "u");
    this.joined = new RegExp(`^(?:${tables.patterns.joined})$`, "u");
    this.pitch = new RegExp(`^(?:${tables.patterns.pitch})$`, "u");
    this.ofHexagon = new RegExp(tables.patterns.of_a_hexagon, "u");
    this.threadsOf = new Map();
    for (const [id, size, series, pitch, tpi] of tables.threads) {
      if (!this.threadsOf.has(size)) this.threadsOf.set(size, []);
      this.threadsOf.get(size).push({ id, series, pitch, tpi });
    }
  }

  namesOf(id) {
    return this.spoken.namesOf.get(id) ?? [];
  }

  /* What was understood, the hits, best first, and the ids nearest to what was not found. */
  find(words, limit = 10) {
    let text = split([...words.replaceAll("\0", " ")].slice(0, this.numbers.LONGEST).join("")).join(
      " ",
    );
    const exact = this.exact(text);
    if (exact) return { readAs: `entry ${exact.id}`, hits: [hit(exact, 100)], nearest: [] };
    if (/^\d{1,3}$/u.test(text)) text += " mm";
    const kind = text.toLowerCase().replace(/s$/u, "");
    return this.tables.words.PROMINENT.includes(kind)
      ? this.allOf(kind, limit)
      : this.asked(text, limit);
  }

  /* Entries that a line asks for which is no id, number or name of a kind. */
  asked(typed, limit) {
    const plain = this.spelling.spelt(typed);
    const lacking = this.spoken.unheld(plain, this.sets.NO_PART);
    if (lacking) {
      const nearest = this.asked(lacking[1], 3).hits.map(({ id }) => id);
      return { readAs: `${lacking[0]}, of which nothing is held`, hits: [], nearest };
    }
    const text = this.heard(this.spoken.written(this.spoken.closedUp(plain)));
    const core = split(text.toLowerCase())
      .filter((word) => !this.sets.EMPTY_WORDS.has(word.replace(/^[?!.,]+|[?!.,]+$/gu, "")))
      .join(" ");
    const lines = [typed.toLowerCase(), text];
    const names = new Map(lines.flatMap((line) => this.spoken.in(line)));
    const meant = new Map([...names].map(([said, ids]) => [said, ids[0]]));
    const parts = this.pitched(this.numbered(this.parse(text, meant)));
    const notMeant = this.scoring.denied(text);
    const terms = [...this.terms(this.meant(parts), names)].map((each) => ({
      ...each,
      denied: notMeant.has(each.phrases[0]),
    }));
    const called = this.called(text, typed, names);
    const hits = this.scored(terms, called, names, text, notMeant);
    const readAs = parts.map((part) => this.saidAs(part, terms)).join(", ");
    const standard = this.standard.exec(core);
    const held = ({ id }) => this.entries[this.places.get(id)].words.has(standard[1]);
    if (standard && !hits.some(held)) {
      return { readAs, hits: [], nearest: this.nearestOf(["source"], core.replaceAll(" ", "-")) };
    }
    const nearest = hits.length ? [] : this.nearest(parts, typed);
    return { readAs, hits: hits.slice(0, limit), nearest };
  }

  /* A part as it was read, with the known word in brackets that a misspelt one is taken for. */
  saidAs({ kind, key }, terms) {
    if (kind !== "word") return `${kind} ${key}`;
    const near = terms.filter(({ said, words }) => said === key && words.length);
    const other = near
      .map(({ words }) => words[0][0])
      .find((word) => !word.startsWith(key) && !key.startsWith(word));
    return other ? `${key} (${other})` : key;
  }

  exact(text) {
    const { kind, key } = idParts(text);
    const known = this.sets.KINDS.has(kind.toLowerCase()) && key && !key.includes(" ");
    return known ? this.entries[this.places.get(`${kind.toLowerCase()}:${key}`)] : undefined;
  }

  allOf(kind, limit) {
    const found = this.entries.filter((entry) => entry.kind === kind).slice(0, limit);
    const hits = found.map((entry) => hit(entry, this.numbers.HELD));
    return { readAs: `every ${kind}`, hits, nearest: [] };
  }

  called(text, typed, names) {
    const slug = cut(text).join("-");
    const slugs = this.tables.words.PROMINENT.map((kind) => `${kind}:${slug}`);
    const whole = names.get(text) ?? names.get(typed.toLowerCase()) ?? [];
    return [...this.held(slugs), ...whole];
  }

  /* What is asked for, part by part; words that ask for nothing left out. */
  *terms(parts, names) {
    const { EMPTY_WORDS, IDLE_WORDS, OF_THREADS, OF_BOLTS, OF_SIZES, OF_HEADS } = this.sets;
    const hole = parts.some(
      ({ kind, key }) => kind === "grade" || (kind === "word" && OF_BOLTS.has(key)),
    );
    let threaded = parts.some((part) => part.kind === "thread");
    const beside = (words) => parts.some(({ kind, key }) => kind === "word" && words.has(key));
    const sized = !(threaded || beside(OF_HEADS)) && beside(OF_SIZES);
    const nut =
      !threaded && parts.some(({ kind, key }) => kind === "word" && this.sets.NUTS.has(key));
    const materials = new Map();
    for (const [alias, ids] of names) {
      if (ids[0].startsWith("grade:")) materials.set(ids[0].toLowerCase(), alias);
    }
    const tokens = [];
    let named = false;
    const systems = parts.filter(({ kind }) => kind === "system").map(({ key }) => key);
    const shanks = parts.filter(({ kind }) => kind === "thread").map(({ text }) => text);
    for (const part of parts) {
      if (part.kind === "length" && shanks.includes(part.text)) {
        yield term({ weight: this.numbers.DIGIT });
        continue;
      }
      const square = part.kind === "drive" && part.key.startsWith(this.tables.words.SQUARE);
      const turned = square ? this.sets.TURNED : this.sets.OF_SQUARES;
      if ((part.kind === "length" || square) && beside(turned)) {
        yield term({ weight: this.numbers.DIGIT, words: [["tool", 1]] });
        continue;
      }
      let ids = this.ids(part);
      if (!ids.length) ids = this.ofSystem(part, parts);
      if (part.kind === "length" && systems.includes("hex-socket")) {
        const first = (id) => Number(!id.startsWith("drive:hex-"));
        ids.sort((a, b) => first(a) - first(b));
      }
      if (part.kind === "grade" && nut) ids = [...this.held([`grade:nut-${part.key}`]), ...ids];
      if (part.kind === "length" && (part.key.endsWith("in") ? hole : sized)) {
        const threads = ids.filter((id) => id.startsWith("thread:"));
        if (threads.length) ids = threads;
        threaded ||= threads.length > 0;
      }
      named ||= ids.length > 0;
      if (ids.length) yield this.designated(part, ids, materials);
      else if (["thread", "drive", "grade"].includes(part.kind)) {
        yield term({ weight: this.numbers.DESIGNATION });
      } else if (this.joined.test(part.key)) {
        yield term({ weight: this.numbers.NUMBER, phrases: [part.key], length: part.key });
      } else tokens.push(...cut(part.key));
    }
    const idle = (token) =>
      EMPTY_WORDS.has(token) ||
      (named && IDLE_WORDS.has(token)) ||
      (threaded && OF_THREADS.has(token));
    const asked = [...new Set(tokens)].filter((token) => !idle(token));
    for (const token of asked.slice(0, this.numbers.MOST_WORDS)) {
      const words = this.spelling.forms(token);
      const phrases = words.map(([word]) => word);
      yield term({ weight: this.weight(token), words, phrases, said: token });
    }
  }

  /* How much a word counts beside the others that were said. */
  weight(token) {
    const { DIGIT, NUMBER } = this.numbers;
    const letters = [...token].length;
    if (letters === 1) return DIGIT;
    return letters > 2 && /^\p{Nd}+$/u.test(token) ? NUMBER : 1;
  }

  designated(part, ids, materials) {
    const sized = ["thread", "length"].includes(part.kind);
    const name = (key) => threadName(key, this.tables.words.SIZE_OF);
    const phrases = new Set();
    for (const id of ids) {
      const { key } = idParts(id);
      phrases.add(key);
      if (sized) phrases.add(name(key).size);
    }
    phrases.delete("");
    const said = cut(materials.get(part.text) ?? "");
    const spelt = said.filter((word) => alphabetic(word) && !this.sets.IDLE_WORDS.has(word));
    const also = [part.key, part.key.replace(/(\d)(mm|in)$/u, "$1 $2")];
    const thread = part.kind === "thread";
    return term({
      weight: spelt.length ? 1 : this.numbers.DESIGNATION,
      ids,
      words: spelt.map((word) => [word, this.numbers.MATERIAL]),
      phrases: [...new Set([...phrases, ...spelt, ...also])],
      sizeWorth: part.kind !== "thread" || name(part.key).pitch === null ? 1 : 0.6,
      length: thread ? "" : part.key.replace(this.ofHexagon, ""),
      size: thread ? name(part.key).size : "",
    });
  }

  /* Drives of the form that was said whose size stands anywhere in the line. */
  ofSystem({ kind, key }, parts) {
    if (kind !== "system") return [];
    const { COUNTED } = this.tables.words;
    const said = parts.filter((part) => part.kind === "word" || part.kind === "length");
    const numbers = said.map((part) => part.key.replace(/mm$/u, "")).map((word) => COUNTED[word] ?? word);
    const sizes = new Set();
    for (const number of numbers.filter((word) => /^\p{Nd}+$/u.test(word))) {
      for (const before of this.sets.SIZES_BEFORE) sizes.add(before + number);
      sizes.add(`${number} mm`);
    }
    return this.tables.drives
      .filter(([, system, size]) => system === key && sizes.has(size))
      .map(([id]) => `drive:${id}`);
  }

  /* The parts with a number, read as a screw's, that is one of the form of drive beside it. */
  numbered(parts) {
    const systems = parts.filter(({ kind }) => kind === "system");
    const at = parts.findIndex((part) => {
      if (part.kind !== "thread" || !/^#\d+$/u.test(part.key)) return false;
      const word = { kind: "word", key: part.key.slice(1), text: part.text };
      return systems.some((system) => this.ofSystem(system, [word]).length);
    });
    if (at < 0) return parts;
    const { key, text } = parts[at];
    return parts.with(at, { kind: "word", key: key.slice(1), text });
  }

  /* The parts with a pitch that stands apart from its thread put to it. */
  pitched(parts) {
    for (const [n, part] of parts.entries()) {
      if (part.kind !== "thread") continue;
      for (const other of parts) {
        if (other.kind !== "word" || !this.pitch.test(other.key)) continue;
        const said = `x${other.key}`;
        const size = part.key.endsWith(said) ? part.key.slice(0, -said.length) : part.key;
        const key = size + said;
        if (this.threads(key).length) {
          return parts.with(n, { ...part, key }).filter((each) => each !== other);
        }
      }
    }
    return parts;
  }

  /* The parts less a designation that is denied, `not M8`, where something else was said. */
  meant(parts) {
    const { DENYING, EMPTY_WORDS } = this.sets;
    const denied = parts.filter(
      ({ kind }, at) => at && kind !== "word" && DENYING.has(parts[at - 1].key),
    );
    const said = parts.filter(
      (part) => !denied.includes(part) && !DENYING.has(part.key) && !EMPTY_WORDS.has(part.key),
    );
    return denied.length && said.length ? said : parts;
  }

  held(ids) {
    return ids.filter((id) => this.places.has(id));
  }

  /* Ids that a designation may stand for, the likeliest first; only those that are held. */
  ids({ kind, key }) {
    const otherwise = (first, ids) => {
      const found = this.held([first]);
      return found.length ? found : this.held(ids);
    };
    if (kind === "thread") {
      const { NUMBERED } = this.tables.words;
      const inch = Object.keys(NUMBERED).filter((n) => key === `ST${NUMBERED[n]}`);
      return [key, ...inch.map((n) => `#${n} AB`)].flatMap((each) => this.threads(each));
    }
    if (kind === "drive") {
      const [system, ...size] = key.split("-");
      const other = { hex: "AF", AF: "hex" }[system];
      return otherwise(`drive:${key}`, [`drive:${other}-${size.join("-")}`]);
    }
    if (kind === "grade") {
      return otherwise(`grade:${key}`, [70, 50, 80].map((strength) => `grade:${key}-${strength}`));
    }
    if (kind !== "length") return [];
    const drives = this.held([`drive:AF-${key}`, `drive:hex-${key}`]);
    if (key.endsWith("in")) return [...this.threads(key.replace(/in$/u, "")), ...drives];
    return [...drives, ...this.threads(`M${key.replace(/mm$/u, "")}`)];
  }

  /* Every thread that a key names, whole or not: the coarse one first, then by falling pitch. */
  threads(key) {
    const { COARSE, FINE } = this.tables.words;
    const name = threadName(key, this.tables.words.SIZE_OF);
    const sizes = name.pitch && !name.series ? [name.size, `${name.size}W`] : [name.size];
    const series = { coarse: COARSE, fine: FINE }[name.series] ?? [name.series];
    const fits = (row) =>
      (name.pitch === null || Math.abs(Number(name.pitch) - (row.tpi || row.pitch)) <= 1e-6) &&
      (name.series === null || series.includes(row.series));
    const groups = sizes.map((size) => (this.threadsOf.get(size) ?? []).filter(fits));
    const found = groups.find((group) => group.length) ?? [];
    const rank = (row) => Number(!COARSE.includes(row.series));
    return [...found]
      .sort((a, b) => rank(a) - rank(b) || b.pitch - a.pitch)
      .map((row) => `thread:${row.id}`);
  }

  scored(terms, called, names, text, notMeant) {
    const likely = this.candidates(terms, called, names);
    const ids = this.held(likely);
    const pool = new Set([...ids.map((id) => this.places.get(id)), ...indexed(this.index, this, terms)]);
    const said = [this.scoring.weighed(text), this.scoring.weighed(text, this.numbers.FAINT)];
    const words = terms.flatMap((each) => each.words.map(([word]) => word));
    const asked = [...split(text), ...cut(text), ...words];
    const heard = new Set([...asked, ...asked.map((word) => word.replace(/s$/u, ""))]);
    const order = new Map(likely.map((id, n) => [id, n]));
    const place = (found) => order.get(found.id) ?? order.size;
    const spelt = new Set(cut(text));
    const rank = ({ id }) => (called.includes(id) ? 0 : 2 - Number(whole(id, spelt)));
    const scored = [...pool].map((at) => {
      const entry = this.worded(this.entries[at]);
      const spoken = this.namesOf(entry.id).filter((name) => {
        const words = split(name.replaceAll(/[-/.]/gu, " "));
        return 2 * words.filter((word) => heard.has(word)).length >= words.length;
      });
      const given = { terms, called: new Set(called), said, names: spoken, notMeant };
      return hit(entry, toTenth(this.scoring.score(entry, given)), at);
    });
    return scored
      .filter((found) => found.score >= this.numbers.WEAKEST)
      .sort(
        (a, b) =>
          b.score - a.score || rank(a) - rank(b) || place(a) - place(b) || a.place - b.place,
      );
  }

  /* The entry with its words cut, once. */
  worded(entry) {
    entry.names ??= new Set(cut(`${entry.key} ${entry.held}`));
    entry.words ??= new Set([
      ...entry.names,
      ...cut(`${entry.kind} ${entry.title} ${entry.serves}`),
      ...(this.tables.words.CALLED[entry.kind] ?? []),
    ]);
    return entry;
  }

  /* Ids that need no index: what the line or a part of it is called, each. */
  candidates(terms, called, names) {
    const single = terms.flatMap((each) => each.ids.slice(0, 6));
    const longest = [...names.keys()].sort(longestFirst);
    const heard = longest.flatMap((name) => names.get(name).slice(0, 3));
    const found = [...called, ...single, ...heard.slice(0, this.numbers.POOL)];
    return [...new Set(found)];
  }

  /* Three ids of some kinds whose keys are nearest to one. */
  nearestOf(kinds, key) {
    const held = this.entries.filter(({ kind }) => kinds.includes(kind));
    const ids = new Map(held.map((entry) => [entry.key, entry.id]));
    return nearestOf(key, [...ids.keys()], 3).map((near) => ids.get(near));
  }

  nearest(parts, typed) {
    const named = parts.find(({ kind }) => ["thread", "drive", "grade"].includes(kind));
    if (named) return this.nearestOf([named.kind], named.key);
    const found = new Set();
    const tokens = parts.flatMap(({ key }) => cut(key)).slice(0, this.numbers.MOST_WORDS);
    for (const token of tokens) {
      for (const [word] of this.spelling.misspelt(token, 0)) {
        for (const place of this.index.every([[[word]]], 1)) found.add(this.entries[place].id);
      }
    }
    if (found.size < 3) {
      const { WRITTEN } = this.tables.words;
      for (const id of this.nearestOf(WRITTEN, parts[0]?.key ?? typed)) found.add(id);
    }
    return [...found].slice(0, 3);
  }

  /* Whether the words say that a fastener will not move. */
  stuck(text) {
    const words = split(text.toLowerCase().replaceAll("'", "")).slice(0, 20);
    this.stuckWords ??= new Set(this.tables.stuck);
    return words.some((_, at) =>
      [1, 2, 3].some((n) => this.stuckWords.has(words.slice(at, at + n).join(" "))),
    );
  }
}

function term(given) {
  return { ids: [], words: [], phrases: [], sizeWorth: 1, length: "", size: "", ...given };
}

function idParts(id) {
  const at = id.indexOf(":");
  return at < 0 ? { id, kind: id, key: "" } : { id, kind: id.slice(0, at), key: id.slice(at + 1) };
}

/* Whether an entry's key was said whole, where that says more than one word of letters. */
function whole(id, said) {
  const key = keyOf(id);
  const words = cut(key);
  return words.every((word) => said.has(word)) && !(words.length === 1 && alphabetic(key));
}

function keyOf(id) {
  return idParts(id).key;
}

function hit({ id, kind, title }, score, place = 0) {
  return { id, kind, title, score, place };
}

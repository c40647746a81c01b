/* Anything by a few words, as `fastkit find`: fastkit/reference/search.py with its own weights. */

class Search {
  constructor(tables) {
    this.tables = tables;
    this.numbers = tables.numbers;
    this.sets = {};
    for (const [name, words] of Object.entries(tables.words)) {
      if (Array.isArray(words)) this.sets[name] = new Set(words);
    }
    this.entries = tables.entries.map(([id, title], place) => ({ ...idParts(id), title, place }));
    this.places = new Map(this.entries.map((entry) => [entry.id, entry.place]));
    this.readAliases();
    for (const entry of this.entries) {
      const names = this.namesOf.get(entry.id) ?? [];
      entry.held = [entry.key, ...names, tables.entries[entry.place][2]].join(" ");
    }
    this.index = new TextIndex(this.entries.map(({ title, held }) => ({ title, words: held })));
    this.spelling = spelling(tables, this.index);
    this.parse = designations(tables);
    this.heard = hearing(tables);
    this.threadsOf = new Map();
    for (const [id, size, series, pitch, tpi] of tables.threads) {
      if (!this.threadsOf.has(size)) this.threadsOf.set(size, []);
      this.threadsOf.get(size).push({ id, series, pitch, tpi });
    }
  }

  readAliases() {
    this.spokenIds = new Map(); // words -> {first row, ids}
    this.namesOf = new Map(); // id -> its other names
    this.tables.aliases.forEach(([words, place], row) => {
      const { id } = this.entries[place];
      if (!this.spokenIds.has(words)) this.spokenIds.set(words, { row, ids: [] });
      this.spokenIds.get(words).ids.push(id);
      if (!this.namesOf.has(id)) this.namesOf.set(id, []);
      this.namesOf.get(id).push(words);
    });
  }

  /* What was understood, the hits, best first, and the ids nearest to what was not found. */
  find(words, limit = 10) {
    let text = split([...words.replaceAll("\0", " ")].slice(0, this.numbers.LONGEST).join("")).join(
      " ",
    );
    const exact = this.exact(text);
    if (exact) return { readAs: `entry ${exact.id}`, hits: [hit(exact, 100)], nearest: [] };
    if (/^\d+$/u.test(text)) text += " mm";
    const kind = text.toLowerCase().replace(/s$/u, "");
    if (this.tables.words.PROMINENT.includes(kind)) return this.allOf(kind, limit);
    text = this.heard(this.spelling.mended(this.spelling.parted(text)));
    const core = split(text.toLowerCase())
      .filter((word) => !this.sets.EMPTY_WORDS.has(word.replace(/^[?!.,]+|[?!.,]+$/gu, "")))
      .join(" ");
    const names = new Map([...this.spoken(core), ...this.spoken(text)]);
    const parts = this.parse(text, new Map([...names].map(([said, ids]) => [said, ids[0]])));
    const terms = [...this.terms(parts, names)];
    const called = this.called(text, core, names);
    const hits = this.scored(terms, called, names, text);
    const readAs = parts.map(({ kind: k, key }) => (k === "word" ? key : `${k} ${key}`)).join(", ");
    return { readAs, hits: hits.slice(0, limit), nearest: hits.length ? [] : this.nearest(parts) };
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

  /* Every alias that occurs in a text, each with the ids of the entries that it stands for. */
  spoken(text) {
    const [longest, most] = this.tables.alias_words;
    const words = split(text.toLowerCase().replace(/[^\p{L}\p{N}_/.#+&'-]+/gu, " "))
      .slice(0, most)
      .map((word) => word.replace(/^[.'-]+|[.'-]+$/gu, ""));
    const runs = new Set();
    words.forEach((_, at) => {
      for (let n = 1; n <= longest; n += 1) runs.add(words.slice(at, at + n).join(" "));
    });
    for (const run of [...runs]) runs.add(run.replaceAll("-", " "));
    for (const run of [...runs]) {
      runs.add(run.replace(/(?<=[a-z]{3})(?<!s)s(?![\p{L}\p{N}_])/gu, ""));
    }
    const found = [...runs].filter((run) => this.spokenIds.has(run));
    found.sort((a, b) => this.spokenIds.get(a).row - this.spokenIds.get(b).row);
    return found.map((run) => [run, this.spokenIds.get(run).ids]);
  }

  called(text, core, names) {
    const whole = names.get(text.toLowerCase()) ?? names.get(core.replace(/^[?!.]+|[?!.]+$/gu, ""));
    const slug = cut(text).join("-");
    const slugs = this.tables.words.PROMINENT.map((kind) => `${kind}:${slug}`);
    return [...(whole ?? []), ...this.held(slugs)];
  }

  /* What is asked for, part by part; words that ask for nothing left out. */
  *terms(parts, names) {
    const { EMPTY_WORDS, IDLE_WORDS, OF_THREADS } = this.sets;
    const materials = new Map();
    for (const [alias, ids] of names) {
      if (ids[0].startsWith("grade:")) materials.set(ids[0].toLowerCase(), alias);
    }
    const tokens = [];
    let named = false;
    for (const part of parts) {
      const ids = this.ids(part);
      named ||= ids.length > 0;
      if (ids.length) yield this.designated(part, ids, materials);
      else if (["thread", "drive", "grade"].includes(part.kind)) {
        yield term({ weight: this.numbers.DESIGNATION });
      } else tokens.push(...cut(part.key));
    }
    const threaded = parts.some((part) => part.kind === "thread");
    const idle = (token) =>
      EMPTY_WORDS.has(token) ||
      (named && IDLE_WORDS.has(token)) ||
      (threaded && OF_THREADS.has(token));
    const asked = [...new Set(tokens)].filter((token) => !idle(token));
    for (const token of asked.slice(0, this.numbers.MOST_WORDS)) {
      const words = this.spelling.forms(token);
      const weight = [...token].length === 1 ? this.numbers.DIGIT : 1;
      yield term({ weight, words, phrases: words.map(([word]) => word) });
    }
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
    const spelt = cut(materials.get(part.text) ?? "").filter((w) => !this.sets.IDLE_WORDS.has(w));
    const length = part.kind === "length" ? part.key : "";
    const also = length ? [length, length.replace(/(\d)(mm|in)$/u, "$1 $2")] : [];
    return term({
      weight: spelt.length ? 1 : this.numbers.DESIGNATION,
      ids,
      words: spelt.map((word) => [word, this.numbers.MATERIAL]),
      phrases: [...phrases, ...spelt, ...also],
      sizeWorth: part.kind !== "thread" || name(part.key).pitch === null ? 1 : 0.6,
      length,
    });
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
    if (kind === "thread") return this.threads(key);
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

  scored(terms, called, names, text) {
    const likely = this.candidates(terms, called, names);
    const pool = new Set(this.held(likely).map((id) => this.places.get(id)));
    for (const place of this.indexed(terms)) pool.add(place);
    const said = weighed(text, this.sets, this.numbers);
    const asked = { terms, called: new Set(called), said };
    const order = new Map(likely.map((id, n) => [id, n]));
    const place = (found) => order.get(found.id) ?? order.size;
    return [...pool]
      .map((at) => hit(this.entries[at], toTenth(this.score(this.entries[at], asked)), at))
      .filter((found) => found.score >= this.numbers.WEAKEST)
      .sort((a, b) => b.score - a.score || place(a) - place(b) || a.place - b.place);
  }

  /* Ids that need no index: what the line or a part of it is called, torques, each. */
  candidates(terms, called, names) {
    const keys = (kind) =>
      terms.flatMap((each) => each.ids.filter((id) => id.startsWith(`${kind}:`)).map(keyOf));
    const grades = keys("grade").slice(0, 4);
    const joined = keys("thread")
      .slice(0, 4)
      .flatMap((thread) => grades.map((grade) => `torque:${thread}@${grade}`));
    const single = terms.flatMap((each) => each.ids.slice(0, 6));
    const longest = [...names.keys()].sort(longestFirst);
    const heard = longest.flatMap((name) => names.get(name).slice(0, 3));
    const found = [...called, ...joined, ...single, ...heard.slice(0, this.numbers.POOL)];
    return [...new Set(found)];
  }

  /* Entries of the index that hold every term; where few do, those that hold a telling one. */
  indexed(terms) {
    const { POOL, ONE_LEFT_OUT, COMMON } = this.numbers;
    const groups = terms
      .map((each) => each.phrases.map(folded).filter((words) => words.length))
      .filter((group) => group.length);
    if (!groups.length) return [];
    const found = this.index.every(groups, POOL);
    if (found.length >= 3) return found;
    if (groups.length > 2 && groups.length <= ONE_LEFT_OUT) {
      for (const leftOut of groups) {
        found.push(...this.index.every(groups.filter((group) => group !== leftOut), POOL));
      }
    }
    const telling = groups.filter((group) => this.index.any(group).length <= COMMON);
    return telling.length ? [...found, ...this.index.ranked(telling, POOL)] : found;
  }

  nearest(parts) {
    const named = parts.find(({ kind }) => ["thread", "drive", "grade"].includes(kind));
    if (named) {
      const keys = this.entries.filter(({ kind }) => kind === named.kind).map(({ key }) => key);
      return nearestOf(named.key, keys, 3).map((key) => `${named.kind}:${key}`);
    }
    const found = new Set();
    for (const { key } of parts) {
      for (const token of cut(key).slice(0, this.numbers.MOST_WORDS)) {
        for (const [word] of this.spelling.misspelt(token, 0)) {
          found.add(this.entries[this.index.any([[word]])[0]].id);
        }
      }
    }
    return [...found].slice(0, 3);
  }

  /* How much of what was asked the entry holds, and how much of its name was said. */
  score(entry, { terms, called, said }) {
    const { HELD, NAMED, SOURCE } = this.numbers;
    if (called.has(entry.id)) return 100;
    entry.words ??= new Set(cut(`${entry.kind} ${entry.key} ${entry.title} ${entry.held}`));
    const names = this.namesOf.get(entry.id) ?? [];
    const other = byOtherName(names, said, this.sets, this.numbers);
    const asked = terms.reduce((sum, each) => sum + each.weight, 0);
    const held = terms.reduce((sum, each) => sum + each.weight * this.heldBy(entry, each), 0);
    if (!asked || !held) return other;
    let score = (HELD * held) / asked + NAMED * this.named(entry, terms, names);
    score = Math.max(score, Math.min(other + score / 100, 100));
    return score * (entry.kind === "source" ? SOURCE : 1);
  }

  /* What the match of one term with an entry is worth, 0 to 1. */
  heldBy(entry, { ids, words, phrases, sizeWorth, length }) {
    if (ids.length) {
      const at = ids.indexOf(entry.id);
      if (at >= 0) return 1 - 0.02 * at;
      const pieces = entry.kind === "torque" ? entry.key.split("@") : [entry.key];
      const best = ids.findIndex((id) => pieces.includes(keyOf(id)));
      if (best >= 0) return 1 - 0.02 * best;
      const bySize = this.sets.SIZED.has(entry.kind);
      if (bySize && phrases.some((phrase) => entry.key.endsWith(`-${phrase}`))) return sizeWorth;
      if (length && measures(entry, length)) return this.numbers.MEASURED;
    }
    return Math.max(0, ...words.map(([word, worth]) => (entry.words.has(word) ? worth : 0)));
  }

  /* Share of the entry's name that was said: of its key, its title or its best other name. */
  named(entry, terms, names) {
    if (terms.some(({ ids }) => ids.includes(entry.id))) return 1;
    if (terms.some(({ ids }) => ids.length)) {
      const saidKind = terms.some(({ words }) => words.some(([word]) => word === entry.kind));
      return saidKind ? this.numbers.KIND_SAID : 0;
    }
    const said = new Map();
    for (const { words } of terms) {
      for (const [word, worth] of [...words].reverse()) said.set(word, worth);
    }
    const shares = [entry.key, entry.title, ...names].map((name) => {
      const words = cut(name).filter((word) => !this.sets.EMPTY_WORDS.has(word));
      return words.reduce((sum, word) => sum + (said.get(word) ?? 0), 0) / (words.length || 1);
    });
    return Math.max(0, ...shares);
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
  return { ids: [], words: [], phrases: [], sizeWorth: 1, length: "", ...given };
}

function idParts(id) {
  const at = id.indexOf(":");
  return at < 0 ? { id, kind: id, key: "" } : { id, kind: id.slice(0, at), key: id.slice(at + 1) };
}

function keyOf(id) {
  return idParts(id).key;
}

function hit({ id, kind, title }, score, place = 0) {
  return { id, kind, title, score, place };
}

/* Whether the length stands in the entry's own key or title, not as a part of a longer one. */
function measures(entry, length) {
  const spaced = escaped(length).replace(/(\d)(mm|in)$/u, "$1 ?$2");
  const pattern = new RegExp(`(?<![\\d/.])(?<!\\d-)${spaced}(?![a-z])`, "u");
  return pattern.test(`${entry.id} ${entry.title}`);
}

/* The words that ask for something, each with its weight; a figure's parts share one. */
function weighed(text, sets, numbers) {
  const said = new Map();
  for (const token of split(text)) {
    const words = cut(token);
    const figures = /\p{Nd}|[²³¹]/u.test(token);
    for (const word of words) said.set(word, figures ? numbers.FIGURES / words.length : 1);
  }
  return new Map([...said].filter(([word]) => !sets.UNWEIGHED.has(word)));
}

/* The score of an entry one of whose other names was said whole, in whatever order. */
function byOtherName(names, said, sets, numbers) {
  const held = new Map([...said].map(([word, weight]) => [word.replace(/s$/u, ""), weight]));
  for (const [word, weight] of said) held.set(word, weight);
  const idle = (word) => sets.IDLE_WORDS.has(word) || sets.OF_THREADS.has(word);
  const sum = (words) => words.reduce((all, word) => all + held.get(word), 0);
  const asked = sum([...said.keys()].filter((word) => !idle(word)));
  let best = 0;
  for (const name of names) {
    const words = [...new Set(cut(name).filter((word) => !sets.UNWEIGHED.has(word)))];
    if (words.length < 2 || !words.every((word) => held.has(word))) continue;
    const whole = sum(words);
    const share = (numbers.ALIAS * whole) / (asked + sum(words.filter(idle)));
    best = Math.max(best, share + numbers.WORDY * words.length);
  }
  return Math.min(best, 100);
}

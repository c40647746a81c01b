/* How well an entry answers a question, 0 to 100: fastkit/reference/scoring.py and said.py. */

class Scoring {
  constructor(tables, sets) {
    this.numbers = tables.numbers;
    this.sets = sets;
    this.seldom = tables.words.SELDOM;
    this.called = tables.words.CALLED;
    this.figures = new RegExp(tables.patterns.figures, "gu");
  }

  /* How much of what was asked the entry holds, and how much of its name was said. */
  score(entry, { terms, called, said, names, notMeant }) {
    const { HELD, NAMED } = this.numbers;
    if (called.has(entry.id)) return 100;
    let saidOf = said[Number(this.sets.UNSIZED.has(entry.kind))];
    if (notMeant.size && !this.denies(entry)) {
      const meant = ([word]) => !notMeant.has(word) && !this.sets.DENYING.has(word);
      saidOf = new Map([...saidOf].filter(meant));
    }
    const named = this.byOtherName(names, saidOf) * this.own(entry, terms);
    if (this.sets.OF_ANY_SIZE.has(entry.kind)) {
      const faint = (each) => ({ ...each, weight: each.weight * this.numbers.FAINTLY });
      terms = terms.map((each) => (sizes(each) ? faint(each) : each));
    }
    const asked = terms.reduce((sum, each) => sum + each.weight, 0);
    const held = terms.reduce((sum, each) => sum + each.weight * this.heldBy(entry, each), 0);
    if (!asked || !held) return named;
    let found = (HELD * held) / asked + NAMED * this.named(entry, terms, names);
    found = Math.max(found, named);
    return found * (this.seldom[entry.kind] ?? (this.unsaid(entry, terms) ? this.numbers.UNSAID : 1));
  }

  /* Whether an entry is keyed by a thread, and its kind, called by a name, was not said. */
  unsaid({ kind }, terms) {
    const by = this.sets.THREADED.has(kind) ? this.called[kind] : undefined;
    return by && !terms.some(({ words }) => words.some(([word]) => by.includes(word)));
  }

  /* What another name is worth where a thread was read that may not be the entry's. */
  own(entry, terms) {
    const threads = terms.filter(sizes);
    if (!threads.length) return 1;
    if (this.sets.THREADED.has(entry.kind)) {
      return Number(threads.some((each) => this.heldBy(entry, each)));
    }
    return entry.kind === "tube" ? this.numbers.ANOTHER : 1;
  }

  /* What the match of one term with an entry is worth, 0 to 1. */
  heldBy(entry, { ids, words, phrases, sizeWorth, length, size, denied }) {
    if (denied && !this.denies(entry)) {
      return words.some(([word]) => entry.words.has(word)) ? 0 : this.numbers.LACKED;
    }
    if (ids.length) {
      const pieces = entry.kind === "torque" ? entry.key.split("@") : [entry.key];
      const best = ids.findIndex((id) => pieces.includes(keyOf(id)));
      if (best >= 0) return 1 - 0.02 * best;
      const ends = [...phrases, length.replace(/(\d)(mm|in)$/u, "$1")];
      const bySize = this.sets.SIZED.has(entry.kind);
      if (bySize && ends.some((end) => entry.key.endsWith(`-${end}`))) return sizeWorth;
      if (size && !this.sets.OF_ONE_THREAD.has(entry.kind) && holds(entry.id, size)) {
        return this.numbers.MEASURED * sizeWorth;
      }
      const lengths = [...(entry.kind === "tube" ? ids.map(keyOf) : []), length].filter(Boolean);
      const text = `${entry.id} ${entry.title}`;
      if (lengths.some((each) => holds(text, each))) return this.numbers.MEASURED;
    } else if (length) {
      return Number(stands(length, `${entry.id} ${entry.title} ${entry.held}`));
    }
    const worths = words.map(([word, worth]) => {
      if (!entry.words.has(word)) return 0;
      const beside = /^\p{Nd}+$/u.test(word) && !entry.names.has(word);
      return worth * (beside ? this.numbers.BESIDE : 1);
    });
    return Math.max(0, ...worths);
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

  denies(entry) {
    return [...this.sets.DENYING].some((word) => entry.words.has(word));
  }

  /* The words of letters that come after one that denies them. */
  denied(text) {
    const { ARTICLES, DENYING, UNWEIGHED } = this.sets;
    const words = cut(text.replaceAll("'", "")).filter((word) => !ARTICLES.has(word));
    const found = words.filter((word, at) => at && DENYING.has(words[at - 1]));
    return new Set(found.filter((word) => alphabetic(word) && !UNWEIGHED.has(word)));
  }

  /* The words that ask for something, each with its weight; a figure's parts share one. */
  weighed(text, figure = this.numbers.FIGURES) {
    const said = new Map();
    for (const token of split(text)) {
      const words = cut(token);
      const figures = /\p{Nd}|[²³¹]/u.test(token);
      for (const joined of token.match(this.figures) ?? []) said.set(joined, 0);
      for (const word of words) said.set(word, figures ? figure / words.length : 1);
    }
    return new Map([...said].filter(([word]) => !this.sets.UNWEIGHED.has(word)));
  }

  /* The score of an entry one of whose other names was said whole, in whatever order. */
  byOtherName(names, said) {
    const held = new Map([...said].map(([word, weight]) => [word.replace(/s$/u, ""), weight]));
    for (const [word, weight] of said) held.set(word, weight);
    const idle = (word) => this.sets.IDLE_WORDS.has(word) || this.sets.OF_THREADS.has(word);
    const sum = (words) => words.reduce((all, word) => all + held.get(word), 0);
    const asked = sum([...said.keys()].filter((word) => !idle(word)));
    const all = (words) => [...words].every((word) => held.has(word));
    let best = 0;
    for (const name of names) {
      const words = new Set(cut(name).filter((word) => !this.sets.UNWEIGHED.has(word)));
      if (!all(words)) continue;
      for (const joined of name.match(this.figures) ?? []) words.add(joined);
      if (words.size < 2 || !all(words)) continue;
      const share = this.numbers.ALIAS * sum([...words]);
      const worth = share / (asked + sum([...words].filter(idle)));
      best = Math.max(best, worth + this.numbers.WORDY * words.size);
    }
    return Math.min(best, 100);
  }
}

function sizes({ ids }) {
  return ids[0]?.startsWith("thread:");
}

/* Whether the size stands in an entry's key or title, not as a part of a longer one. */
function holds(text, size) {
  const spaced = escaped(size).replace(/(\d)(mm|in)$/u, "$1 ?$2");
  return new RegExp(`(?<![\\d/.])(?<!\\d-(?=\\d))${spaced}(?![A-Za-z])`, "u").test(text);
}

/* Whether the joined figures stand in the text, not as a part of longer ones. */
function stands(figures, text) {
  const pattern = `(?<![\\p{L}\\p{N}_./])(?<!\\d-)${escaped(figures)}(?!\\d|[./-]\\d)`;
  return new RegExp(pattern, "u").test(text.toLowerCase());
}

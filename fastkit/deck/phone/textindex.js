/* The index of entries: which hold words or phrases, ranked as the command's index ranks. */

const K1 = 1.2; // of the ranking function BM25, as SQLite's FTS5 sets them
const B = 0.75;

function folded(text) {
  return cut(text.normalize("NFD").replace(/\p{M}/gu, ""));
}

class TextIndex {
  /* Entries: [title, words, what they are for], in the order in which they are found; words that none holds. */
  constructor(entries, others, sounding) {
    this.held = entries.map((columns) => columns.map(folded));
    this.places = new Map(); // word -> places of the entries that hold it
    this.starts = new Map(); // first two words of its key and other names -> places
    this.length = 0;
    this.held.forEach((columns, place) => {
      const start = columns[1].slice(0, 2).join(" ");
      if (!this.starts.has(start)) this.starts.set(start, []);
      this.starts.get(start).push(place);
      this.length += columns.flat().length;
      for (const word of new Set(columns.flat())) {
        if (!this.places.has(word)) this.places.set(word, []);
        this.places.get(word).push(place);
      }
    });
    this.terms = [...new Set([...this.places.keys(), ...others])].sort(below);
    this.known = new Set(this.terms);
    this.sounds = new Map();
    for (const term of this.terms) {
      const sound = soundOf(term, sounding);
      if (!this.sounds.has(sound)) this.sounds.set(sound, []);
      this.sounds.get(sound).push(term);
    }
    this.kept = new Map();
    this.pairs = new Map();
    for (const term of this.terms) {
      for (const pair of letterPairs(term)) {
        if (!this.pairs.has(pair)) this.pairs.set(pair, []);
        this.pairs.get(pair).push(term);
      }
    }
  }

  knows(word) {
    return this.known.has(word);
  }

  /* In how many entries a word stands. */
  count(word) {
    return this.places.get(word)?.length ?? 0;
  }

  /* The words that a beginning has been typed of, in the order of letters. */
  begun(start) {
    let [low, high] = [0, this.terms.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.terms[middle] <= start) low = middle + 1;
      else high = middle;
    }
    let end = low;
    while (end < this.terms.length && this.terms[end].startsWith(start)) end += 1;
    return this.terms.slice(low, end);
  }

  /* Words that share pairs of letters with one, those with most in common first. */
  sharing(word, most) {
    const length = [...word].length;
    const shared = new Map();
    for (const pair of letterPairs(word)) {
      for (const term of this.pairs.get(pair) ?? []) {
        if (Math.abs([...term].length - length) <= 2) shared.set(term, (shared.get(term) ?? 0) + 1);
      }
    }
    const ranked = [...shared].sort(([a, n], [b, m]) => m - n || below(a, b));
    return ranked.slice(0, most).map(([term]) => term);
  }

  /* Where a phrase stands: place of an entry -> how often. */
  hits(phrase) {
    const key = phrase.join(" ");
    if (!this.kept.has(key)) this.kept.set(key, this.counted(phrase));
    return this.kept.get(key);
  }

  counted(phrase) {
    const found = new Map();
    if (!phrase.every((word) => this.places.has(word))) return found;
    const rarest = phrase.reduce((a, b) => (this.count(b) < this.count(a) ? b : a));
    for (const place of this.places.get(rarest)) {
      let n = 0;
      for (const words of this.held[place]) {
        for (let at = words.indexOf(phrase[0]); at >= 0; at = words.indexOf(phrase[0], at + 1)) {
          n += phrase.every((word, k) => words[at + k] === word);
        }
      }
      if (n) found.set(place, n);
    }
    return found;
  }

  /* Places of the entries that hold one of a group's phrases, in order. */
  any(group) {
    const found = new Set(group.flatMap((phrase) => [...this.hits(phrase).keys()]));
    return [...found].sort((a, b) => a - b);
  }

  /* Places of the entries that hold a phrase of each group. */
  every(groups, most) {
    const [first, ...rest] = groups;
    const others = rest.map((group) => new Set(this.any(group)));
    return this.any(first)
      .filter((place) => others.every((held) => held.has(place)))
      .slice(0, most);
  }

  /* Places of the entries whose key begins with two of the words, in whatever order. */
  begunWith(words, most) {
    const [all, found] = [words.flatMap(folded), new Set()];
    all.forEach((a, at) => {
      all.forEach((b, n) => {
        if (n !== at) for (const place of this.starts.get(`${a} ${b}`) ?? []) found.add(place);
      });
    });
    return [...found].sort((a, b) => a - b).slice(0, most);
  }

  /* Places of the entries that hold a phrase of any group, the most telling first. */
  ranked(groups, most) {
    const worth = new Map();
    const mean = this.length / this.held.length;
    for (const phrase of groups.flat()) {
      const hits = this.hits(phrase);
      const rare = Math.log((this.held.length - hits.size + 0.5) / (hits.size + 0.5));
      const weight = rare > 0 ? rare : 1e-6;
      for (const [place, n] of hits) {
        const length = this.held[place].reduce((sum, words) => sum + words.length, 0);
        const share = (n * (K1 + 1)) / (n + K1 * (1 - B + (B * length) / mean));
        worth.set(place, (worth.get(place) ?? 0) + weight * share);
      }
    }
    const found = [...worth].sort(([a, x], [b, y]) => y - x || a - b);
    return found.slice(0, most).map(([place]) => place);
  }
}

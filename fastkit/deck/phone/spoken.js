/* What the trade calls things, and what people say for it: fastkit/reference/aliases.py. */

class Spoken {
  constructor(tables, entries) {
    this.tables = tables;
    this.said = new Map(); // words -> {first row, ids}
    this.namesOf = new Map(); // id -> its other names
    const none = ([, written]) => written.startsWith(tables.nothing);
    this.sayings = new Map(tables.sayings.filter((saying) => !none(saying)));
    this.lacking = new Map(tables.sayings.filter(none));
    this.inches = new RegExp(tables.patterns.inches, "u");
    this.metric = new RegExp(`^(?:${tables.patterns.metric})`, "u");
    this.size = new RegExp(`^(?:${tables.patterns.size})$`, "u");
    tables.aliases.forEach(([words, place], row) => {
      const { id } = entries[place];
      if (!this.said.has(words)) this.said.set(words, { row, ids: [] });
      this.said.get(words).ids.push(id);
      if (!this.namesOf.has(id)) this.namesOf.set(id, []);
      this.namesOf.get(id).push(words);
    });
  }

  /* The words that stand together in a line, one to six of them. */
  runs(text) {
    const [longest, most] = this.tables.alias_words;
    const words = split(text.toLowerCase().replace(/[^\p{L}\p{N}_/.#+&'-]+/gu, " "))
      .slice(0, most)
      .map((word) => word.replace(/^[.'-]+|[.'-]+$/gu, ""));
    const found = new Set();
    words.forEach((_, at) => {
      for (let n = 1; n <= longest; n += 1) found.add(words.slice(at, at + n).join(" "));
    });
    return found;
  }

  /* Every alias that occurs in a text, each with the ids of the entries that it stands for. */
  in(text) {
    const runs = this.runs(text);
    for (const run of [...runs]) runs.add(run.replaceAll("-", " "));
    for (const run of [...runs]) {
      runs.add(run.replace(/(?<=[a-z]{3})(?<!s)s(?![\p{L}\p{N}_])/gu, ""));
    }
    const found = [...runs].filter((run) => this.said.has(run));
    found.sort((a, b) => this.said.get(a).row - this.said.get(b).row);
    return found.map((run) => [run, this.said.get(run).ids]);
  }

  /* The part that a line asks for, and the line with what is like it, where there is none. */
  unheld(text, idle) {
    const bare = (word) => word.replace(/^[?!.,]+|[?!.,]+$/gu, "");
    const words = split(text.toLowerCase()).filter((word) => !idle.has(bare(word)));
    const sizes = words.filter((word) => /[\p{Nd}\p{No}]/u.test(word));
    const named = words.filter((word) => !sizes.includes(word)).join(" ");
    const like = this.lacking.get(named) ?? this.lacking.get(named.replace(/s$/u, ""));
    return like ? [named, [like.slice(this.tables.nothing.length), ...sizes].join(" ")] : null;
  }

  /* The text with a size that parts a name put before it: `m6 brass bolt` of brass m6 bolt. */
  closedUp(text) {
    const words = split(text.toLowerCase()).slice(0, this.tables.alias_words[1]);
    const joined = (a, b, less = -1) =>
      words.slice(a, b).filter((_, n) => a + n !== less).join(" ");
    const named = (run) => this.said.has(run) || this.sayings.has(run) || this.lacking.has(run);
    for (let at = 1; at < words.length - 1; at += 1) {
      if (!this.size.test(words[at])) continue;
      const begins = [at - 2, at - 1].filter((a) => a >= 0);
      const ends = [at + 2, at + 3].filter((b) => b <= words.length);
      const across = begins.flatMap((a) => ends.map((b) => joined(a, b, at)));
      const withIt = [...begins.map((a) => joined(a, at + 1)), ...ends.map((b) => joined(at, b))];
      if (across.some(named) && !withIt.some(named)) {
        return [words[at], joined(0, words.length, at)].join(" ");
      }
    }
    return text;
  }

  /* The text with what people say as the data has it, the longest first. */
  written(text) {
    const found = [...this.runs(text)].filter((run) => this.sayings.has(run));
    const inches = this.inches.test(text.toLowerCase());
    for (const words of found.sort(longestFirst)) {
      if (inches && this.metric.test(this.sayings.get(words))) continue;
      const whole = new RegExp(
        `(?<![\\p{L}\\p{N}_/.-])${escaped(words)}(?![\\p{L}\\p{N}_/-])`,
        "gu",
      );
      text = text.toLowerCase().split(whole).join(this.sayings.get(words));
    }
    return text;
  }
}

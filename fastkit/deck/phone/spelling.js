/* Words as the file knows them: begun, ended otherwise, misspelt: fastkit/reference/spelling.py. */

function spelling(tables, index) {
  const { BEGUN, STEM, SPELLING, COMPARED, SHORT, ONE_SLIP, TWO_SLIPS } = tables.numbers;
  const { HEARD_AS, UNHEARD, VOWELS } = tables.words;
  const soundsAs = (word) => soundOf(word, { HEARD_AS, UNHEARD });
  const read = new Set(tables.words.READ);
  const plain = new Set([
    ...[...tables.words.READ, ...tables.words.EMPTY_WORDS],
    ...[...tables.words.BESIDE, ...tables.words.KINDS_CALLED, ...tables.plain],
  ]);
  const glued = [
    [new RegExp(tables.patterns.glued_size, "gu"), 1],
    [new RegExp(tables.patterns.glued_word, "gu"), 0],
  ];
  const drives = new Set(
    tables.aliases
      .filter(([words, place]) => tables.entries[place][0].startsWith("system:") && !words.includes(" "))
      .map(([words]) => words)
      .filter((words) => [...words].length >= SHORT),
  );
  const first = new Set([...drives, ...read]);
  const kept = new Map();
  const known = (token) => plain.has(token) || index.knows(token);

  function likest(token, terms, least) {
    const found = terms.map((word) => [word, ratio(token, word)]).filter(([, like]) => like >= least);
    found.sort(([a, x], [b, y]) => y - x || below(a, b));
    return found.map(([word, like]) => [word, like / 100]);
  }

  function misspelt(token, least = SPELLING) {
    return likest(token, index.sharing(token, COMPARED), least).slice(0, 4);
  }

  function tokens(text, letters) {
    const words = text.toLowerCase().match(/[\p{L}\p{N}_]+/gu) ?? [];
    const lettered = words.filter((word) => /^[\p{L}\p{No}\p{Nl}]+$/u.test(word));
    return new Set(lettered.filter((word) => [...word].length >= letters));
  }

  const whole = (token) =>
    new RegExp(`(?<![\\p{L}\\p{N}_])${escaped(token)}(?![\\p{L}\\p{N}_])`, "giu");

  /* The known word that an unknown one is surely a slip of; empty where it may be none. */
  function slip(token) {
    if (!kept.has(token)) kept.set(token, meantBy(token));
    return kept.get(token);
  }

  function meantBy(token) {
    const letters = [...token];
    if (letters.length > tables.numbers.LONGEST_WORD) return "";
    const begun = [...drives].filter((name) => token.startsWith(name)).sort(below);
    if (begun.length) return begun.at(-1);
    const heard = soundsAs(token);
    const short = letters.length <= SHORT;
    const voiced = letters.slice(short ? 0 : 1).some((letter) => VOWELS.includes(letter));
    const bare = [...heard].length > 2 && !voiced;
    const most = Number(letters.length >= TWO_SLIPS) + Number(letters.length >= ONE_SLIP);
    const found = [];
    for (const term of new Set([...near(token, heard, bare, short), ...first])) {
      const same = Number(soundsAs(term) === heard);
      const named = first.has(term) && Math.min([...term].length, letters.length) >= SHORT;
      const slips = same && bare ? 0 : slipsBetween(token, term);
      if (slips <= Math.max(most, Number(named)) + (short ? 0 : same)) {
        found.push([slips - same, Number(!first.has(term)), -index.count(term), term]);
      }
    }
    found.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || below(a[3], b[3]));
    return found.length ? found[0][3] : "";
  }

  function near(token, heard, bare, short) {
    const same = bare || !short ? (index.sounds.get(heard) ?? []) : [];
    const alike = short || index.begun(token).length ? [] : index.sharing(token, COMPARED);
    return [...same.filter((term) => [...term].length > 2), ...alike];
  }

  /* The text with words joined or parted as the file has them, and misspelt ones put right. */
  function spelt(text) {
    const letter = "[\\p{L}\\p{No}\\p{Nl}]";
    const hyphen = new RegExp(`(?<=${letter}{2})-(?=${letter}{2})`, "gu");
    return mended(parted(together(text.replace(hyphen, " "))));
  }

  function mended(text) {
    for (const token of tokens(text, 3)) {
      const meant = known(token) ? "" : slip(token);
      if (meant) text = text.replace(whole(token), () => meant);
    }
    return text;
  }

  /* The text with the halves of a known word put together of which one is no word itself. */
  function together(text) {
    const words = split(text);
    for (let at = words.length - 1; at > 0; at -= 1) {
      const [a, b] = [words[at - 1].toLowerCase(), words[at].toLowerCase()];
      if (alphabetic(a + b) && !(known(a) && known(b)) && known(a + b)) words.splice(at - 1, 2, a + b);
    }
    return words.join(" ");
  }

  /* The text with words run together cut apart: two known ones, or one and a size. */
  function parted(text) {
    for (const [pattern, n] of /\p{Nd}/u.test(text) ? glued : []) {
      for (const [joined, ...pair] of text.toLowerCase().matchAll(pattern)) {
        if (known(pair[n]) && !known(joined)) {
          text = text.replace(whole(joined), () => pair.join(" "));
        }
      }
    }
    for (const token of tokens(text, 6)) {
      if (known(token) || slip(token)) continue;
      let best = null;
      for (let at = 3; at < token.length - 2; at += 1) {
        const pair = [token.slice(0, at), token.slice(at)];
        const worth = Math.min(...pair.map((piece) => index.count(piece)));
        if (pair.every(known) && (!best || worth > best.worth)) best = { pair, worth };
      }
      if (best) text = text.replace(whole(token), () => best.pair.join(" "));
    }
    return text;
  }

  /* The word itself where it is known, else what it begins, ends or misspells, with its worth. */
  function forms(token) {
    const exact = tables.words.KINDS_CALLED.includes(token) || index.count(token) > 0;
    const found = exact ? [[token, 1]] : [];
    if ([...token].length < 3) return found;
    const begun = index
      .begun(token)
      .sort((a, b) => index.count(b) - index.count(a) || below(a, b))
      .slice(0, 8);
    found.push(...begun.filter(alphabetic).map((word) => [word, BEGUN]));
    if (!alphabetic(token)) return found;
    const stems = [];
    for (let end = token.length - 1; end > Math.max(3, token.length - 4); end -= 1) {
      stems.push(token.slice(0, end));
    }
    if (token.endsWith("ing") && [...token].length > 6) stems.push(`${token.slice(0, -3)}e`);
    const ended = stems.filter((stem) => index.knows(stem)).sort(below);
    found.push(...ended.map((word) => [word, STEM]));
    if (!(exact || begun.length || ended.length || known(token))) found.push(...misspelt(token));
    return found;
  }

  return { misspelt, spelt, forms };
}

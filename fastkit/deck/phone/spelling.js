/* Words as the file knows them: begun, ended otherwise, misspelt: fastkit/reference/spelling.py. */

function spelling(tables, index) {
  const { BEGUN, STEM, SPELLING, COMPARED, MENDED, SHORT, SURE } = tables.numbers;
  const { READ } = tables.words;
  const glued = [
    [new RegExp(tables.patterns.glued_size, "gu"), 1],
    [new RegExp(tables.patterns.glued_word, "gu"), 0],
  ];
  const formNames = tables.aliases
    .filter(([words, place]) => tables.entries[place][0].startsWith("system:") && !words.includes(" "))
    .map(([words]) => words);

  function likest(token, known, least) {
    const found = known.map((word) => [word, ratio(token, word)]).filter(([, like]) => like >= least);
    found.sort(([a, x], [b, y]) => y - x || below(a, b));
    return found.map(([word, like]) => [word, like / 100]);
  }

  function misspelt(token, least = SPELLING) {
    return likest(token, index.sharing(token, COMPARED), least).slice(0, 4);
  }

  function tokens(text, letters) {
    const words = text.toLowerCase().match(/[\p{L}\p{N}_]+/gu) ?? [];
    const plain = words.filter((word) => /^[\p{L}\p{No}\p{Nl}]+$/u.test(word));
    return new Set(plain.filter((word) => [...word].length >= letters));
  }

  const whole = (token) =>
    new RegExp(`(?<![\\p{L}\\p{N}_])${escaped(token)}(?![\\p{L}\\p{N}_])`, "giu");

  /* The text with misspelt words put right where one known word is all but the same. */
  function mended(text) {
    for (const token of tokens(text, SHORT)) {
      if (READ.includes(token) || index.knows(token)) continue;
      const short = [...token].length <= SHORT;
      let close = formNames.filter((name) => name.length > 3 && token.startsWith(name));
      if (!close.length) {
        const known = short ? formNames : [...formNames, ...READ];
        close = likest(token, known, short ? SURE : MENDED).map(([name]) => name);
      }
      if (!close.length && !short && !index.begun(token).length) {
        close = misspelt(token, SURE).map(([name]) => name);
      }
      if (close.length) text = text.replace(whole(token), () => close[0]);
    }
    return text;
  }

  /* The text with words run together cut apart: two known ones, or one and a size. */
  function parted(text) {
    for (const [pattern, n] of /\p{Nd}/u.test(text) ? glued : []) {
      for (const [joined, ...pair] of text.toLowerCase().matchAll(pattern)) {
        if (index.knows(pair[n]) && !index.knows(joined)) {
          text = text.replace(whole(joined), () => pair.join(" "));
        }
      }
    }
    for (const token of tokens(text, 6)) {
      if (index.knows(token)) continue;
      let best = null;
      for (let at = 3; at < token.length - 2; at += 1) {
        const pair = [token.slice(0, at), token.slice(at)];
        const worth = Math.min(...pair.map((piece) => index.count(piece)));
        if (worth && (!best || worth > best.worth)) best = { pair, worth };
      }
      if (best) text = text.replace(whole(token), () => best.pair.join(" "));
    }
    return text;
  }

  /* The word itself where it is known, else what it begins, ends or misspells, with its worth. */
  function forms(token) {
    const found = index.knows(token) ? [[token, 1]] : [];
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
    if (!index.knows(token) && !begun.length && !ended.length) found.push(...misspelt(token));
    return found;
  }

  return { misspelt, mended, parted, forms };
}

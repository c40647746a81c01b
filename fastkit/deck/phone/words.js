/* Texts cut into words, and words likened to each other. */

/* Python's split(): at blanks of every kind. */
function split(text) {
  return text.split(/[\s\u001c-\u001f\u0085]+/u).filter((word) => word);
}

/* The words of a text as the index cuts them. */
function cut(text) {
  return text.toLowerCase().match(/[\p{L}\p{N}]+/gu) || [];
}

function escaped(text) {
  return text.replace(/[\\^$.*+?()[\]{}|/]/gu, "\\$&");
}

function below(a, b) {
  return a < b ? -1 : Number(a > b);
}

function longestFirst(a, b) {
  return b.length - a.length || below(a, b);
}

/* Every choice of so many of a list, in its order. */
function combinations(list, size) {
  if (!size) return [[]];
  return list.flatMap((first, at) =>
    combinations(list.slice(at + 1), size - 1).map((rest) => [first, ...rest]),
  );
}

const alphabetic = (word) => /^\p{L}+$/u.test(word);

/* Pairs of neighbouring letters, the ends marked; none of what is not letters alone. */
function letterPairs(word) {
  if ([...word].length < 3 || !alphabetic(word)) return [];
  const marked = [...`^${word}$`];
  return [...new Set(marked.slice(1).map((letter, at) => marked[at] + letter))].sort();
}

/* A word's consonants as they are heard, doubled ones once; nothing for what is no word. */
function soundOf(word, { HEARD_AS, UNHEARD }) {
  if ([...word].length < 3 || !alphabetic(word)) return "";
  for (const [said, heard] of HEARD_AS) word = word.replace(new RegExp(said, "gu"), heard);
  const silent = new RegExp(UNHEARD, "gu");
  const [first, ...rest] = word;
  const left = first.replace(silent, "a") + rest.join("").replace(silent, "");
  return left.replace(/(.)\1+/gu, "$1");
}

/* Letters too many, too few, other or exchanged with the next, from one word to another. */
function slipsBetween(a, b) {
  const [one, other] = [[...a], [...b]];
  const rows = [[...Array(other.length + 1).keys()]];
  one.forEach((letter, i) => {
    const row = [i + 1];
    other.forEach((o, j) => {
      const turned = i && j && letter === other[j - 1] && one[i - 1] === o;
      row.push(
        Math.min(
          rows[i][j + 1] + 1,
          row[j] + 1,
          rows[i][j] + Number(letter !== o),
          turned ? rows[i - 1][j - 1] + 1 : Infinity,
        ),
      );
    });
    rows.push(row);
  });
  return rows.at(-1).at(-1);
}

/* Likeness of two words, 0 to 100: twice the longest common subsequence over both lengths. */
function ratio(a, b) {
  const [one, other] = [[...a], [...b]];
  const all = one.length + other.length;
  if (!all) return 100;
  let row = new Array(other.length + 1).fill(0);
  for (const letter of one) {
    const next = [0];
    other.forEach((o, at) => {
      next.push(letter === o ? row[at] + 1 : Math.max(row[at + 1], next[at]));
    });
    row = next;
  }
  return (1 - (all - 2 * row.at(-1)) / all) * 100;
}

/* Likeness by letters that match and their order, 0 to 1, the common beginning counting more. */
function jaroWinkler(a, b) {
  const [one, other] = [[...a], [...b]];
  if (!one.length && !other.length) return 1;
  const reach = Math.max(Math.floor(Math.max(one.length, other.length) / 2) - 1, 0);
  const [used, taken] = [new Set(), new Set()];
  one.forEach((letter, at) => {
    for (let k = Math.max(0, at - reach); k <= Math.min(other.length - 1, at + reach); k += 1) {
      if (!taken.has(k) && other[k] === letter) {
        used.add(at);
        taken.add(k);
        break;
      }
    }
  });
  const m = used.size;
  if (!m) return 0;
  const first = one.filter((_, at) => used.has(at));
  const second = other.filter((_, at) => taken.has(at));
  const turned = Math.floor(first.filter((letter, at) => letter !== second[at]).length / 2);
  const jaro = (m / one.length + m / other.length + (m - turned) / m) / 3;
  let same = 0;
  while (same < 4 && same < one.length && one[same] === other[same]) same += 1;
  return jaro > 0.7 ? jaro + same * 0.1 * (1 - jaro) : jaro;
}

/* A key with its first number or fraction taken out, and that number. */
function keyForm(key) {
  const match = /^([a-z]*[-#]?)((?:\d{1,3}-)?\d{1,4}\/\d{1,4}|\d{1,6}(?:\.\d{1,6})?)/u.exec(key);
  if (!match) return [key, 0];
  const whole = match[2].split("-");
  const [above, under] = whole.pop().split("/");
  const size = Number(whole.join("-") || 0) + Number(above) / (Number(under || 1) || 1);
  const tail = /[a-z]*$/u.exec(key.slice(match[0].length))[0];
  return [`${match[1]}#${tail}`, size];
}

/* The choices nearest to a word: alike before their number, the nearest number, the spelling. */
function nearestOf(word, choices, count) {
  const lower = [...word].slice(0, 80).join("").toLowerCase();
  const [form, size] = keyForm(lower);
  const head = form.split("#")[0];
  const ranked = choices.map((choice) => {
    const [other, number] = keyForm(choice.toLowerCase());
    const alike = form.includes("#") && other.includes("#") && other.split("#")[0] === head;
    return {
      choice,
      order: [
        Number(!alike),
        Number(choice.includes("/") !== lower.includes("/")),
        Number(other !== form),
        alike ? Math.abs(number - size) : Infinity,
        -jaroWinkler(lower, choice.toLowerCase()),
        choice.length,
        choice,
      ],
    };
  });
  const before = (a, b) => a.order.map((x, n) => below(x, b.order[n])).find((sign) => sign) ?? 0;
  return ranked
    .sort(before)
    .slice(0, count)
    .map(({ choice }) => choice);
}

/* To one decimal as Python rounds: halves that are exact go to the even digit. */
function toTenth(value) {
  const tenths = value * 10;
  if ((value * 4) % 2 !== 0 && Number.isInteger(value * 4)) {
    const low = Math.floor(tenths);
    return (low % 2 ? low + 1 : low) / 10;
  }
  return Number(value.toFixed(1));
}

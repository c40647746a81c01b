/* Entries by the index of the words that find them: fastkit/reference/gathered.py. */

/* Entries of the index that hold every term; where few do, those that hold a telling one. */
function indexed(index, { numbers, sets }, terms) {
  const { POOL, MOST_TOGETHER } = numbers;
  const asked = terms.filter(({ denied }) => !denied);
  const weights = new Map(); // group, as text -> [group, weight]
  const grouped = asked.map((each) => [groupOf(each), each]).filter(([group]) => group.length);
  for (const [group, { weight }] of grouped) weights.set(JSON.stringify(group), [group, weight]);
  const weighed = [...weights.values()];
  if (!weighed.length) return [];
  const groups = weighed.map(([group]) => group);
  const found = index.every(groups, POOL);
  if (found.length < 3) found.push(...fewer(index, numbers, weighed, found.length));
  // the words that a kind is called by stand in no index
  const plain = grouped.filter(([, { said }]) => !sets.KINDS_CALLED.has(said));
  const named = plain.map(([group]) => group);
  if (named.length > 1 && named.length < groups.length) found.push(...index.every(named, POOL));
  const spelt = asked.filter(({ ids, words }) => words.length && !ids.length);
  const words = spelt.slice(0, MOST_TOGETHER).map((each) => each.words[0][0]);
  return words.length > 1 ? [...found, ...index.begunWith(words, POOL)] : found;
}

function groupOf({ phrases }) {
  return phrases.map(folded).filter((words) => words.length);
}

/* Entries that hold as many of the terms as can be, and those that hold a telling one. */
function fewer(index, numbers, weighed, already) {
  const { POOL, MOST_TOGETHER, COMMON } = numbers;
  const heaviest = [...weighed].sort((a, b) => b[1] - a[1]).slice(0, MOST_TOGETHER);
  const groups = heaviest.map(([group]) => group);
  const found = [];
  for (let size = groups.length - 1; size > 1; size -= 1) {
    for (const some of combinations(groups, size)) found.push(...index.every(some, POOL));
    if (already + found.length) break;
  }
  const telling = weighed.map(([group]) => group).filter((group) => index.any(group).length <= COMMON);
  if (telling.length) found.push(...index.ranked(telling, POOL));
  return found;
}

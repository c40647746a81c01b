/* How tight: the window of a thread in a class at a friction, both unit systems. */

const NMM_PER_LBFT = 1355.8179483314004; // exact: 4.4482216152605 N x 304.8 mm
const NMM_PER_LBIN = NMM_PER_LBFT / 12;
const GOVERNS = "The vehicle or machine maker's specification governs.";

/* A number to three digits, as the command writes it. */
function figures(value, digits = 3) {
  const before = Math.abs(value) >= 1 ? String(Math.trunc(Math.abs(value))).length : 0;
  const text = before
    ? value.toFixed(Math.max(digits - before, 0))
    : Number(value.toPrecision(digits)).toFixed(12);
  return text.includes(".") ? text.replace(/\.?0+$/u, "") : text;
}

function poundsOf(nm) {
  const nmm = 1000 * nm;
  return nmm < 2000
    ? `${figures(nmm / NMM_PER_LBIN)} lb·in`
    : `${figures(nmm / NMM_PER_LBFT)} lb·ft`;
}

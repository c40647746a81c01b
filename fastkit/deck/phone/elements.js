/* Elements made from words: text stays text, nothing is ever read as markup. */

const one = (selector) => document.querySelector(selector);

/* A number and its unit stand on one line, unless that is too short for them. */
const MEASURE = new RegExp(`(\\S*\\d (?:(?:${MEASURES.join("|")})(?![\\p{L}\\p{N}_])|%)\\S*)`, "u");

function unbroken(text) {
  const span = document.createElement("span");
  span.className = "unbroken";
  span.append(text);
  return span;
}

function unparted(child) {
  if (typeof child !== "string") return [child];
  return child.split(MEASURE).map((part, at) => (at % 2 ? unbroken(part) : part));
}

function made(tag, given = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (value !== null && value !== false) element.setAttribute(name, value === true ? "" : value);
  }
  const inner = tag === "option" ? children.flat() : children.flat().flatMap(unparted);
  element.append(...inner.filter((child) => child !== null && child !== ""));
  return element;
}

function fill(element, ...children) {
  element.replaceChildren(...children.flat().filter((child) => child !== null));
}

function list(texts, given = {}, tag = "ul") {
  return made(tag, given, texts.map((text) => made("li", {}, text)));
}

const begun = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/* What can hurt someone: set apart by a thick edge and a word, not by colour. */
function warning(kind, word, texts) {
  if (!texts.length) return null;
  return made("div", { class: kind }, made("b", {}, word), list(texts.map(begun)));
}

const cautions = (texts) => warning("caution", "CAUTION", texts);

function optionLink(href, words, given = {}) {
  return made("a", { href, class: "option", ...given }, made("span", {}, words));
}

function unfolding(title, ...inner) {
  return made("details", {}, made("summary", {}, title), inner);
}

/* What went wrong, where it is seen and heard. */
function trouble(words) {
  const box = one("#trouble");
  box.textContent = words;
  box.hidden = !words;
}

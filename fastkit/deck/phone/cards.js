/* The deck: an index, and one card at a time. */

function showCards({ view, parts }) {
  const articles = [...document.querySelectorAll("article.card")];
  const wanted = view === "card" ? articles.findIndex(({ id }) => id === `card/${parts[0]}`) : -1;
  articles.forEach((article, at) => {
    article.hidden = at !== wanted;
  });
  one("#cards-index").hidden = wanted >= 0;
  const heading = one("#view-cards > h1");
  heading.classList.toggle("unseen", wanted >= 0); // the card says it large
  heading.textContent = articles[wanted]?.getAttribute("aria-label") ?? "Cards";
  const steps = one("#cards-steps");
  steps.hidden = wanted < 0;
  if (wanted < 0) return null;
  const link = (article, words) => (article ? optionLink(`#${article.id}`, words) : null);
  fill(
    steps,
    made("span", { class: "step-links" }, [
      link(articles[wanted - 1], "Card before"),
      optionLink("#cards", "All cards"),
      link(articles[wanted + 1], "Next card"),
    ]),
  );
  for (const table of articles[wanted].querySelectorAll(".scroll > table")) grown.observe(table);
  return heading;
}

/* A table wider than the screen is moved by keyboard too, and is no stop on the way where not. */
const grown = new ResizeObserver((changes) => {
  for (const box of changes.map(({ target }) => target.parentElement)) {
    const wide = box.scrollWidth > box.clientWidth;
    for (const [name, value] of [
      ["tabindex", "0"],
      ["role", "group"],
      ["aria-label", "Table, wider than the screen"],
    ]) {
      if (wide) box.setAttribute(name, value);
      else box.removeAttribute(name);
    }
  }
});

/* The deck: an index, and one card at a time. */

function showCards({ view, parts }) {
  const articles = [...document.querySelectorAll("article.card")];
  const wanted = view === "card" ? articles.findIndex(({ id }) => id === `card/${parts[0]}`) : -1;
  articles.forEach((article, at) => {
    article.hidden = at !== wanted;
  });
  one("#cards-index").hidden = wanted >= 0;
  one("#view-cards > h1").hidden = wanted >= 0;
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
  for (const box of articles[wanted].querySelectorAll(".scroll")) movable(box);
  const heading = articles[wanted].querySelector("h2");
  heading.setAttribute("tabindex", "-1");
  return heading;
}

/* A table wider than the screen is moved by keyboard too. */
function movable(box) {
  if (box.scrollWidth <= box.clientWidth) return;
  box.tabIndex = 0;
  box.setAttribute("role", "group");
  box.setAttribute("aria-label", "Table, wider than the screen");
}

"""
Time and memory of the deck, against WeasyPrint alone on the same HTML.

Run: python -m tests.bench.deck
"""

import resource
import subprocess
import sys
import tempfile
import time

from fastkit.answers.cards import data_version, opened
from fastkit.deck import content, markup, pdf


def weasyprint_alone(html: str) -> float:
    """Seconds of WeasyPrint on ready HTML, fonts from the same fetcher."""
    with pdf._fixed_date():
        start = time.process_time()
        pdf.layout(html).write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=b"fastkit", pdf_tags=True)
        return time.process_time() - start


def whole() -> float:
    """Seconds from an open reference to the bytes of the deck."""
    store = opened()
    start = time.process_time()
    pdf.pdf_bytes(content.deck(store), data_version(store))
    return time.process_time() - start


def cold() -> tuple[float, float]:
    """Processor and wall seconds of one card by the command, from nothing."""
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    with tempfile.TemporaryDirectory() as folder:
        words = ("cards", "--only", "torque-8.8", "--out", f"{folder}/card.pdf")
        subprocess.run([sys.executable, "-m", "fastkit", *words], check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return spent, time.perf_counter() - start


def main() -> None:
    """Print the figures."""
    store = opened()
    pdf.weasyprint()
    cards = content.deck(store)
    html = markup.html(cards, data_version(store))
    whole()  # warm: fonts found, modules loaded
    ours, theirs = [], []
    for _ in range(2):  # by turns, so that both meet the same machine
        theirs.append(weasyprint_alone(html))
        ours.append(whole())
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"{len(cards)} cards: {min(ours):.1f} s, WeasyPrint alone {min(theirs):.1f} s, "
        f"ratio {min(ours) / min(theirs):.3f}; peak {peak:.0f} MiB"
    )
    spent, wall = cold()
    print(f"one card cold: {spent:.2f} s of processor, {wall:.2f} s of wall")


if __name__ == "__main__":
    main()

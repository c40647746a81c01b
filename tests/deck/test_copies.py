"""A copy of a copy is still read: every face, in colour and in black, printed then copied twice."""

import io
from functools import cache
from math import sqrt
from operator import mul
from random import Random

import pdfplumber
import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageFilter

from fastkit.deck import pdf

DPI = 300
READ = 4.5
"""Least contrast of letters on paper, as for text on a screen (WCAG 2.2, 1.4.3)."""


@cache
def grain(width: int, height: int) -> Image.Image:
    """Noise of 3 % about the middle grey, the same each time."""
    source = Random(7)
    tile = Image.new("L", (256, 256))
    tile.putdata([min(255, max(0, round(source.gauss(128, 0.03 * 255)))) for _ in range(65536)])
    whole = Image.new("L", (width, height))
    for x in range(0, width, 256):
        for y in range(0, height, 256):
            whole.paste(tile, (x, y))
    return whole


def copied(image: Image.Image) -> Image.Image:
    """
    One generation of an office copier: soft, pale blacks, grey whites, grain.

    A line spreads by a tenth of a millimetre, black comes out at 18 % and white at 94 % of
    paper, with grain of 3 %.
    """
    soft = image.filter(ImageFilter.GaussianBlur(0.1 / 25.4 * DPI))
    pale = soft.point([round(0.18 * 255 + 0.76 * v) for v in range(256)])
    return ImageChops.add(pale, grain(*image.size), offset=-128)


def luminance(grey: float) -> float:
    """Relative luminance of a grey value from 0 to 255."""
    share = grey / 255
    return share / 12.92 if share <= 0.03928 else ((share + 0.055) / 1.055) ** 2.4


def contrast(a: float, b: float) -> float:
    """Contrast ratio of two grey values."""
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


@pytest.fixture(scope="module", params=["accent", "mono"])
def pages(request, cards, printed):
    """Each page's letters, its print in grey, and its second copy."""
    data = printed if request.param == "accent" else pdf.pdf_bytes(cards, "0", mono=True)
    sheets = pypdfium2.PdfDocument(data)
    with pdfplumber.open(io.BytesIO(data)) as document:
        found = []
        for n, page in enumerate(document.pages):
            first = sheets[n].render(scale=DPI / 72).to_pil().convert("L")
            found.append((page.chars, first, copied(copied(first))))
    return found


def patch(image, letter, margin=0.0):
    """The piece of a page about a letter."""
    box = (letter["x0"] - margin, letter["top"], letter["x1"] + margin, letter["bottom"])
    return image.crop(tuple(round(v / 72 * DPI) for v in box))


def test_letters_keep_their_contrast(pages):
    """Darkest and lightest tenth about each letter stand at least 4.5 to 1 apart."""
    faint = []
    for letters, _, copy in pages:
        for c in letters:
            if not c["text"].isalnum():
                continue
            grey = sorted(patch(copy, c, 0.4).tobytes())
            tenth = max(1, len(grey) // 10)
            dark, light = sum(grey[:tenth]) / tenth, sum(grey[-tenth:]) / tenth
            if contrast(dark, light) < READ:
                faint.append((c["text"], round(c["size"], 1), round(contrast(dark, light), 1)))
    assert [] == faint[:20]


def squeezed(image):
    """A letter at 12 by 20, mean and spread taken out, dark up."""
    grey = image.resize((12, 20), Image.Resampling.BILINEAR).tobytes()
    mean = sum(grey) / len(grey)
    long = sqrt(sum((v - mean) ** 2 for v in grey)) or 1.0
    return [(mean - v) / long for v in grey]


def test_small_digits_are_told_apart(pages):
    """Digits of less than 8 pt, matched with sharp ones of their size, read as what they are."""
    read: dict[float, dict[str, list]] = {}
    copies = []
    for letters, first, copy in pages:
        for c in letters:
            if c["text"] in "0123456789" and c["size"] < 8 and c["upright"]:
                key = (round(c["size"], 1), "Bold" in c["fontname"])
                before = patch(first, c)
                if sum(before.tobytes()) < 100 * before.width * before.height:
                    continue  # white on black
                read.setdefault(key, {}).setdefault(c["text"], []).append(squeezed(before))
                copies.append((key, c["text"], squeezed(patch(copy, c))))
    masters = {
        key: {
            digit: [sum(at) / len(seen) for at in zip(*seen, strict=True)]
            for digit, seen in digits.items()
        }
        for key, digits in read.items()
        if len(digits) == 10
    }
    wrong = total = 0
    for key, digit, seen in copies:
        if key in masters:
            told = max(masters[key], key=lambda d: sum(map(mul, masters[key][d], seen)))
            wrong += told != digit
            total += 1
    assert total > 2000
    assert wrong / total < 0.01, (wrong, total)


def test_black_only_is_black_only(cards):
    """With `mono` no page holds a colour; without it nothing but a word's frame is coloured."""
    some = [c for c in cards if c.family in ("emergency", "torque")][:9]
    for mono, coloured in ((True, False), (False, True)):
        image = pypdfium2.PdfDocument(pdf.pdf_bytes(some, "0", mono=mono))[0].render(scale=1)
        red, green, blue = image.to_pil().convert("RGB").split()
        most = max(
            ImageChops.difference(a, b).getextrema()[1] for a, b in ((red, green), (green, blue))
        )
        assert coloured == (most > 24)
    with pdfplumber.open(io.BytesIO(pdf.pdf_bytes(some, "0"))) as document:
        tinted = {
            c["text"]
            for page in document.pages
            for c in page.chars
            if len(set(c["non_stroking_color"])) > 1
        }
    assert tinted == set("CAUTION")

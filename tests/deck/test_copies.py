"""A copy of a copy is still read: every face, in colour and in black, printed then copied twice."""

import io
from functools import cache
from math import log, pi, sqrt
from operator import mul
from random import Random

import pdfplumber
import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageFilter

from fastkit.deck import pdf

DPI = 300
READ, SEEN = 4.5, 3.0
"""Least contrast (WCAG 2.2): 1.4.3 of text for what is bold or large, 1.4.11 for the small."""


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

    Of 4 line pairs a millimetre half the contrast is left, black comes out at 18 % and white at
    94 % of paper, with grain of 3 %.
    """
    sigma_mm = sqrt(log(2) / 2) / (pi * 4)  # a Gaussian whose transfer is 1/2 there
    soft = image.filter(ImageFilter.GaussianBlur(sigma_mm / 25.4 * DPI))
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


@pytest.fixture(scope="module")
def letters(printed, opened):
    """A few letters of each look on each page, each as printed and as copied twice."""
    sheets = pypdfium2.PdfDocument(printed)
    found = []
    for n, page in enumerate(opened.pages):
        looks = {}
        for c in page.chars:
            looks.setdefault((c["text"], c["size"], c["fontname"]), []).append(c)
        first = sheets[n].render(scale=DPI / 72).to_pil().convert("L")
        copy = copied(copied(first))
        for c in (c for alike in looks.values() for c in alike[:4] if c["text"].isalnum()):
            found.append((c, patch(first, c), patch(copy, c)))
    return found


def patch(image, letter):
    """The piece of a page about a letter."""
    box = (letter["x0"], letter["top"], letter["x1"], letter["bottom"])
    return image.crop(tuple(round(v / 72 * DPI) for v in box))


def test_letters_keep_their_contrast(letters):
    """Darkest and lightest tenth about a letter stand 4.5 to 1 apart, of fine print 3 to 1."""
    faint = []
    for c, _, copy in letters:
        grey = sorted(copy.tobytes())
        tenth = max(1, len(grey) // 10)
        dark, light = sum(grey[:tenth]) / tenth, sum(grey[-tenth:]) / tenth
        main = "Bold" in c["fontname"] or c["size"] >= 9
        if contrast(dark, light) < (READ if main else SEEN):
            faint.append((c["text"], round(c["size"], 1), round(contrast(dark, light), 1)))
    assert [] == faint[:20]


def squeezed(image):
    """A letter at 12 by 20, mean and spread taken out, dark up."""
    grey = image.resize((12, 20), Image.Resampling.BILINEAR).tobytes()
    mean = sum(grey) / len(grey)
    long = sqrt(sum((v - mean) ** 2 for v in grey)) or 1.0
    return [(mean - v) / long for v in grey]


def test_small_digits_are_told_apart(letters):
    """Digits of less than 8 pt, matched with sharp ones of their size, read as what they are."""
    read: dict[float, dict[str, list]] = {}
    copies = []
    for c, before, copy in letters:
        white_on_black = sum(before.tobytes()) < 100 * before.width * before.height
        if c["text"] in "0123456789" and c["size"] < 8 and c["upright"] and not white_on_black:
            key = (round(c["size"], 1), "Bold" in c["fontname"])
            read.setdefault(key, {}).setdefault(c["text"], []).append(squeezed(before))
            copies.append((key, c["text"], squeezed(copy)))
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
        sheets = pypdfium2.PdfDocument(pdf.pdf_bytes(some, "0", mono=mono))
        red, green, blue = sheets[1].render(scale=2).to_pil().convert("RGB").split()
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

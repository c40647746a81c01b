"""A bolt through two plates with washer and nut, its length told in four parts."""

from fastkit.deck import profiles
from fastkit.deck.drawings import label, line, outlined, svg


def length_rule() -> str:
    """A bolt lying on its side; not to scale."""
    y = 6.0
    body = outlined(profiles.rectangle(4.5, 9, (4.5, y)), 0.35, "#ddd")  # head
    body += outlined(profiles.rectangle(38, 4.6, (25.75, y)), 0.3, "#fff")
    for x in (9.2, 17.2):  # plates, cut
        for edge in (y - 5.5, y + 2.3):
            body += outlined(profiles.rectangle(8, 3.2, (x + 1.55, edge + 1.6)), 0.3, "#fff")
            body += line([(x - 1.5, edge + 3), (x + 1.5, edge + 0.2)], 0.2)
            body += line([(x + 1.5, edge + 3), (x + 4.5, edge + 0.2)], 0.2)
    body += outlined(profiles.rectangle(1.8, 8, (23.9, y)), 0.3, "#ddd")  # washer
    body += outlined(profiles.rectangle(8, 9, (28.9, y)), 0.35, "#fff")  # nut
    for x in (26.6, 28.6, 30.6, 34, 35.6, 37.2, 38.8, 40.4, 42):
        body += line([(x, y - 2.3), (x + 0.8, y + 2.3)], 0.2)
    for a, b, word in ((7, 22.7, "grip"), (22.7, 33, "washer + nut"), (33, 44.7, "2 P")):
        body += line([(a, 12.2), (b, 12.2)], 0.3) + line([(a, 11.4), (a, 13)], 0.3)
        body += line([(b, 11.4), (b, 13)], 0.3) + label((a + b) / 2, 15.2, word, 2.6)
    return svg(47, 16, "Bolt through two plates: grip, washer and nut, two pitches", body)

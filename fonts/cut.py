#!/usr/bin/env python3
"""Cuts the four faces the product carries, once, from the full TrueType files.

    npm pack @expo-google-fonts/barlow @expo-google-fonts/barlow-semi-condensed      (0.4.1 was used)
    for f in *.tgz; do mkdir -p src/$f; tar xzf $f -C src/$f; done
    python3 fonts/cut.py src internal/draw/font

Needs fonttools and brotli (Debian: python3-fonttools python3-brotli). The output is committed; nobody needs this
script to build the program. One run gives the same bytes as the last: no clock is read.

What it does to each face, in this order:
  1. maps the figures 0 to 9 to their tabular forms, because no paper library applies the tnum feature itself;
  2. adds what the faces lack and a workshop needs, drawn from the face's own measures:
     the narrow spaces U+2009 and U+202F, the hyphen that holds U+2011, subscript figures (the face's own
     denominators, lowered), the diameter sign U+2300 and four arrows;
  3. keeps the Latin letters of European names and the signs listed below, and of the features only kerning,
     so that a width is the sum of advances and kerns and nothing else;
  4. writes TTF for paper and for measuring, WOFF2 for screen, from the same outlines.
It prints the metric overrides for the fallback face, which stand in internal/draw/font/fallback.go.
"""
import glob
import math
import os
import sys

from fontTools import subset
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphComponent

FACES = [
    ("Barlow_500Medium.ttf", "barlow-500"),
    ("Barlow_600SemiBold.ttf", "barlow-600"),
    ("BarlowSemiCondensed_500Medium.ttf", "barlow-semi-condensed-500"),
    ("BarlowSemiCondensed_600SemiBold.ttf", "barlow-semi-condensed-600"),
]
SIGNS = "−±×÷≈≠≤≥√ΔΩµ½¼¾′″°¹²³·–—“”‘’‚„…€£π•∞‹›«»\u00a0\u2009\u202f\u2011⌀←→↑↓₀₁₂₃₄₅₆₇₈₉μ"
KEEP = (
    list(range(0x20, 0x7F)) + list(range(0xA0, 0x180)) + [0x218, 0x219, 0x21A, 0x21B, 0x1E9E]
    + [ord(c) for c in SIGNS]
)
DROP = {0xAD}  # the soft hyphen is an instruction, not a sign


def add(font, name, code, glyph, advance):
    """Puts one glyph under one code point."""
    font.setGlyphOrder(font.getGlyphOrder() + [name])
    font["glyf"].glyphs[name] = glyph
    glyph.recalcBounds(font["glyf"])
    font["hmtx"].metrics[name] = (advance, getattr(glyph, "xMin", 0))
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def part(name, dx, dy):
    """A glyph that is another one, shifted."""
    g, c = Glyph(), GlyphComponent()
    c.glyphName, c.x, c.y, c.flags = name, dx, dy, 0x0204
    g.numberOfContours, g.components = -1, [c]
    return g


def ring(pen, cx, cy, r, clockwise):
    """A circle of eight quadratic arcs; within 0.03 % of round."""
    step = (-1 if clockwise else 1) * math.pi / 4
    at = lambda k, rr: (round(cx + rr * math.cos(k * step)), round(cy + rr * math.sin(k * step)))
    pen.moveTo(at(0, r))
    for k in range(8):
        pen.qCurveTo(at(k + 0.5, r / math.cos(step / 2)), at(k + 1, r))
    pen.closePath()


def poly(pen, points):
    pen.moveTo(points[0])
    for p in points[1:]:
        pen.lineTo(p)
    pen.closePath()


def diameter(t):
    """The diameter sign: a ring and a stroke through it at 60 degrees, as in ISO 129."""
    pen, cx, cy, r = TTGlyphPen(None), 350, 350, 270
    ring(pen, cx, cy, r + t / 2, True)
    ring(pen, cx, cy, r - t / 2, False)
    ux, uy, l = math.cos(math.radians(60)), math.sin(math.radians(60)), 430
    h = t / 2
    pts = [(-l, h), (l, h), (l, -h), (-l, -h)]
    poly(pen, [(round(cx + a * ux - b * uy), round(cy + a * uy + b * ux)) for a, b in pts])
    return pen.glyph()


def arrow(t, turn, length, cx, cy):
    """An arrow: a shaft of the minus sign's weight and a slim filled head."""
    pen, head, half, h = TTGlyphPen(None), 270, 118, t / 2
    e = length / 2
    pts = [(-e, h), (e - head + 40, h), (e - head, half), (e, 0), (e - head, -half), (e - head + 40, -h), (-e, -h)]
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    poly(pen, [(round(cx + x * c - y * s), round(cy + x * s + y * c)) for x, y in pts])
    return pen.glyph()


def complete(font):
    """Freezes the tabular figures and adds the missing signs."""
    cmap, hmtx, glyf = font.getBestCmap(), font["hmtx"], font["glyf"]
    figures = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
    for table in font["cmap"].tables:
        if table.isUnicode():
            for i, n in enumerate(figures):
                table.cmap[ord("0") + i] = n + ".tf"
    space, empty = hmtx[cmap[0x20]][0], Glyph()
    empty.numberOfContours = 0
    add(font, "uni2009", 0x2009, empty, round(space * 0.62))
    empty = Glyph()
    empty.numberOfContours = 0
    add(font, "uni202F", 0x202F, empty, round(space * 0.62))
    hyphen = cmap[0x2D]
    add(font, "uni2011", 0x2011, part(hyphen, 0, 0), hmtx[hyphen][0])
    for i, n in enumerate(figures):
        d = n + ".dnom"
        add(font, n + ".sub", 0x2080 + i, part(d, 0, -150), hmtx[d][0])
    minus = glyf[cmap[0x2212]]
    t, mid = minus.yMax - minus.yMin, (minus.yMax + minus.yMin) / 2
    add(font, "uni2300", 0x2300, diameter(t), 700)
    for name, code, turn in (("arrowright", 0x2192, 0), ("arrowleft", 0x2190, 180)):
        add(font, name, code, arrow(t, turn, 640, 370, mid), 740)
    for name, code, turn in (("arrowup", 0x2191, 90), ("arrowdown", 0x2193, -90)):
        add(font, name, code, arrow(t, turn, 700, 200, 350), 400)
    font["maxp"].recalc(font)


def cut(path, out):
    font = TTFont(path, recalcTimestamp=False)
    complete(font)
    opt = subset.Options(layout_features=["kern"], hinting=False, notdef_outline=True, recalc_timestamp=False,
                         name_IDs=[0, 1, 2, 3, 4, 5, 6, 13, 14], drop_tables=["GDEF", "DSIG", "gasp"], glyph_names=False)
    have = font.getBestCmap()
    want = sorted({c for c in KEEP if c not in DROP})
    missing = [c for c in want if c not in have]
    s = subset.Subsetter(opt)
    s.populate(unicodes=want)
    s.subset(font)
    if "GSUB" in font:
        del font["GSUB"]
    font.flavor = None
    font.save(out + ".ttf")
    font.flavor = "woff2"
    font.save(out + ".woff2")
    print(out, len(font.getBestCmap()), "signs", os.path.getsize(out + ".ttf"), os.path.getsize(out + ".woff2"),
          "not in the face:", ["%04X" % c for c in missing])


# Letter frequencies of English technical prose with figures, out of 1,000 (common practice); they weigh the mean advance.
PROSE = {" ": 170, "e": 95, "t": 70, "a": 62, "o": 58, "i": 54, "n": 54, "s": 50, "r": 48, "h": 42, "l": 34, "d": 32,
         "c": 24, "u": 22, "m": 22, "f": 18, "p": 18, "g": 16, "w": 16, "y": 13, "b": 12, "v": 8, "k": 6, ".": 12, ",": 8,
         "0": 8, "1": 8, "2": 6, "3": 4, "4": 4, "5": 4, "6": 3, "8": 3, "T": 3, "S": 2, "A": 2}


def mean(font):
    cmap, hmtx = font.getBestCmap(), font["hmtx"]
    return sum(w * hmtx[cmap[ord(c)]][0] for c, w in PROSE.items()) / sum(PROSE.values()) / font["head"].unitsPerEm


def overrides(out, fallback):
    """Prints size-adjust and ascent for a local face of the widths of Arial (Liberation Sans has them)."""
    for bold, path in fallback.items():
        base = mean(TTFont(path))
        for _, name in FACES:
            if name.endswith(bold):
                f = TTFont(os.path.join(out, name + ".ttf"))
                adjust, hhea, em = mean(f) / base, f["hhea"], f["head"].unitsPerEm
                print("%s size-adjust %.2f%% ascent-override %.2f%% descent-override %.2f%%" % (
                    name, 100 * adjust, 100 * hhea.ascent / em / adjust, -100 * hhea.descent / em / adjust))


if __name__ == "__main__":
    src, dst = sys.argv[1], sys.argv[2]
    for file, name in FACES:
        found = sorted(glob.glob(os.path.join(src, "**", file), recursive=True))
        if not found:
            sys.exit("%s is not under %s. Unpack the two packages named at the head of this script there." % (file, src))
        cut(found[0], os.path.join(dst, name))
    lib = "/usr/share/fonts/truetype/liberation/LiberationSans-%s.ttf"
    overrides(dst, {"500": lib % "Regular", "600": lib % "Bold"})

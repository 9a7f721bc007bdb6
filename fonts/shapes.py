"""Second part of make.sh: redraws the signs that the original leaves alike.

Usage: shapes.py SUBSET.ttf FACE RESULT.ttf

0 gets a dot (a stroke would be read as the Ø before a diameter), I gets serifs, l a tail: 0 and O, 1 and I and l are told
apart also where they stand alone. Sizes are in units of the font, 2048 to the em.
"""
import sys

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

CAPITAL, ASCENDER = 1409, 1484
SHAPES = {
    "Regular": {"stem": 191, "I": (683, 84, 156), "l": (540, 138, 180, 146), "dot": (112, 150)},
    "Bold": {"stem": 295, "I": (797, 70, 225), "l": (640, 143, 281, 214), "dot": (92, 132)},
}


def polygon(pen, corners):
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    pen.closePath()


def capital_i(width, border, height, stem):
    """A stem between two bars, clockwise."""
    pen, left, right = TTGlyphPen(None), (width - stem) // 2, (width + stem) // 2
    top, end = CAPITAL - height, width - border
    polygon(pen, [(border, 0), (border, height), (left, height), (left, top), (border, top), (border, CAPITAL),
                  (end, CAPITAL), (end, top), (right, top), (right, height), (end, height), (end, 0)])
    return pen.glyph()


def small_l(left, stem, foot):
    """A stem that turns to the right at its foot."""
    pen, right, bend, tip = TTGlyphPen(None), left + stem, 330, left + stem + 185
    pen.moveTo((left, ASCENDER))
    pen.lineTo((right, ASCENDER))
    pen.lineTo((right, bend))
    pen.qCurveTo((right, foot), (tip - 40, foot))
    pen.lineTo((tip, foot))
    pen.lineTo((tip, 0))
    pen.lineTo((tip - 75, -8))
    pen.qCurveTo((left, -8), (left, bend))
    pen.closePath()
    return pen.glyph()


def dotted(font, name, radius_x, radius_y):
    """The glyph with a dot in its middle."""
    recorded = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[name].draw(recorded)
    pen = TTGlyphPen(None)
    recorded.replay(pen)
    x, y = font["hmtx"][name][0] // 2, CAPITAL // 2
    pen.moveTo((x, y + radius_y))
    pen.qCurveTo((x + radius_x, y + radius_y), (x + radius_x, y))
    pen.qCurveTo((x + radius_x, y - radius_y), (x, y - radius_y))
    pen.qCurveTo((x - radius_x, y - radius_y), (x - radius_x, y))
    pen.qCurveTo((x - radius_x, y + radius_y), (x, y + radius_y))
    pen.closePath()
    return pen.glyph()


def put(font, name, glyph, advance):
    """Puts a glyph in; those with accents on it move them along and become as wide."""
    shift = (advance - font["hmtx"][name][0]) // 2
    table = font["glyf"]
    table[name] = glyph
    glyph.recalcBounds(table)
    font["hmtx"][name] = (advance, glyph.xMin)
    for other in font.getGlyphOrder():
        accented = table[other]
        parts = accented.components if accented.isComposite() else []
        if not parts or parts[0].glyphName != name:
            continue
        for part in parts[1:]:
            part.x += shift if name == "I" else 0
        accented.recalcBounds(table)
        font["hmtx"][other] = (advance, accented.xMin)


subset, face, result = sys.argv[1:]
shape = SHAPES[face]
font = TTFont(subset, recalcTimestamp=False)
names = font.getBestCmap()
width, border, height = shape["I"]
put(font, names[ord("I")], capital_i(width, border, height, shape["stem"]), width)
width, left, stem, foot = shape["l"]
put(font, names[ord("l")], small_l(left, stem, foot), width)
put(font, names[ord("0")], dotted(font, names[ord("0")], *shape["dot"]), font["hmtx"][names[ord("0")]][0])
font.save(result)

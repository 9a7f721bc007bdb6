"""Third part of make.sh: gives the subset font its own name.

Usage: rename.py SHAPED.ttf FACE RESULT.ttf
"""
import sys

from fontTools.ttLib import TTFont

FAMILY = "Blankwright Sans"
RESERVED = ("Liberation", "Arimo", "Tinos", "Cousine")  # OFL 1.1, condition 3: not in a modified version's name


def rename(font, face):
    name = font["name"]
    full = FAMILY if face == "Regular" else f"{FAMILY} {face}"
    own = {1: FAMILY, 2: face, 3: f"Blankwright: {full}", 4: full, 6: f"{FAMILY.replace(' ', '')}-{face}"}
    for record in name.names:
        if record.nameID in own:
            record.string = own[record.nameID]
        elif record.nameID == 5:
            record.string = f"{record.toUnicode()}; subset"
        if record.nameID != 0 and any(word in record.toUnicode() for word in RESERVED):
            sys.exit(f"name record {record.nameID} still holds a reserved name: {record.toUnicode()}")
    missing = {0, 5, 13, 14, *own} - {record.nameID for record in name.names}
    if missing:
        sys.exit(f"name records missing: {sorted(missing)}")


subset, face, result = sys.argv[1:]
# The time of change stays the original's, so that the bytes do not depend on the day.
font = TTFont(subset, recalcTimestamp=False)
rename(font, face)
font.save(result)

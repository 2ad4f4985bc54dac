#!/usr/bin/python3
"""Makes build/fonts: the reading face, cut to the letters the app and its content use.

The face is Andika (Debian package fonts-sil-andika, SIL Open Font License 1.1). Its licence reserves
its names for the unchanged files, so the cut one is called "Trowelbell Text". The copyright stays
in the files; the whole licence goes beside them, into licences.txt (wasm/stage.mjs).
"""
import pathlib
import sys
from fontTools import subset
from fontTools.ttLib import TTFont

FAMILY = "Trowelbell Text"
SOURCE = pathlib.Path("/usr/share/fonts/truetype/andika")
TARGET = pathlib.Path(__file__).resolve().parent.parent / "build" / "fonts"
LETTERS = [
    *range(0x20, 0x7F),  # Basic Latin
    *range(0xA0, 0x180),  # Latin-1 and Latin Extended-A
    *range(0x2010, 0x2016), *range(0x2018, 0x201F), 0x2022, 0x2026, 0x2039, 0x203A,  # dashes, quotes
    0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2264, 0x2265, 0x2713, 0xFFFD,  # arrows, signs, tick
]
COPYRIGHT, LICENCE, LICENCE_ADDRESS = 0, 13, 14
FONTS_LICENCE = "SIL Open Font License 1.1, whole text in licences.txt"


def cut(style):
    source = SOURCE / f"Andika-{style}.ttf"
    target = TARGET / f"trowelbell-text-{style.lower()}.ttf"
    newest = max(source.stat().st_mtime, pathlib.Path(__file__).stat().st_mtime)
    if target.exists() and target.stat().st_mtime >= newest:
        return
    # Dear ImGui places letter after letter: it neither hints, kerns nor joins them.
    options = subset.Options(layout_features=[], hinting=False, name_IDs=["*"])
    options.drop_tables += ["Silt", "GDEF", "GPOS", "GSUB"]
    font = TTFont(source)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=LETTERS)
    cutter.subset(font)
    kept = {n: font["name"].getDebugName(n) for n in (COPYRIGHT, LICENCE_ADDRESS)}
    names = kept | {LICENCE: FONTS_LICENCE, 1: FAMILY, 2: style, 3: f"{FAMILY} {style}", 4: f"{FAMILY} {style}", 5: "Version 1",
                    6: f"{FAMILY.replace(' ', '')}-{style}"}
    font["name"].names = []
    for number, text in names.items():
        font["name"].setName(text, number, 3, 1, 0x409)
    # Dear ImGui sizes a face by its line, from ascent to descent. With a line of one em, a size is
    # what CSS means by it; the app spaces its lines by itself.
    font["hhea"].ascent = round(0.79 * font["head"].unitsPerEm)
    font["hhea"].descent = font["hhea"].ascent - font["head"].unitsPerEm
    font.save(target)


try:
    TARGET.mkdir(parents=True, exist_ok=True)
    for style in ("Regular", "Bold"):
        cut(style)
except FileNotFoundError as missing:
    sys.exit(f"fonts: {missing.filename} is missing. Run: bash wasm/setup.sh")

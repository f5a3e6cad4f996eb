"""Cut the six faces that sheets are set in from the variable Noto Sans (SIL Open Font Licence, see OFL.txt).

Not needed to run Sowsheet. With `pip install fontTools fontpkg-noto-sans==2.15`:

    python sowsheet/sheets/fonts/make.py

Each face gets a PostScript name of its own: faces that share one are taken for one font, and bold prints as regular.
"""

from __future__ import annotations

import sys
from importlib.metadata import distribution
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

HERE = Path(__file__).parent
FACES = {  # file and PostScript name -> weight, width
    "Regular": (400, 100),
    "Bold": (700, 100),
    "SemiCondensedRegular": (400, 87.5),
    "SemiCondensedBold": (700, 87.5),
    "CondensedRegular": (400, 75),
    "CondensedBold": (700, 75),
}
CHARACTERS = (
    (0x0020, 0x007E),  # Latin
    (0x00A0, 0x017F),
    (0x018F, 0x018F),
    (0x0192, 0x0192),
    (0x01A0, 0x01A1),
    (0x01AF, 0x01B0),
    (0x01CD, 0x01DC),
    (0x0218, 0x021B),
    (0x0259, 0x0259),
    (0x02C6, 0x02DD),
    (0x0300, 0x0304),  # accents that follow their letter
    (0x0306, 0x030C),
    (0x031B, 0x031B),
    (0x0323, 0x0328),
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x052F),  # Cyrillic
    (0x1E02, 0x1E03),
    (0x1E80, 0x1E85),
    (0x1E9E, 0x1E9E),
    (0x1EA0, 0x1EF9),  # Vietnamese
    (0x2007, 0x2007),
    (0x2009, 0x200B),
    (0x2010, 0x2027),  # punctuation
    (0x202F, 0x203A),
    (0x2044, 0x2044),
    (0x2070, 0x208E),
    (0x20A0, 0x20BF),
    (0x2116, 0x2116),
    (0x2122, 0x2122),
    (0x2150, 0x215E),
    (0x2190, 0x2193),
    (0x2212, 0x2212),
    (0x2248, 0x2248),
    (0x2260, 0x2260),
    (0x2264, 0x2265),
)


def cut(source: Path, name: str, weight: float, width: float) -> Path:
    """One face, written beside this file."""
    font = TTFont(source, recalcTimestamp=False)
    instantiateVariableFont(font, {"wght": weight, "wdth": width}, inplace=True)
    options = Options()
    options.layout_features = []  # reportlab applies none
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    options.drop_tables += ["GPOS", "GSUB", "GDEF", "STAT", "MVAR"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[c for first, last in CHARACTERS for c in range(first, last + 1)])
    subsetter.subset(font)
    for record in list(font["name"].names):
        if record.nameID in {1, 2, 3, 4, 6}:
            font["name"].removeNames(nameID=record.nameID)
    full = f"NotoSans-{name}"
    for name_id, value in ((1, f"Noto Sans {name}"), (2, "Regular"), (3, full), (4, full), (6, full)):
        font["name"].setName(value, name_id, 3, 1, 0x409)
        font["name"].setName(value, name_id, 1, 0, 0)
    path = HERE / f"{full}.ttf"
    font.save(path)
    return path


def main() -> None:
    """All six faces and their licence."""
    files = {Path(str(f)).name: Path(str(f.locate())) for f in distribution("fontpkg-noto-sans").files or ()}
    source = files["NotoSans[wdth,wght].ttf"]
    for name, (weight, width) in FACES.items():
        path = cut(source, name, weight, width)
        sys.stdout.write(f"{path.name}: {path.stat().st_size // 1024} KB\n")
    (HERE / "OFL.txt").write_bytes((source.parent.parent / "LICENSE").read_bytes())


if __name__ == "__main__":
    main()

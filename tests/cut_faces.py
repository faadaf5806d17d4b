"""Font packages in → the faces of the site, cut to its letters, in guidegen/render/fonts/cut/.

./start python tests/cut_faces.py

To be run when the letters, the faces or the font packages change; a test compares.
"""

from guidegen.render.fonts.font_subsets import subset_woff2
from guidegen.render.fonts.fonts import FOLDER, font_files
from guidegen.render.fonts.webfonts import CUT, FACES, LETTERS


def cut(face: str) -> bytes:
    """A face of the site, cut anew."""
    return subset_woff2(font_files()[FOLDER + FACES[face]], LETTERS)


if __name__ == "__main__":
    for name in FACES:
        (CUT / name).write_bytes(cut(name))

"""The figures beside keys of the handbook show what guidegen draws today."""

from pictures.key_figures import FOLDER, key_figures


def test_figures_of_keys_are_current() -> None:
    """FIGURE: ./start python tests/pictures/key_figures.py draws them anew."""
    for name, text in key_figures().items():
        assert (FOLDER / name).read_text(encoding="utf-8") == text, name

"""What the page's script of templates to measure makes of what it is told."""

from conftest import Asking


def test_the_end_of_memory_is_told_in_words(ask_script: Asking) -> None:
    """However Python, GEOS or a browser names it; other failures keep their own words."""
    said = ["MemoryError", "RangeError: WebAssembly.Memory.grow(): memory", "std::bad_alloc", "404"]
    found = ask_script("measured.js", "script.isMemory(item)", [*said])
    assert found == [True, True, True, False]

"""Arithmetic that asks for edges, lines and seams of other parts at the size that is made."""

import math

import pytest
from geometry.kit_samples import good_kit, graded_cuff, refusals

SIZES = "  S: {forearm: 240, wrist: 150, arm_length: 250}\n"


def band(dimensions: str, more: str = "") -> str:
    """A cuff and a band that is cut after it."""
    return graded_cuff(
        SIZES,
        f"""\
  band:
    name: Band
    label: B
    material: foam-5
    shape: strip
    dimensions: {dimensions}
{more}""",
    )


def part(text: str, name: str) -> tuple[float, float]:
    """mm across and upright of a finished part."""
    kit = good_kit(text)
    one = next(one for one in kit.finished if one.part == name)
    return one.width, one.height


def test_a_band_as_long_as_the_rim_that_it_goes_round() -> None:
    """The rim of a tube is girth + ease + 2*pi*neutral*thickness (outer minus inner girth of a
    pipe, 2*pi*wall, as sheet metal handbooks have it; here half a wall), and the band 8 more."""
    rim = 240 + 25 + 2 * math.pi * 0.5 * 5
    width, height = part(band("{length: 'edge(cuff, top) + 8', width: thick(cuff) * 4}"), "band")
    assert width == pytest.approx(rim + 8, abs=1e-6)
    assert height == pytest.approx(20)


def test_a_part_may_ask_for_one_that_stands_below_it() -> None:
    """The order is worked out: a lining of a part that waits for another, and values between."""
    text = """\
values:
  long: width(plate) + 10
parts:
  felt: {name: Felt, label: C, material: foam-5, shape: lining, lining-of: strip, inset: 5}
  strip: {name: Strip, label: B, material: foam-5, shape: strip, dimensions: {length: long, width: 30}}
  plate: {name: Plate, label: A, material: foam-5, shape: disc, dimensions: {diameter: 80}}
"""
    kit = good_kit(text)
    assert [one.part for one in kit.finished] == ["felt", "strip", "plate"]
    assert [one.width for one in kit.finished] == pytest.approx([80, 90, 80])
    assert dict(kit.values) == pytest.approx({"long": 90})


def test_seams_and_copies_may_ask_too() -> None:
    """A seam's length is that of its first edge; counts are worked out when outlines are there."""
    text = band(
        "{length: seam(side), width: 12}",
        "    copies: floor(edge(cuff, top) / 100)\n"
        "seams:\n  side: {join: [cuff.side, cuff.side-2]}\n",
    )
    kit = good_kit(text)
    edges = {one.part: dict(one.edges) for one in kit.finished}
    assert edges["band"]["top"] == pytest.approx(edges["cuff"]["side"])
    assert next(kit.pieces_of("band")).copies == 2
    assert dict(kit.asked)["edge(cuff, top)"] == pytest.approx(edges["cuff"]["top"])


def test_rings_of_lengths_are_told_with_their_names() -> None:
    """Who waits for himself is told once a ring, where the first asks for the second; what only
    waits for the ring is left out without a word."""
    strip = "{{name: {0}, label: {0}, material: foam-5, shape: strip, dimensions: {{{1}}}}}"
    text = "values:\n  half: width(c) / 2\nparts:\n" + "".join(
        f"  {name}: {strip.format(name.upper(), dimensions)}\n"
        for name, dimensions in {
            "a": "length: width(b), width: 10",
            "b": "length: half, width: 10",
            "c": "length: 'edge(a, top)', width: 10",
            "d": "length: width(a) + 1, width: 10",
            "e": "length: 20, width: width(e)",
        }.items()
    )
    says = "needs its own length, by way of"
    assert refusals(text) == [
        ("length-cycle", "values.half", f"{says} half → c → a → b → half"),
        ("length-cycle", "parts.e.dimensions.width", f"{says} e → e"),
    ]


@pytest.mark.parametrize(
    ("dimensions", "says"),
    [
        ("{length: 'edge(cuf, top)', width: 9}", 'no part "cuf"; did you mean "cuff"?'),
        ("{length: 'edge(cuff, topp)', width: 9}", 'no edge "topp" on cuff; did you mean "top"?'),
        ("{length: 'line(cuff, keel)', width: 9}", 'no line "keel" on cuff'),
        ("{length: seam(sid), width: 9}", 'no seam "sid"'),
    ],
)
def test_names_that_are_not_there(dimensions: str, says: str) -> None:
    """A slip is told at the dimension, with the nearest name, and once."""
    (found,) = refusals(band(dimensions))
    assert found[:2] == ("arithmetic", "parts.band.dimensions.length")
    assert found[2].endswith(says)


def test_what_waits_for_a_failed_part_is_not_told_again() -> None:
    """One slip, one problem: the part that failed says why."""
    text = band("{length: 'edge(cuff, top)', width: 9}").replace("ease: 25", "ease: 25, gap: 900")
    (found,) = refusals(text)
    assert found[1].startswith("parts.cuff")


def test_layers_that_a_bend_makes_longer_are_not_asked() -> None:
    """Their length is known only after all outlines are there."""
    text = band("{length: 200, width: 20}") + (
        "  tag: {name: Tag, label: T, material: foam-5, shape: strip,"
        " dimensions: {length: width(band), width: 9}}\n"
        "stacks:\n  both: {name: Both, curve: {radius: 60}, layers: [{part: cuff}, {part: band}]}\n"
    )
    assert any("made longer by the bend of the stack both" in one[2] for one in refusals(text))


@pytest.mark.parametrize("first", ["width(plate)", "width(plat)"])
def test_a_chain_of_a_thousand_values_is_worked_out(first: str) -> None:
    """Each value is worked out once, after the one before it: a slip is told at its own."""
    chain = "".join(f"  v{n}: v{n + 1} + 1\n" for n in range(1000))
    text = f"""\
values:
{chain}  v1000: {first}
parts:
  strip: {{name: Strip, label: S, material: foam-5, shape: strip, dimensions: {{length: v0 / 10, width: 9}}}}
  plate: {{name: Plate, label: P, material: foam-5, shape: disc, dimensions: {{diameter: 80}}}}
"""
    if first == "width(plate)":
        assert [one.width for one in good_kit(text).finished] == pytest.approx([108, 80])
    else:
        (found,) = refusals(text)
        assert found[:2] == ("arithmetic", "values.v1000")

"""Where each line is bought: in as few shops as will do, in the order of the site."""

from itertools import chain, combinations

from hypothesis import given
from hypothesis import strategies as st
from layout.buying.test_materials import GUIDE, KIT, PLAN, STOCK

from guidegen.buildfile.records.site import Shop
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.buying.materials import list_materials
from guidegen.layout.buying.shops import fewest_shops, with_shops
from guidegen.words import ENGLISH

SHOPS = {name: Shop(name=f"The {name} shop") for name in ("art", "craft", "hardware")}


def test_an_item_is_bought_where_one_goes_anyway() -> None:
    """Foam is sold in the craft shop alone, so cement is bought there as well, though the hardware
    shop stands first; what names no shop of the site has none."""
    stock = STOCK.model_dump(by_alias=True, exclude_unset=True)
    stock["materials"][PLAN.material]["shops"] = ["craft"]
    stock["materials"]["cement"]["shops"] = ["hardware", "craft", "art"]
    typed = Stock.model_validate(stock)
    plain = list_materials(GUIDE, typed, KIT, (PLAN,), KIT.names(), ENGLISH)
    lines = {line.material: line for line in with_shops(plain, typed, SHOPS).lines}
    assert lines[PLAN.material].shop == lines["cement"].shop == "The craft shop"
    assert lines["cement"].shop_id == "craft"
    assert lines["cement"].other_shops == ("The hardware shop", "The art shop")
    others = [line for key, line in lines.items() if key not in {PLAN.material, "cement"}]
    assert others
    assert all((line.shop, line.shop_id, line.other_shops) == ("", "", ()) for line in others)


def test_the_first_shop_of_equals_is_the_first_of_the_site() -> None:
    """Two shops that both sell everything: the list sends to the one that site.yaml has first."""
    assert fewest_shops([("b", "a"), ("a", "b")], ["a", "b"]) == {"a"}
    assert fewest_shops([("b", "a"), ("a", "b")], ["b", "a"]) == {"b"}
    assert fewest_shops([(), ("b",)], ["a", "b"]) == {"b"}


@given(
    st.lists(st.lists(st.sampled_from("abcdef"), min_size=1, max_size=3, unique=True), max_size=9)
)
def test_all_is_sold_in_hardly_more_shops_than_must_be(sellers: list[list[str]]) -> None:
    """Everything is sold in the chosen shops, each of which sells some of it, and they are never more than
    one above the least number that an exhaustive search finds among six shops."""
    named = [tuple(shops) for shops in sellers]
    found = fewest_shops(named, "abcdef")
    assert all(found & set(shops) for shops in named)
    assert found <= set(chain.from_iterable(named))
    least = next(
        size
        for size in range(7)
        if any(
            all(set(some) & set(shops) for shops in named) for some in combinations("abcdef", size)
        )
    )
    assert len(found) <= least + 1

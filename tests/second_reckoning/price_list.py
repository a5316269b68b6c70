"""Random price lists, and a book with their prices in it."""

from copy import deepcopy
from random import Random

from tests.second_reckoning.books import Book, money
from tests.second_reckoning.reckoning import GRAMS, amount


def measure_of(net: str) -> str:
    """Whether a net content is a weight, a volume or a count."""
    unit = amount(net)[1]
    return "weight" if unit in GRAMS else "count" if unit == "pieces" else "volume"


NETS = {
    "weight": ["400 g", "1 kg", "2 lb"],
    "volume": ["750 mL", "0.5 L", "20 fl oz"],
    "count": ["100 pieces", "250 pieces"],
}


def price_list(book: Book, random: Random) -> tuple[str, Book]:
    """A list of new prices as CSV, and the book as it would be with them; a pack keeps its measure."""
    after = deepcopy(book)
    packed = [ident for ident, product in book["products"].items() if "pack" in product]
    rows = ["product,net,price,date"]
    for ident in random.sample(packed, random.randint(1, 6)):
        net = after["products"][ident]["pack"]["net"]
        if random.random() < 0.5:
            net = random.choice(NETS[measure_of(net)])
        price = money(random, book["house"]["house"]["currency"], 9, 60)
        after["products"][ident]["pack"] = {"net": net, "price": price, "priced_on": "2026-11-20"}
        rows.append(f"{ident},{net},{price},2026-11-20")
    return "\n".join(rows) + "\n", after

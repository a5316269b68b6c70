"""The index of search: words of pages, what people type and what they mean, what is new."""

from bowlbook.entries.trade_word import TradeWord, trade_words
from bowlbook.pages.page import Change, SearchEntry
from bowlbook.pages.search_actions import ACTIONS
from bowlbook.pages.search_index import indexed, search_index
from bowlbook.reading.search_word import words_of


def entries_with(index: dict, field: str, word: str) -> list[int]:
    """The numbers of the entries that have a word in a field."""
    steps = index[field][index["words"].split(" ").index(word)]
    return [sum(steps[: place + 1]) for place in range(len(steps))]


def index_of(*entries: SearchEntry, own: tuple[TradeWord, ...] = ()) -> dict:
    listed = [indexed(f"blends/{place}/", each) for place, each in enumerate(entries)]
    return search_index(listed, own)


def test_a_word_counts_where_it_weighs_most() -> None:
    index = index_of(SearchEntry("Clay", "clay, level 4", names=("Soft clay",)), SearchEntry("Soft", "clay"))
    assert entries_with(index, "names", "clay") == [0]
    assert entries_with(index, "also", "soft") == [0] and entries_with(index, "names", "soft") == [1]
    assert entries_with(index, "others", "clay") == [1] and entries_with(index, "others", "4level") == [0]


def test_a_meaning_that_no_entry_has_is_left_out() -> None:
    own = (TradeWord(typed=("The Works", "full works"), means=("moonbeam", "soft clay")),)
    index = index_of(SearchEntry("Soft clay", ""), own=own)
    assert index["typed"]["the work"] == index["typed"]["full work"] == ["soft clay"]
    assert not any("moonbeam" in means for each in index["typed"].values() for means in each)


def test_the_house_comes_before_the_trade() -> None:
    entries = (SearchEntry("Oat gloss", ""), SearchEntry("Smoke toner", "product toner"))
    trade = index_of(*entries)["typed"]["gloss"]
    own = index_of(*entries, own=(TradeWord(typed=("gloss",), means=("oat gloss",)),))["typed"]["gloss"]
    assert own == ["oat gloss", *trade] and trade


def test_another_name_means_the_entry() -> None:
    index = index_of(SearchEntry("Open-air sweep", "", "Technique", names=("Freehand",)))
    assert index["typed"]["freehand"][0] == "open air sweep"


def test_new_is_what_changed_last() -> None:
    changes = [Change(f"2026-10-{day:02}", f"Change {day}.") for day in range(1, 10)]
    index = index_of(*(SearchEntry(f"Blend {each.day}", "", change=each) for each in changes))
    assert [day for _, day, _ in index["new"]] == [f"2026-10-{day:02}" for day in range(9, 3, -1)]
    assert index_of(SearchEntry("Blend", "", change=Change("2026-10-01", "")))["new"] == []


def test_the_trades_list_reads_and_repeats_nothing() -> None:
    lines = [{words_of(each) for each in listed.typed} for listed in trade_words().words]
    assert sum(map(len, lines)) == len(set().union(*lines)) > 300
    for listed in trade_words().words:
        assert all(words_of(each) for each in (*listed.typed, *listed.means))


def test_no_two_actions_look_alike() -> None:
    assert len({each.title for each in ACTIONS}) == len(ACTIONS)
    assert all(each.address.endswith("/") for each in ACTIONS)

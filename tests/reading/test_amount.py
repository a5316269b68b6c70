"""The grammar of amounts: what is read, exactly. What is refused, and how it says so, is in ``words.yml``."""

from collections.abc import Callable
from datetime import date
from fractions import Fraction as F

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bowlbook.reading import read_amount
from bowlbook.reading.amount import Count, Mass, Ratio, Span, Volume, plain
from bowlbook.reading.refusal import Refusal
from reading.test_words import READERS


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (read_amount.read_mass, "0.75 oz", Mass(F("0.75"), "oz")),
        (read_amount.read_mass, "0.5oz", Mass(F("0.5"), "oz")),
        (read_amount.read_mass, "450 g", Mass(F(450), "g")),
        (read_amount.read_mass, "1.5 kg", Mass(F("1.5"), "kg")),
        (read_amount.read_mass, "1 lb", Mass(F(1), "lb")),
        (read_amount.read_net, "16 fl oz", Volume(F(16), "fl oz")),
        (read_amount.read_net, "8 imperial fl oz", Volume(F(8), "imperial fl oz")),
        (read_amount.read_net, "1 L", Volume(F(1), "L")),
        (read_amount.read_net, "250 ml", Volume(F(250), "mL")),
        (read_amount.read_net, "500 pieces", Count(500)),
        (read_amount.read_ratio, "1:2", Ratio(F(1), F(2))),
        (read_amount.read_ratio, "1:1.5", Ratio(F(1), F("1.5"))),
        (read_amount.read_percent, "6 %", F(6)),
        (read_amount.read_percent, "6%", F(6)),
        (read_amount.read_volume_strength, "20 volume", F(20)),
        (read_amount.read_volume_strength, "20 vol", F(20)),
        (read_amount.read_bare_volume, "20", F(20)),
        (read_amount.read_density, "1.02 g/mL", F("1.02")),
        (read_amount.read_minutes, "1.5 hours", F(90)),
        (read_amount.read_minutes, "35 min", F(35)),
        (read_amount.read_days, "26 weeks", 182),
        (read_amount.read_money, "39.00", F(39)),
        (read_amount.read_parts, "2", F(2)),
        (lambda text: read_amount.read_span(text, 1, 10, "a level"), "6-10", Span(6, 10)),
        (lambda text: read_amount.read_span(text, 1, 10, "a level"), "6–10", Span(6, 10)),
        (lambda text: read_amount.read_span(text, 1, 10, "a level"), "7", Span(7, 7)),
        (read_amount.read_date, "2026-10-02", date(2026, 10, 2)),
    ],
)
def test_is_read_exactly(read: Callable[[str], object], text: str, value: object) -> None:
    assert read(text) == value


@given(st.integers(0, 10**15), st.integers(0, 6))
def test_plain_reads_back(number: int, places: int) -> None:
    value = F(number, 10**places)
    if value < 10**9:
        assert read_amount.read_number(plain(value), wanted="a number", example="1") == value


@given(st.text(max_size=80))
@example("9" * 4000 + " g")
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in READERS.values():
        try:
            read(text)
        except Refusal as refusal:
            assert refusal.code in ("bad-amount", "wrong-unit", "out-of-bounds")
            assert refusal.mend.endswith((".", ").")) and len(refusal.mend) < 200

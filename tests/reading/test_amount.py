"""The grammar of amounts: what is read, exactly, and what is refused, with which code."""

from collections.abc import Callable
from datetime import date
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.reading import read_amount
from bowlbook.reading.amount import Count, Mass, Ratio, Span, Volume, plain
from bowlbook.reading.refusal import Refusal


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


REFUSED = [
    (read_amount.read_mass, "0,5 oz", "bad-amount", "0.5"),
    (read_amount.read_mass, "1,000 g", "bad-amount", "1000 for thousands"),
    (read_amount.read_mass, "½ oz", "bad-amount", "0.5"),
    (read_amount.read_mass, "1½ oz", "bad-amount", "0.5"),
    (read_amount.read_mass, "1/2 oz", "bad-amount", "0.5"),
    (read_amount.read_mass, "010 g", "bad-amount", ""),
    (read_amount.read_mass, "1_000 g", "bad-amount", ""),
    (read_amount.read_mass, "1e3 g", "bad-amount", ""),
    (read_amount.read_mass, "1e999999999 g", "bad-amount", ""),
    (read_amount.read_mass, "nan", "bad-amount", ""),
    (read_amount.read_mass, ".inf", "bad-amount", ""),
    (read_amount.read_mass, "-5 g", "bad-amount", ""),
    (read_amount.read_mass, "+5 g", "bad-amount", ""),
    (read_amount.read_mass, "−5 g", "bad-amount", ""),
    (read_amount.read_mass, "5", "bad-amount", "unit"),
    (read_amount.read_mass, "5 ", "bad-amount", "unit"),
    (read_amount.read_mass, "0 g", "out-of-bounds", ""),
    (read_amount.read_mass, "0.0000001 g", "bad-amount", ""),
    (read_amount.read_mass, "999999999 g", "out-of-bounds", ""),
    (read_amount.read_mass, "9" * 4000 + " g", "bad-amount", ""),
    (read_amount.read_mass, "2 fl oz", "wrong-unit", "450 g"),
    (read_amount.read_mass, "5 %", "wrong-unit", ""),
    (read_amount.read_mass, "", "bad-amount", ""),
    (read_amount.read_mass, "some", "bad-amount", ""),
    (read_amount.read_net, "2.5 pieces", "bad-amount", ""),
    (read_amount.read_net, "1 gallon", "wrong-unit", ""),
    (read_amount.read_money, "5 g", "wrong-unit", "39.00"),
    (read_amount.read_money, "$39", "wrong-unit", "39.00"),
    (read_amount.read_money, "39,00", "bad-amount", "39.00"),
    (read_amount.read_money, "0", "out-of-bounds", ""),
    (read_amount.read_money, "nan", "bad-amount", ""),
    (read_amount.read_ratio, "1:0", "out-of-bounds", ""),
    (read_amount.read_ratio, "1-2", "bad-amount", "1:2"),
    (read_amount.read_ratio, "1:2:3", "bad-amount", "1:2"),
    (read_amount.read_ratio, "62", "bad-amount", "1:2"),
    (read_amount.read_percent, "6", "bad-amount", "6 %"),
    (read_amount.read_percent, "101 %", "out-of-bounds", ""),
    (read_amount.read_bare_volume, "6 %", "wrong-unit", "20 volume"),
    (read_amount.read_volume_strength, "20", "bad-amount", "20 volume"),
    (read_amount.read_volume_strength, "400 volume", "out-of-bounds", ""),
    (read_amount.read_density, "1.02", "bad-amount", "g/mL"),
    (read_amount.read_density, "1020 g/mL", "out-of-bounds", ""),
    (read_amount.read_minutes, "35", "bad-amount", "35 minutes"),
    (read_amount.read_days, "1.5 days", "bad-amount", "180 days"),
    (lambda text: read_amount.read_span(text, 1, 10, "a level"), "10-6", "bad-amount", "6-10"),
    (lambda text: read_amount.read_span(text, 1, 10, "a level"), "6-12", "out-of-bounds", "1-10"),
    (lambda text: read_amount.read_span(text, 1, 10, "a level"), "6.5", "bad-amount", ""),
    (lambda text: read_amount.read_whole(text, 1, 400, "sections"), "12.5", "bad-amount", ""),
    (read_amount.read_date, "2026-02-30", "bad-amount", "2026-10-02"),
    (read_amount.read_date, "02/10/2026", "bad-amount", "2026-10-02"),
    (read_amount.read_date, "1926-10-02", "out-of-bounds", ""),
]


@pytest.mark.parametrize(
    ("read", "text", "code", "mend"), REFUSED, ids=[repr(row[1])[:24] for row in REFUSED]
)
def test_is_refused(read: Callable[[str], object], text: str, code: str, mend: str) -> None:
    with pytest.raises(Refusal) as refused:
        read(text)
    assert refused.value.code == code
    assert mend in refused.value.mend or mend in refused.value.message
    assert refused.value.mend.endswith((".", ").")) and len(refused.value.mend) < 200


@given(st.integers(0, 10**15), st.integers(0, 6))
def test_plain_reads_back(number: int, places: int) -> None:
    value = F(number, 10**places)
    if value < 10**9:
        assert read_amount.read_number(plain(value), wanted="a number", example="1") == value


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in {row[0] for row in REFUSED}:
        try:
            read(text)
        except Refusal as refusal:
            assert refusal.code in ("bad-amount", "wrong-unit", "out-of-bounds")

"""All the checks of a book, in one run."""

from collections.abc import Callable, Iterator
from datetime import date
from types import ModuleType

from generator.book.book import Book
from generator.checks import (
    additive_over_dose,
    advice_against_answer,
    bowl_suits_nobody,
    contradictory_suits,
    developer_not_in_blend,
    developer_over_house_limit,
    developer_over_product_limit,
    future_date,
    incomplete_pack,
    lift_over_product,
    missing_cautions,
    missing_scale_step,
    off_scalp_product,
    outline_does_not_add_up,
    overdue_review,
    peroxide_over_limit,
    personal_details,
    placement_mismatch,
    ratio_order,
    ratio_out_of_range,
    rule_contradicts_suits,
    rule_shape,
    same_name,
    stale_price,
    strength_mismatch,
    unknown_currency,
    unused_entry,
    unweighable_batch,
    zero_reading,
)
from generator.reading.finding import Finding, in_order

CHECKS: tuple[ModuleType, ...] = (
    additive_over_dose,
    advice_against_answer,
    bowl_suits_nobody,
    contradictory_suits,
    developer_not_in_blend,
    developer_over_house_limit,
    developer_over_product_limit,
    future_date,
    incomplete_pack,
    lift_over_product,
    missing_cautions,
    missing_scale_step,
    off_scalp_product,
    outline_does_not_add_up,
    overdue_review,
    peroxide_over_limit,
    personal_details,
    placement_mismatch,
    ratio_order,
    ratio_out_of_range,
    rule_contradicts_suits,
    rule_shape,
    same_name,
    stale_price,
    strength_mismatch,
    unknown_currency,
    unused_entry,
    unweighable_batch,
    zero_reading,
)

Check = Callable[[Book, date], Iterator[Finding]]


def code_of(check: ModuleType) -> str:
    """The code of a check: its module's name with hyphens."""
    return check.__name__.rpartition(".")[2].replace("_", "-")


def run_checks(book: Book, today: date) -> list[Finding]:
    """Every finding of every check, sorted. ``today`` is the day that prices and reviews are held against."""
    return in_order([finding for check in CHECKS for finding in check.find(book, today)])

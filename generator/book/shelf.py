"""The shared shelf: a folder of products that several books take over, and what a book may change of it.

A book's own product stands in the place of a shared one of the same id only where it says so.
"""

import os
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import cast

from generator.book.folder import EntryFile, list_kind
from generator.entries.entry import Entry
from generator.entries.house import House
from generator.entries.product import Product
from generator.entries.validate import private_keys
from generator.entries.words import read_shared_folder
from generator.reading.finding import Finding
from generator.reading.nearest import did_you_mean
from generator.reading.refusal import Refusal

KEY = "products_from"


def shelf_said(root: Path) -> str | None:
    """What the house file under ``root`` says of its shelf, also where the rest of that file is wrong."""
    from generator.reading.document import read_source

    said = (read_source(root / "house.yml", "", private_keys())[0].data or {}).get(KEY)
    return None if said is None else str(said)


def shelf_of(root: Path, said: str) -> Path:
    """The folder that a book under ``root`` takes products from. ``said`` is as the house file writes it.

    At most two steps up, and never out of the git repository that a folder on the way is the top of; then
    down through folders that are no links, and not into the book itself. Raises `Refusal`.
    """
    at = root
    for step in read_shared_folder(said).split("/"):
        if step == ".." and (at / ".git").exists():
            message = "The way to the shared folder leaves the book's git repository."
            raise Refusal(
                "bad-shared-folder", message, "Keep the shared products in the repository of the book."
            )
        at = at / step
        if step != ".." and at.is_symlink():
            message = "A symbolic link stands on the way to the shared folder."
            raise Refusal("bad-shared-folder", message, "Put the folder itself there.")
    if not at.is_dir():
        message = "There is no such folder."
        raise Refusal("bad-shared-folder", message, "Make it, or write the way from the folder of this file.")
    if at.resolve().is_relative_to(root.resolve()):
        message = "This folder is in the book itself; nothing else could share it."
        raise Refusal("bad-shared-folder", message, "Delete the key: a book reads its own products anyway.")
    shown = Path(os.path.normpath(at))
    return shown if shown.is_dir() and shown.samefile(at) else at


def shelf_files(root: Path, house: House | None) -> tuple[list[EntryFile], list[Finding], bool]:
    """The shared products' files, a finding for each thing out of place, and whether the shelf was found.

    A book without a shelf has an empty one.
    """
    said = house.products_from if house is not None else shelf_said(root)
    if said is None:
        return [], [], True
    found: list[EntryFile] = []
    findings: list[Finding] = []
    try:
        list_kind(shelf_of(root, said), "product", found, findings)
    except (Refusal, OSError) as error:
        refusal = error if isinstance(error, Refusal) else _unreadable()
        told = [] if house is None else [_at(house, KEY, refusal)]
        return [], told, False
    return [replace(file, shared=True) for file in found], findings, True


def _unreadable() -> Refusal:
    return Refusal("bad-shared-folder", "The folder cannot be read.", "Check that you may read it.")


def _at(entry: Entry, key: str, refusal: Refusal) -> Finding:
    return entry.source.finding((key,), refusal.code, refusal.message, refusal.mend)


def shelf_findings(
    house: House | None, own: Mapping[str, Entry], shared: Mapping[str, Entry], ids: set[str]
) -> list[Finding]:
    """What does not fit between a book and its shelf: ids, and whose money a price is in.

    ``ids``: those of every shared file, also of one that could not be read.
    """
    findings: list[Finding] = []
    for product in cast(Mapping[str, Product], own).values():
        findings += _in_place(product, product.id in ids, ids)
        findings += _other_money(house, product)
    for product in cast(Mapping[str, Product], shared).values():
        if product.instead_of_shared:
            findings += _in_place(product, False, ())
        pack = product.pack
        if pack is not None and pack.price is not None and pack.currency is None:
            message = "A shared price is read in several books, and says no currency."
            refusal = Refusal("missing-key", message, "Add currency: and its three letters, as CAD.")
            findings.append(_at(product, "pack", refusal))
        if product.id not in own:
            findings += _other_money(house, product)
    return findings


def _in_place(product: Product, is_shared: bool, ids: set[str] | tuple[()]) -> list[Finding]:
    if is_shared and not product.instead_of_shared:
        message = f'The shared products have a "{product.id}" too.'
        mend = "Rename this file, or add instead_of_shared: yes if it counts here in the place of that one."
        return [_at(product, "name", Refusal("duplicate-id", message, mend))]
    if product.instead_of_shared and not is_shared:
        message = f'There is no shared product "{product.id}" that this could stand in the place of.'
        mend = did_you_mean(product.id, ids) or "Delete the key."
        return [_at(product, "instead_of_shared", Refusal("unknown-id", message, mend))]
    return []


def _other_money(house: House | None, product: Product) -> list[Finding]:
    currency = product.pack.currency if product.pack is not None else None
    if house is None or currency in (None, house.currency):
        return []
    message = f"The house reckons in {house.currency}, and this price is in {currency}."
    mend = f"Give the house a product of its own in its place, with the price in {house.currency}."
    return [product.source.finding(("pack", "currency"), "mixed-currency", message, mend)]

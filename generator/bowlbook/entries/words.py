"""The kinds of text a field can hold: names, sentences, Markdown, ids, and words from a fixed list."""

import re
from collections.abc import Sequence
from typing import Annotated, Any

from bowlbook.entries.entry import Reads, Ref
from bowlbook.entries.entry_id import ID, LONGEST_ID
from bowlbook.reading.guard import CONTROL
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal


def _text(text: str, limit: int) -> str:
    text = text.strip()
    if not text:
        raise Refusal("empty-value", "This text is empty.", "Write it, or delete the key.")
    if len(text) > limit:
        message = f"This text has {len(text)} characters; {limit} fit here."
        raise Refusal("text-too-long", message, "Shorten it, or move the detail to the notes.")
    return text


def read_name(text: str) -> str:
    """A name on one line, at most 80 characters, without < or >. Raises `Refusal`."""
    text = " ".join(_text(text, 80).split())
    if re.search("[<>]", text):
        raise Refusal("bad-name", "A name has no < or > in it.", "Use words.")
    if CONTROL.search(text):
        raise Refusal("bad-name", "A name has no control or invisible character.", "Type it again.")
    if not re.search(r"\w", text):
        raise Refusal("bad-name", "A name has at least one letter or digit.", "Use words.")
    return text


def _sentence(text: str) -> str:
    return " ".join(_text(text, 400).split())


def read_id(text: str) -> str:
    """An id: lower-case letters, digits and hyphens, at most 60. Raises `Refusal`."""
    if not ID.fullmatch(text) or len(text) > LONGEST_ID:
        message = "This is not an id: lower-case letters, digits and single hyphens, at most 60."
        mend = "Use the other entry's file name without its ending, as soft-clay-2-1."
        raise Refusal("bad-id", message, mend)
    return text


def _markdown(text: str) -> str:
    text = _text(text, 8000)
    lines = text.split("\n")
    if max(map(len, lines)) > 2000:
        raise Refusal("text-too-long", "One line here is longer than 2000 signs.", "Break the line.")
    if len(lines) > 400:
        raise Refusal("text-too-long", f"This text has {len(lines)} lines; 400 fit here.", "Shorten it.")
    if re.search(r"[\[(*_>`]{20}", text) or re.search(r"(?m)^[ >*+-]{24}", text):
        raise Refusal("text-too-deep", "This text nests its marks too deep.", "Write it simpler.")
    return text


def _currency(text: str) -> str:
    if not re.fullmatch("[A-Z]{3}", text):
        raise Refusal("unknown-word", "This is not a currency code.", "Write its three letters, as CAD.")
    return text


def _locale(text: str) -> str:
    if not re.fullmatch("[a-z]{2,3}(-[A-Z][a-z]{3})?(-[A-Z]{2})?", text):
        raise Refusal("unknown-word", "This is not a locale.", "Write language and region, as en-CA.")
    return text


PHONE_NUMBER = r"\+?[0-9]{2,15}"


def _phone_number(text: str) -> str:
    if not re.fullmatch(PHONE_NUMBER, text):
        message = "This is not a telephone number: 2 to 15 digits, with a + before them or without."
        raise Refusal("bad-amount", message, "Write it as it is dialled, without spaces, as 112.")
    return text


SHARED_FOLDER = r"\.\./(\.\./)?\w([\w -]*\w)?(/\w([\w -]*\w)?)*"


def read_shared_folder(text: str) -> str:
    """A path from a book's folder to another: one or two steps up, then down by names. Raises `Refusal`."""
    if len(text) > 200 or not re.fullmatch(SHARED_FOLDER, text):
        message = "This is not the way to a shared folder: one or two ../, then folders by name."
        mend = "Write it from the folder that house.yml is in, as ../../products."
        raise Refusal("bad-shared-folder", message, mend)
    return text


Name = Annotated[str, Reads(read_name, {"maxLength": 80, "pattern": "^[^<>]+$"})]
Sentence = Annotated[str, Reads(_sentence, {"maxLength": 400})]
Markdown = Annotated[str, Reads(_markdown, {"maxLength": 8000})]
PhoneNumber = Annotated[str, Reads(_phone_number, {"pattern": f"^{PHONE_NUMBER}$", "examples": ["112"]})]
Currency = Annotated[str, Reads(_currency, {"pattern": "^[A-Z]{3}$", "examples": ["CAD", "EUR"]})]
SharedFolder = Annotated[str, Reads(read_shared_folder, {"pattern": f"^{SHARED_FOLDER}$", "maxLength": 200})]
Locale = Annotated[str, Reads(_locale, {"examples": ["en-CA", "de-DE"]})]


def _yes_no(text: str) -> bool:
    if text not in ("yes", "no"):
        raise Refusal("unknown-word", f'"{text[:40]}" is neither yes nor no.', "Write yes or no.")
    return text == "yes"


YesNo = Annotated[bool, Reads(_yes_no, {"enum": ["yes", "no"]})]

_ID_SCHEMA = {"pattern": f"^{ID.pattern}$", "maxLength": LONGEST_ID}
BlendId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("blend")]
TechniqueId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("technique")]
LightenerId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product", ("lightener",))]
DeveloperId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product", ("developer",))]
TonerId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product", ("toner",))]
AdditiveId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product", ("additive", "toner"))]
SupplyId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product", ("supply",))]
ProductId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("product")]
SituationId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("situation")]
ClassId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("class")]
TroubleId = Annotated[str, Reads(read_id, _ID_SCHEMA), Ref("trouble")]
FormerId = Annotated[str, Reads(read_id, _ID_SCHEMA)]


def one_of(words: Sequence[str], what: str) -> Reads:
    """Reads one word of a fixed list; anything else is refused with the nearest known one."""
    known = frozenset(words)

    def read(text: str) -> str:
        word = " ".join(text.split())
        if word in known:
            return word
        if word.lower() in known:
            return word.lower()
        mend = did_you_mean(word, words) or "Use one of: " + ", ".join(words) + "."
        raise Refusal("unknown-word", f'"{word[:40]}" is not {what}.', mend)

    return Reads(read, {"enum": list(words)})


class Words:
    """Marks a tuple of words from a fixed list, for which one word alone is accepted too."""

    FEWEST, MOST = 1, 24

    def __init__(self, words: Sequence[str], what: str) -> None:
        self.words = tuple(words)
        self.one = one_of(words, what)

    def listed(self, given: Any) -> Any:
        """A word alone as a list of one; anything else as it is."""
        return [given] if isinstance(given, str) else given

    def once(self, given: tuple[str, ...]) -> tuple[str, ...]:
        """The words that were read, each once, in the order of the fixed list."""
        return tuple([word for word in self.words if word in given])

    def json_schema(self) -> dict[str, Any]:
        """How JSON Schema describes the words: one of them, or a list; levels are numbers too."""
        numbers = [int(word) for word in self.words if word.isdigit()]
        word = {"enum": [*self.words, *numbers]}
        return {"anyOf": [word, {"type": "array", "items": word, "minItems": self.FEWEST}]}

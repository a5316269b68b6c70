"""Phones of the middle of 2021 (Chrome 91, Safari 14.1): what they cannot read is not in our scripts.

Which browser came to know what is from memory of the browsers' release notes. What only makes a page better
where it is known (``:has()``, ``::details-content``, popovers, containers) is taken away in
`tests/browser/test_older_phones.py`.
"""

import re

import pytest

from bowlbook.pages.asset import ASSETS

LATER = {
    r"\.at\(-?\d": "Array.at: Chrome 92, Safari 15.4",
    r"Object\.hasOwn": "Chrome 93, Safari 15.4",
    r"\(\?<[=!]": "a look behind: Safari 16.4; the whole script is refused",
    r"structuredClone": "Chrome 98, Safari 15.4",
    r"\.findLast|\.toSorted|\.toReversed|\.toSpliced|\.with\(\d": "Chrome 97 to 110, Safari 15.4 to 16",
    r"\.showModal\(\)(?!;\n    return)": "dialogs: Safari 15.4; `openOver` does without",
    r"^\s*static \{": "Chrome 94, Safari 16.4",
    r"^(?:const \w+ = )?await ": "at the top of a module: Safari 15",
    r"Object\.groupBy|Map\.groupBy|Promise\.withResolvers|URL\.canParse|Array\.fromAsync": "2023 and later",
    r"\.(?:isSubsetOf|isSupersetOf|intersection|symmetricDifference)\(": "2023 and later",
    r"[^\w/]/[^/\n]+/[dgimsuy]*v[dgimsuy]*[;,).]": "the flag v of an expression: 2023",
}


@pytest.mark.parametrize("pattern", LATER)
def test_no_script_needs_what_came_later(pattern: str) -> None:
    scripts = [*ASSETS.rglob("*.js")]
    assert len(scripts) > 30
    found = [
        f"{path.name}: {line.strip()[:80]}"
        for path in scripts
        for text in [path.read_text(encoding="utf-8")]
        for match in re.finditer(pattern, text, re.M)
        for line in [text[match.start() : text.find("\n", match.start())]]
    ]
    assert found == [], LATER[pattern]

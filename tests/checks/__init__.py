"""The checks of a whole book, one test file a check; `small_book` is the book they are shown on.

What a check's example in the docs shows is held by `test_examples`, and not repeated in the check's own file.
"""

import pytest

pytest.register_assert_rewrite("checks.small_book")

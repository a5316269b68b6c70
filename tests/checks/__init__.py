"""The checks of a whole book, one test file a check; `small_book` is the book they are shown on."""

import pytest

pytest.register_assert_rewrite("checks.small_book")

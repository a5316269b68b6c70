"""The command line, run as a person would run it."""

import pytest

pytest.register_assert_rewrite("commands.run")

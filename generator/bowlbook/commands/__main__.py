"""``python -m bowlbook.commands``: the same as ``bowlbook``."""

from bowlbook.commands import run

run()

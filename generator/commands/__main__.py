"""``python -m generator.commands``: the same as ``bowlbook``."""

from generator.commands import run

run()

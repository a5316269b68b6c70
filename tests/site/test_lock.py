"""A lock is one process's at a time, ends with it however it ends, and leaves no file."""

import os
import subprocess
import sys
from pathlib import Path

from small_site import PATHS

from bowlbook.site.lock import locked

COUNT = """
import sys, time
from pathlib import Path
from bowlbook.site.lock import locked

lock, count = Path(sys.argv[1]), Path(sys.argv[2])
for _ in range(25):
    with locked(lock) as had:
        assert had
        number = int(count.read_text(encoding="utf-8"))
        time.sleep(0)
        count.write_text(str(number + 1), encoding="utf-8")
"""
HOLD = """
import sys
from pathlib import Path
from bowlbook.site.lock import locked

with locked(Path(sys.argv[1])):
    print("held", flush=True)
    sys.stdin.read()
"""
ENVIRONMENT = {**os.environ, "PYTHONPATH": PATHS}


def test_processes_count_together_and_none_is_lost(tmp_path: Path) -> None:
    """Also while the file is removed and made again each time."""
    (tmp_path / "count").write_text("0", encoding="utf-8")
    words = [sys.executable, "-c", COUNT, str(tmp_path / "lock"), str(tmp_path / "count")]
    counting = [subprocess.Popen(words, env=ENVIRONMENT) for _ in range(3)]
    assert [each.wait() for each in counting] == [0, 0, 0]
    assert (tmp_path / "count").read_text(encoding="utf-8") == "75"
    assert [path.name for path in tmp_path.iterdir()] == ["count"]


def test_it_ends_with_a_process_that_is_killed(tmp_path: Path) -> None:
    lock = tmp_path / "lock"
    words = [sys.executable, "-c", HOLD, str(lock)]
    holder = subprocess.Popen(words, env=ENVIRONMENT, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    assert holder.stdout is not None and holder.stdin is not None
    assert holder.stdout.readline().strip() == b"held"
    with locked(lock, wait=False) as had:
        assert not had
    holder.kill()
    holder.communicate()
    with locked(lock, wait=False) as had:
        assert had
    assert not lock.exists()

"""What a test needs that not every system has: marks that skip it there, each with its reason."""

import os
import sys

import pytest

WINDOWS = sys.platform == "win32"

needs_links = pytest.mark.skipif(WINDOWS, reason="making a link takes a right that few Windows users have")
needs_pipes = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
needs_modes = pytest.mark.skipif(WINDOWS, reason="Windows has no rights of owner, group and others")
needs_fork = pytest.mark.skipif(
    not hasattr(os, "fork") or sys.platform == "darwin", reason="no process is forked on this system"
)
needs_proc = pytest.mark.skipif(sys.platform != "linux", reason="looks into /proc")
needs_names = pytest.mark.skipif(
    sys.platform != "linux", reason="only Linux takes any bytes as a file's name"
)
needs_loopback = pytest.mark.skipif(sys.platform != "linux", reason="this system has 127.0.0.1 alone")
needs_limits = pytest.mark.skipif(sys.platform != "linux", reason="limits memory or files as Linux does")
needs_signals = pytest.mark.skipif(WINDOWS, reason="Windows sends no signals to other processes")

"""Runs a command of the command line without what Windows does not have; run by itself.

``python without_posix.py WORDS``: modules that Windows lacks cannot be imported, functions, flags and signals
that it lacks are gone, before anything of Bowlbook is imported.
"""

import contextlib
import os
import signal
import sys

MODULES = ("fcntl", "grp", "pwd", "resource", "termios", "tty", "pty", "syslog", "_posixshmem")
OF_OS = (
    *("fork", "forkpty", "register_at_fork", "geteuid", "getuid", "getegid", "getgid", "setsid", "getpgid"),
    *("sched_getaffinity", "sched_setaffinity", "mkfifo", "chown", "lchown", "fchmod", "nice", "sync"),
    *("O_CLOEXEC", "O_DIRECTORY", "O_NOFOLLOW", "O_NONBLOCK"),
)
OF_SIGNAL = ("SIGHUP", "SIGKILL", "SIGALRM", "SIGCHLD", "SIGQUIT", "SIGUSR1", "SIGPIPE", "pthread_sigmask")


def take_away() -> None:
    for name in MODULES:
        sys.modules[name] = None  # type: ignore[assignment]  # an import of it fails
    for module, names in ((os, OF_OS), (signal, OF_SIGNAL)):
        for name in names:
            with contextlib.suppress(AttributeError):
                delattr(module, name)


if __name__ == "__main__":
    take_away()
    from bowlbook.commands import run

    run()

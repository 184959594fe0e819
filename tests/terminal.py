#!/usr/bin/env python3
"""The round at a real terminal of 40 columns (a pseudo-terminal): the prompt waits, what is typed is shown
once, no line is wider than the terminal, an answer is in the file before the next is asked for, and the
end of the input ends the round.

  terminal.py ROUNDBOOK
"""
import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import sys
import tempfile
import termios
import time
import unicodedata

ROUNDBOOK = os.path.abspath(sys.argv[1])


class Terminal:
    """A program at a terminal that somebody types into."""

    def __init__(self, command, env, columns):
        self.master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
        self.process = subprocess.Popen(command, env=env, stdin=slave, stdout=slave, stderr=slave,
                                        start_new_session=True, close_fds=True)
        os.close(slave)
        self.seen = ""

    def until(self, pattern, seconds=60):
        """Reads until the pattern is seen after what was seen before; returns what came."""
        end = time.monotonic() + seconds
        came = ""
        while not re.search(pattern, came):
            ready, _, _ = select.select([self.master], [], [], max(0.0, end - time.monotonic()))
            if not ready:
                raise AssertionError(f"waited in vain for {pattern!r}; there came:\n{came}")
            try:
                more = os.read(self.master, 4096)
            except OSError:
                more = b""
            if not more:
                raise AssertionError(f"ended before {pattern!r}; there came:\n{came}")
            came += more.decode()
        self.seen += came
        return came

    def type(self, text):
        os.write(self.master, text.encode())


def width(line):
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
               for c in line)


def main():
    with tempfile.TemporaryDirectory() as folder:
        env = {"PATH": "/usr/bin:/bin", "HOME": folder, "TZ": "UTC", "LC_ALL": "C.UTF-8", "TERM": "xterm",
               "ROUNDBOOK_BOOK": f"{folder}/site.db", "ROUNDBOOK_WHO": "tester",
               "ROUNDBOOK_NOW": "2027-05-03T07:15:00-07:00",
               **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}}

        def run(*words):
            return subprocess.run([ROUNDBOOK, *words], env=env, check=True, capture_output=True, text=True).stdout

        run("new", "--site", "Tern Hollow", "--zone", "America/Los_Angeles", "--units", "us")
        run("start", "pile", "heap-3", "--when", "2027-04-20 9:00")
        run("start", "larvae", "bin-a", "--when", "2027-04-21 9:00")

        terminal = Terminal([ROUNDBOOK, "round"], env, 40)
        terminal.until(r"heap-3> $")
        terminal.type("core=148F turned\n")
        came = terminal.until(r"bin-a> $")
        assert came.count("core=148F turned") == 1, came  # the terminal's echo alone
        assert "core 148 °F" in came, came
        # Recorded at once, while the round goes on: another process sees it.
        assert "heap-3 core=148F turned" in run("history"), run("history")
        terminal.type("?\n")
        terminal.until(r"ends by[\s\S]*bin-a> $")
        terminal.type("\x04")  # the end of the input
        terminal.until(r"Stopped: 1 logged, 1 not\s+visited")
        assert terminal.process.wait(60) == 0
        wide = [line for line in terminal.seen.replace("\r", "").split("\n") if width(line) > 40]
        assert not wide, wide
        # Somebody who closes the terminal in the middle leaves what was recorded.
        terminal = Terminal([ROUNDBOOK, "round", "--all"], env, 40)
        terminal.until(r"heap-3> $")
        terminal.type("damp\n")
        terminal.until(r"bin-a> $")
        os.close(terminal.master)
        terminal.process.wait(60)
        assert "heap-3 damp" in run("history"), run("history")
        assert "nothing wrong" in run("check") or "whole" in run("check"), run("check")
    print("the round at a terminal is as it should be")


if __name__ == "__main__":
    main()

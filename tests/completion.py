#!/usr/bin/env python3
"""What can be typed next, as real shells complete it: bash always, zsh and fish where they are; the manual
page as groff formats it.

  completion.py ROUNDBOOK
"""
import os
import shutil
import subprocess
import sys
import tempfile

ROUNDBOOK = os.path.abspath(sys.argv[1])

BASH = r"""
COMP_WORDBREAKS=$' \t\n"\'><=;|&(:'
compopt() { :; }
source <(roundbook complete bash)
COMP_LINE=$1 COMP_POINT=${#1}
_roundbook
printf '%s\n' "${COMPREPLY[@]}"
"""


def main():
    with tempfile.TemporaryDirectory() as folder:
        os.mkdir(f"{folder}/bin")
        os.symlink(ROUNDBOOK, f"{folder}/bin/roundbook")
        env = {"PATH": f"{folder}/bin:/usr/bin:/bin", "HOME": folder, "TZ": "UTC", "LC_ALL": "C.UTF-8",
               "ROUNDBOOK_BOOK": f"{folder}/site.db", "ROUNDBOOK_WHO": "tester", "ROUNDBOOK_BACKUPS": "off",
               "ROUNDBOOK_NOW": "2027-05-03T07:15:00-07:00",
               **{k: v for k, v in os.environ.items() if k.startswith(("ASAN_", "UBSAN_", "LLVM_"))}}

        def run(*words, **more):
            return subprocess.run(words, env=env, cwd=folder, check=True, capture_output=True, text=True,
                                  **more).stdout

        def bash(line):
            return [one for one in run("bash", "-c", BASH, "bash", line).split("\n") if one]

        # Without a logbook the program still knows its commands and kinds.
        assert bash("roundbook hist") == ["history"], bash("roundbook hist")
        assert bash("roundbook start pa") == ["panel"], bash("roundbook start pa")
        run("roundbook", "new", "--site", "S", "--zone", "America/Los_Angeles", "--units", "us")
        run("roundbook", "place", "lower yard")
        for n in range(40):
            run("roundbook", "start", "pile", f"heap-{n}")
        run("roundbook", "start", "larvae", "bin-a", "--place", "lower yard")
        run("roundbook", "end", "heap-7")
        for line, wanted in {
                "roundbook log b": ["bin-a"],
                "roundbook log heap-7": [],  # it has ended
                "roundbook log heap-3 tur": ["turned"],
                "roundbook log heap-3 cor": ["core="],
                "roundbook log bin-a stir": ["stirred"],
                "roundbook add heap-3 2bucket coffee-gr": ["coffee-grounds"],
                "roundbook take bin-a 3lb larvae --to b": ["bin-a"],
                "roundbook start pile x method=st": ["static"],  # bash has what follows =
                "roundbook start pile x --pl": ["--place"],
                "roundbook round ": ["lower\\ yard"],
                "roundbook undo --who te": ["tester"],
                "roundbook today --ch": ["--check"],
                "roundbook --book none.db log b": [],
        }.items():
            assert bash(line) == wanted, (line, bash(line))
        print("bash: as it should be")

        if shutil.which("fish"):
            for line, wanted in {"roundbook log b": "bin-a", "roundbook log heap-3 tur": "turned",
                                 "roundbook start pile x method=st": "method=static"}.items():
                came = run("fish", "--no-config", "-c",
                           "roundbook complete fish | source; complete -C $argv[1]", line)
                assert [one.split("\t")[0] for one in came.splitlines()] == [wanted], (line, came)
            print("fish: as it should be")
        if shutil.which("zsh"):
            script = run("roundbook", "complete", "zsh")
            run("zsh", "-n", input=script)
            # Its part that asks the program, with compadd replaced by a word that says what it was given.
            came = run("zsh", "-f", "-c", "compadd() { print -r -- $@ $found $open }; _files() { print files }\n"
                       "words=(roundbook log heap-3 tur); CURRENT=4\n" + script)
            assert "turned" in came, came
            print("zsh: as it should be")

        page = run("roundbook", "complete", "man")
        if shutil.which("man"):
            done = subprocess.run(["man", "--warnings=w", "-E", "UTF-8", "-l", "-"], input=page, text=True,
                                  capture_output=True, env={**env, "MANWIDTH": "80"})
            assert not done.stderr, done.stderr
            for word in ("roundbook round", "148F", "bioassay", "EXIT STATUS"):
                assert word.split()[-1] in done.stdout, word
            print("man: formatted without a warning")


if __name__ == "__main__":
    main()

"""Writes the shade files of tests/cases into a folder, one file each, for the fuzzers to begin with.

    python3 tests/fuzz/seeds.py FOLDER
"""
import hashlib
import pathlib
import sys


def files_of(case):
    """The texts of `--- file: PATH` in one case."""
    text = None
    for line in case.read_text(encoding="utf-8").splitlines(keepends=True):
        if line.startswith("--- ") or line.startswith("$ levigate"):
            if text:
                yield text
            text = "" if line.startswith("--- file:") else None
        elif text is not None:
            text += line[1:] if line.startswith("\\") else line
    if text:
        yield text


def main():
    here = pathlib.Path(__file__).resolve().parent.parent
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    cases = sorted(here.glob("cases/*/*.case"))
    seeds = [text.encode() for case in cases for text in files_of(case)]
    seeds += [path.read_bytes() for path in sorted(here.glob("planted/*.shade"))]
    for data in seeds:
        (folder / hashlib.sha256(data).hexdigest()[:16]).write_bytes(data)


if __name__ == "__main__":
    main()

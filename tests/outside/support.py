"""What the tests of this folder share: running the command, and names that are made to break out of
whatever they are written into. Nothing here is taken from the program itself."""

import json
import os
import pathlib
import random
import subprocess
import tempfile
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
BINARY = os.environ.get("LEVIGATE_BINARY", str(ROOT / "build/release/levigate"))
NODE_FOLDER = os.environ.get("LEVIGATE_NODE", str(ROOT / "build/release/outside"))

# As a quoted name can hold them. Each is one that some reader of HTML, Markdown, CSV or JSON, or a
# terminal, takes for more than a name.
VISIBLE = [
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "</td></tr></table>", "<!-- x",
    "<b>bold</b>", "<https://evil.example>", "<a@evil.example>", "<?php x ?>", "<![CDATA[x]]>",
    "[x](javascript:alert(1))", "![x](https://evil.example/x.png)", "[x]: https://evil.example",
    "https://evil.example/a", "http://evil.example", "www.evil.example", "WWW.EVIL2.example",
    "a@evil.example", "mailto:a@evil.example", "&lt;b&gt;", "&#60;b&#62;", "&amp;", "`code`",
    "``a`b``", "```", "~~~", "**bold**", "*i*", "__b__", "_i_", "~~gone~~", "a | b", "|", "||",
    "\\", "\\|", "\\\\|", "a\\", "# head", "head #", "## x ##", "- item", "+ item", "* item",
    "1. item", "1) item", "> quote", "===", "---", "***", "___", "$x$", "$$x$$", ":---:",
    "=1+1", "+1", "-1", "@SUM(A1)", "a,b", "'single'", "a;b", "{x", "x}", "%s%n", "${HOME}", "$(id)",
    "`id`", "../../etc/passwd", "null", "true", "\u00e9t\u00e9", "\u7d05", "\u05e9\u05dc",
    "\U0001f469\U0001f3fd\u200d\U0001f52c", "e\u0301", "!", "a!b", "[", "]", "[]", "()", "[x][y]",
    "^1", "[^1]", ":smile:", "x<y", "x>y", "<", ">", "&", "&&",
]

# What nobody sees, or what steers a terminal. The reader refuses most of them; what it says of them
# must not carry them on.
UNSEEN = [
    "\x1b[31mred", "\x1b]0;title\x07", "\x1b]8;;https://evil.example\x1b\\x", "\x9b31m", "\x07", "\x08\x08",
    "\r", "\x0b", "\x0c", "\x7f", "\x00", "\u202eevil", "\u2066x", "\u200e", "\u061c", "\u200b", "\u2060",
    "\ufeff", "\u00ad", "\u034f", "\u3164", "\u115f", "\uffa0", "\u180e", "\u2028", "\u2029", "\u0085",
    "\U000e0041\U000e0042", "a\u200db", "a\u200cb", "a\ufe0f", "\u2061", "\u206a", "\ufff9", "\u2800",
    "\U0001d173", "\u17b4", "\udcff", "\udcc3", "\udced\udca0\udc80",  # broken bytes
]


def encoded(text):
    return text.encode("utf-8", "surrogateescape")


def run(folder, *words, stdin=None, **more):
    """The command in a folder; status, standard output and standard error as bytes."""
    done = subprocess.run([BINARY, *words], cwd=folder, input=stdin or b"", timeout=60,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          env={"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TERM": "dumb"}, **more)
    return done.returncode, done.stdout, done.stderr


def shade_file(names, seed=1):
    """A file with every name as a material, and some as blends, shades, variants, finishes and batches.
    Amounts are whole tenths of a percent, so that nothing needs rounding but the grams."""
    random.seed(seed)
    lines = ["market US, EU"]
    for name in names:
        lines += [f'material "{name}"', f'    label "L {name}"', "    role base", "    density 0.9 g/mL"]
    picked = random.sample(names, min(len(names), 24))
    lines += [f'variant "V {picked[0]}"', f'    scale "B {picked[2]}" by 1/2',
              f'finish "F {picked[1]}"', f'    add 5 % "{names[1]}"',
              f'blend "B {picked[2]}"', f'    1 part "{names[2]}"', f'    2 parts "{names[3]}"']
    for i, name in enumerate(picked):
        inside = [n for n in random.sample(names, 6) if n != names[0]][:4]
        lines += [f'shade "{name}"', f'    rest "{names[0]}"', f'    12.5 % "B {picked[2]}"']
        lines += [f'    {random.randint(1, 90) / 10} % "{n}"' for n in inside]
        if i % 3 == 0:
            lines += [f'    variants "V {picked[0]}"', f'    finishes "F {picked[1]}"']
        lines += [f"    step Stir {name.replace('{', '').replace('}', '')}.",
                  f"    note {name.replace('{', '').replace('}', '')}",
                  f'    expect the base at least 1 %',
                  f"    batch \"t {name}\" {random.randint(3, 900)} g"]
    return "\n".join(lines) + "\n"


class Scratch(unittest.TestCase):
    """Each test plays in a folder of its own."""

    def setUp(self):
        self._folder = tempfile.TemporaryDirectory()
        self.addCleanup(self._folder.cleanup)
        self.folder = pathlib.Path(self._folder.name)

    def write(self, name, text):
        path = self.folder / name
        path.write_bytes(text if isinstance(text, bytes) else encoded(text))
        return path

    def run_here(self, *words, **more):
        return run(self.folder, *words, **more)


def render(texts):
    """What an outside reader of Markdown makes of each text."""
    if not (pathlib.Path(NODE_FOLDER) / "node_modules/markdown-it").is_dir():
        raise AssertionError(
            f"markdown-it is not in {NODE_FOLDER}: tests/run installs it there by npm ci, which needs "
            "the network once")
    node = subprocess.run(["node", str(ROOT / "tests/outside/render.mjs"), NODE_FOLDER],
                          input=json.dumps(texts).encode(), stdout=subprocess.PIPE, check=True, timeout=120)
    return json.loads(node.stdout)

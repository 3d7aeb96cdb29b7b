"""Nothing of a file reaches a terminal as a command, and nothing that can't be seen reaches it at all:
for every verb, standard output and standard error, whatever the file holds and wherever."""

import os
import pty
import random
import subprocess
import unicodedata
import unittest

from support import BINARY, UNSEEN, VISIBLE, Scratch, encoded, shade_file

# Behind one of these a joiner or a selector shapes a picture or a letter: it is seen.
SHAPERS = "\u200c\u200d\ufe0e\ufe0f"


def unseen(text):
    """The signs of an output that nobody would see, by Python's tables."""
    found = []
    before = ""
    for sign in text:
        category = unicodedata.category(sign)
        invisible = category in ("Cc", "Cf", "Cs", "Zl", "Zp") or sign in "\u034f\u115f\u1160\u3164\uffa0\u17b4\u17b5\u2800"
        invisible = invisible or 0xFE00 <= ord(sign) <= 0xFE0F or 0xE0000 <= ord(sign) <= 0xE0FFF
        shaped = sign in SHAPERS and before and (ord(before) > 0x2190 or 0x600 <= ord(before) < 0x1E00)
        if invisible and sign != "\n" and not shaped:
            found.append(f"U+{ord(sign):04X}")
        before = sign
    return found


VERBS = (["weigh", "a.shade"], ["check", "a.shade"], ["label", "a.shade"], ["shades", "a.shade"],
         ["share", "a.shade"], ["share", "a.shade", "--as", "markdown"], ["why", "a.shade", "S", "m"], ["check", "a.shade", "--brief", "--as", "markdown"],
         ["changes", "b.shade", "a.shade"], ["changes", "a.shade", "b.shade", "--as", "markdown"])


class Terminal(Scratch):
    def quiet(self, text, what):
        self.write("a.shade", text)
        self.write("b.shade", "material m\nshade S\n    1 part m\n    batch t 8 g\n")
        for words in VERBS:
            self.judge(words, what)

    def judge(self, words, what):
        status, out, err = self.run_here(*words)
        self.assertIn(status, (0, 1, 2, 3), (words, what))
        for stream in (out, err):
            said = stream.decode("utf-8")  # fails where a broken byte came through
            self.assertEqual(unseen(said), [], (words, what, said))

    def test_in_every_place_of_a_file(self):
        for hostile in UNSEEN:
            n = f"m{hostile}x"
            for text in (
                    f'material m\nmaterial "{n}"\nshade S\n    rest m\n    2 % "{n}"\n    batch t 9 g\n',
                    f'material m\nshade "{n}"\n    100 % m\n    batch t 9 g\n    step {n}\n    note {n}\n',
                    f'material m\nshade S\n    100 % m\n    batch "{n}" 9 g\n    variants {n}\n    {n}\n',
                    f'use "{n}.shade"\nmaterial m\n{n}\nshade S # {n}\n    100 % m\n    1 {n} m\n    batch t 9 {n}\n',
                    f'{n} m\n<<<<<<< {n}\n=======\n>>>>>>> {n}\nmarket {n}\nlanguage {n}\n'):
                self.quiet(text, repr(hostile))

    def test_in_the_words_of_the_command(self):
        self.write("a.shade", "material m\nshade S\n    100 % m\n    batch t 9 g\n")
        for hostile in UNSEEN:
            if "\x00" in hostile:
                continue  # no command line can hold it
            h = encoded(hostile)
            for words in (["weigh", h], ["check", h, b"x" + h], ["weigh", "a.shade", "--shade", h],
                          ["weigh", "a.shade", "--batch", h], ["weigh", "a.shade", "--make", h],
                          ["why", "a.shade", h, h], ["explain", h], [h], ["weigh", "a.shade", b"--" + h],
                          ["label", "a.shade", "--market", h], ["weigh", "a.shade", "-o", b"no/" + h]):
                self.judge(words, repr(hostile))

    def test_what_goes_on_as_it_is_stops_at_a_terminal(self):
        """A difference and a canonical file are bytes for a file or a program. On a real terminal (a
        pseudo one of the system) they are shown instead."""
        came = 0
        for hostile in UNSEEN:
            text = encoded(f"material m\n# m{hostile}x\nshade S # {hostile}\n  100 % m\n  batch t 9 g\n")
            self.write("a.shade", text)
            for words in (["tidy", "a.shade", "--diff"], ["tidy", "--print", "a.shade"], ["weigh", "a.shade"]):
                with self.subTest((words, hostile)):
                    seen = self.on_terminal(words)
                    came += bool(seen)
                    self.assertEqual(unseen(seen.decode("utf-8").replace("\r\n", "\n")), [])

        self.assertGreater(came, 2 * len(UNSEEN))  # where nothing can be read, nothing may come

    def on_terminal(self, words):
        ours, its = pty.openpty()
        done = subprocess.Popen([BINARY, *words], cwd=self.folder, stdin=subprocess.DEVNULL, stdout=its,
                                stderr=subprocess.DEVNULL, env={"TERM": "dumb", "LC_ALL": "C.UTF-8"})
        os.close(its)
        seen = b""
        try:
            while piece := os.read(ours, 65536):
                seen += piece
        except OSError:  # the other end was closed
            pass
        os.close(ours)
        done.wait(60)
        return seen

    def test_random_bytes_in_a_sound_file(self):
        whole = encoded(shade_file(VISIBLE[:12] + ["m", "S", "n", "o", "p", "q"] * 1, 3))
        chance = random.Random(5)
        for _ in range(40):
            text = bytearray(whole)
            for _ in range(chance.randint(1, 6)):
                at = chance.randrange(len(text))
                text[at:at + chance.randint(0, 2)] = encoded(chance.choice(UNSEEN))
            self.quiet(bytes(text), "random")

    def test_the_judge_sees_what_is_unseen(self):
        for hostile in UNSEEN:
            text = encoded(hostile).decode("utf-8", "replace")
            if "\ufffd" not in text and hostile != "\x85":
                self.assertNotEqual(unseen("a" + text), [], repr(hostile))
        self.assertEqual(unseen("\u2764\ufe0f\u200d\U0001f525 \u00e9t\u00e9\n"), [])


if __name__ == "__main__":
    unittest.main()

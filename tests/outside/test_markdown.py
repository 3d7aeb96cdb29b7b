"""Markdown as a reader from outside takes it (markdown-it: CommonMark, GFM's tables): what stands in the
tables is what stands in the CSV, and no name becomes a tag, a link, a picture or code."""

import re
import unicodedata
import unittest
from fractions import Fraction

from support import VISIBLE, Scratch, render, shade_file
from test_readers import csv_rows


class Markdown(Scratch):
    def page(self, *words):
        status, out, err = self.run_here(words[0], "--as", "markdown", "--", *words[1:])
        self.assertIn(status, (0, 1), err)
        text = out.decode("utf-8")
        # Names from right to left stand between U+2068 and U+2069, and nothing of them outside.
        pair = "\u2068([^\u2068\u2069\n]*)\u2069"
        outside = re.sub(pair, "", text)
        self.assertEqual([letter for letter in outside if unicodedata.bidirectional(letter) in ("R", "AL")
                          or letter in "\u2068\u2069"], [], text)
        return re.sub(pair, r"\1", text)

    def dead(self, page, what):
        self.assertEqual(page["live"], [], what)

    def test_sheets_equal_the_csv(self):
        for seed in range(6):
            self.write("a.shade", shade_file(VISIBLE, seed))
            page, = render([self.page("weigh", "a.shade")])
            self.dead(page, "weigh")
            rows = csv_rows(self.run_here("weigh", "a.shade", "--as", "csv")[1])[1:]
            cells = []
            for table in page["tables"]:
                self.assertEqual(table[0][:2], ["weigh, g", "ingredient"])
                cells += [row for row in table[1:] if row[1] != "in the bowl"]
            self.assertEqual(len(cells), len(rows))
            for cell, row in zip(cells, rows):
                name = cell[1].removesuffix(" (bowl 1)")
                self.assertEqual((cell[0], name), (row[6], row[5]))
                off = abs(Fraction(cell[2]) - Fraction(row[7]))
                self.assertLessEqual(off, Fraction(1, 200), (cell, row))

    def test_headings_hold_whole_names(self):
        self.write("a.shade", shade_file(VISIBLE))
        page, = render([self.page("shades", "a.shade")])
        self.dead(page, "shades")
        rows = csv_rows(self.run_here("weigh", "a.shade", "--as", "csv")[1])[1:]
        self.assertEqual(page["headings"], list(dict.fromkeys(row[0] for row in rows)))

    def test_each_name_in_each_place_of_each_verb(self):
        """One file a name, so that a name which breaks a page can't hide behind another."""
        texts, what = [], []
        for name in VISIBLE:
            plain = name.replace("{", "").replace("}", "")
            self.write("a.shade", f'market US, EU\nmaterial "{name}"\n    label "{name}"\n'
                       f'material red\n    label "Red {name}"\n    colourant CI 77491\n    hazard powder\n'
                       f'shade "{name}"\n    rest "{name}"\n    2 % red\n    step {plain} x\n    step a {plain}\n'
                       f'    note {plain} x\n    expect "{name}" at least 1 %\n    batch "{name}" 10 g\n')
            self.write("b.shade", "material red\nshade Other\n    1 part red\n    batch trial 1 g\n")
            for words in (["weigh"], ["check"], ["label"], ["shades"], ["share"], ["changes"],
                          ["why", f'"{name}"', name]):
                if words[0] == "share" and self.run_here("weigh", "a.shade")[0] != 0:
                    continue  # a file with an error isn't shared
                if words[0] == "changes":
                    words = ["changes", "b.shade"]
                texts.append(self.page(words[0], "a.shade", *words[1:]))
                what.append((name, words[0]))
        for page, (name, verb) in zip(render(texts), what):
            self.dead(page, (name, verb))
            seen = page["headings"] + page["texts"] + [c for t in page["tables"] for r in t for c in r]
            self.assertTrue(any(name in text for text in seen), (name, verb, seen))

    def test_the_reader_itself_sees_what_is_live(self):
        pages = render(["<b>x</b>", "[x](https://x.example)", "https://x.example", "`x`", "![x](y)", "    x\n",
                        "a@x.example", "<div>\nx\n</div>", "www.x.example", "plain"])
        self.assertEqual([bool(page["live"]) for page in pages], [True] * 9 + [False])


if __name__ == "__main__":
    unittest.main()

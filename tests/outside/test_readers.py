"""CSV and JSON as a general reader takes them: Python's own csv and json modules. Both say the same, to
the last fraction, and every name comes back as it went in."""

import csv
import io
import json
import unittest
from fractions import Fraction

from support import ROOT, VISIBLE, Scratch, shade_file

CSV_HEAD = ["shade", "variant", "finish", "batch", "bowl", "ingredient", "grams", "percent", "exact"]


def csv_rows(out):
    return list(csv.reader(io.StringIO(out.decode("utf-8"), newline="")))


def json_rows(out):
    """The lines of a JSON answer, in the form of the CSV's."""
    rows = []
    for sheet in json.loads(out)["sheets"]:
        key = [sheet[k] or "" for k in ("shade", "variant", "finish", "batch")]
        for bowl in sheet["bowls"]:
            rows += [key + [bowl["name"]] + [line[k] for k in ("name", "grams", "percent", "exact")]
                     for line in bowl["lines"]]
    return rows


class Readers(Scratch):
    def both(self, name, *words):
        status, out, err = self.run_here("weigh", name, "--as", "csv", *words)
        self.assertEqual((status, err), (0, b""))
        rows = csv_rows(out)
        status, out, err = self.run_here("weigh", name, "--as", "json", *words)
        self.assertEqual((status, err), (0, b""))
        return rows, out

    def agree(self, name, *words):
        rows, out = self.both(name, *words)
        self.assertEqual(rows[0], CSV_HEAD)
        self.assertGreater(len(rows), 1)
        for row in rows:
            self.assertEqual(len(row), len(CSV_HEAD), row)
        self.assertEqual(rows[1:], json_rows(out))
        self.figures(json.loads(out))
        return rows[1:]

    def figures(self, answer):
        """What stands beside each other fits: a share is the exact amount in the whole, grams are within
        half the last place that is written, and the shade's own bowl adds up to the whole."""
        for sheet in answer["sheets"]:
            whole = Fraction(sheet["total"]["exact"])
            for bowl in sheet["bowls"]:
                for line in bowl["lines"]:
                    exact = Fraction(line["exact"])
                    off = abs(Fraction(line["percent"]) - 100 * exact / whole)
                    self.assertLessEqual(off, Fraction(1, 20000), (sheet["shade"], line))
                    places = len(line["grams"].partition(".")[2])
                    off = abs(Fraction(line["grams"]) - exact)
                    self.assertLessEqual(off, Fraction(1, 10 ** places), (sheet["shade"], line))
                    if exact:
                        rounding = 100 * (Fraction(line["grams"]) - exact) / exact
                        off = abs(Fraction(line["rounding"]) - rounding)
                        self.assertLessEqual(off, Fraction(1, 20000), (sheet["shade"], line))
            own = sheet["bowls"][-1]
            self.assertEqual(sum(Fraction(line["exact"]) for line in own["lines"]), whole)

    def test_hostile_names_come_back_as_they_went_in(self):
        self.write("a.shade", shade_file(VISIBLE))
        rows = self.agree("a.shade")
        ingredients = {row[5] for row in rows}
        shades = {row[0] for row in rows}
        self.assertLessEqual(shades, set(VISIBLE))
        self.assertEqual(len(shades), 24)
        self.assertEqual({name for name in ingredients if not name.startswith("B ")} - set(VISIBLE), set())
        # What a spreadsheet could take for a formula is written as it stands: README says so.
        self.write("b.shade", 'material "=1+1"\nshade "@SUM(A1)"\n    100 % "=1+1"\n    batch t 5 g\n')
        self.assertEqual([row[:6] for row in self.agree("b.shade")],
                         [["@SUM(A1)", "", "", "t", "@SUM(A1)", "=1+1"]])

    def test_amounts_by_hand(self):
        # 12.5 % of 8 g is 1 g; two thirds of the rest, 7 g, is 14/3 g.
        self.write("a.shade", 'material "a,b"\nmaterial c\nmaterial "d;e"\nblend f\n    1 part c\n'
                   '    2 parts "d;e"\nshade S\n    12.5 % "a,b"\n    rest f\n    batch t 8 g\n')
        rows = {row[5]: row[6:] for row in self.agree("a.shade")}
        self.assertEqual(rows["a,b"], ["1.00", "12.5", "1"])
        self.assertEqual(rows["d;e"][2], "14/3")
        self.assertEqual(rows["f"], ["7.00", "87.5", "7"])

    def test_examples(self):
        for path in sorted((ROOT / "examples").glob("*.shade")):
            self.write(path.name, path.read_bytes())
        for path in sorted(self.folder.glob("*.shade")):
            if b"\nshade " in path.read_bytes():
                with self.subTest(path.name):
                    self.agree(path.name)

    def test_every_json_answer_is_one_object(self):
        self.write("a.shade", shade_file(VISIBLE))
        shade = sorted(VISIBLE)[0]
        self.write("b.shade", f'material m\nshade "{shade}"\n    100 % m\n    batch t 5 g\n')
        for words in (["check", "a.shade"], ["label", "a.shade"], ["shades", "a.shade"],
                      ["why", "b.shade", f'"{shade}"', "m"], ["weigh", "none.shade"],
                      ["check", "none.shade"], ["weigh", "a.shade", "--shade", "<b>"]):
            with self.subTest(words):
                out = self.run_here(*words, "--as", "json")[1]
                answer = json.loads(out.decode("utf-8"))
                self.assertEqual(answer["format"], f"levigate {words[0]} 1")


if __name__ == "__main__":
    unittest.main()

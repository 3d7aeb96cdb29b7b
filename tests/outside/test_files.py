"""What isn't a plain file is refused and not waited for; what can't be written leaves the old file as it
was, and nothing beside it."""

import os
import pathlib
import resource
import subprocess
import tempfile
import unittest

from support import Scratch

SHADE = "material m\nshade S\n    100 % m\n    batch t 9 g\n"
# More than a small disk holds: each sheet is about 100 bytes of CSV.
MANY = "material m\nshade S\n    100 % m\n" + "".join(f"    batch b{i} {i + 1} g\n" for i in range(1900))


def memory(megabytes):
    return lambda: resource.setrlimit(resource.RLIMIT_AS, (megabytes << 20, megabytes << 20))


class Reading(Scratch):
    def refused(self, path, *more, code="file-unreadable", status=3):
        for verb in (["check", path], ["weigh", path], ["label", path], ["shades", path],
                     ["share", path], ["why", path, "S", "m"]):
            came, out, err = self.run_here(*verb, *more, preexec_fn=memory(512))
            self.assertEqual(came, status, (verb, err))
            self.assertIn(f"({code})".encode(), err, verb)

    def test_what_is_no_plain_file(self):
        os.mkfifo(self.folder / "pipe.shade")
        os.symlink("loop.shade", self.folder / "loop.shade")
        os.symlink("nowhere", self.folder / "broken.shade")
        (self.folder / "folder.shade").mkdir()
        for path in ("pipe.shade", "loop.shade", "broken.shade", "folder.shade", "/dev/zero", "/dev/null",
                     "/dev/random", "/dev/tty", "/dev/full", "/proc/self/status", "/proc/self/mem", "/proc/kmsg",
                     "/proc/self/fd/0", "/", "", "a" * 5000, "a/" * 3000):
            with self.subTest(path[:40]):
                self.refused(path)

    def test_a_use_of_it(self):
        os.mkfifo(self.folder / "pipe.shade")
        os.symlink("/dev/zero", self.folder / "zero.shade")
        os.symlink("/etc/passwd", self.folder / "passwd.shade")
        os.symlink("loop.shade", self.folder / "loop.shade")
        os.symlink(".", self.folder / "ring")
        for path, code in (("pipe.shade", "use-missing"), ("loop.shade", "use-missing"),
                           ("zero.shade", "use-outside"), ("passwd.shade", "use-outside"),
                           ("/etc/passwd", "use-outside"), ("../x.shade", "use-outside"),
                           ("/dev/zero", "use-outside"), ("ring/ring/ring/pipe.shade", "use-missing")):
            with self.subTest(path):
                self.write("a.shade", f'use "{path}"\n{SHADE}')
                status, out, err = self.run_here("check", "a.shade", "--brief")
                self.assertEqual(status, 1, err)
                self.assertIn(f"({code})".encode(), err)
                self.assertNotIn(b"root:", out + err)

    def test_a_ring_of_links_is_read_once(self):
        os.symlink(".", self.folder / "ring")
        self.write("b.shade", "material n\n")
        self.write("a.shade", f'use "ring/ring/b.shade"\nuse "b.shade"\n{SHADE}')
        self.assertEqual(self.run_here("check", "a.shade")[::2], (0, b""))


class Writing(Scratch):
    def setUp(self):
        super().setUp()
        self.write("a.shade", MANY)
        self.old = "old, and whole\n"

    def left(self, folder):
        return sorted(os.listdir(folder))

    def refused(self, target, *more, says=b"(file-unwritable)", **run):
        came, out, err = self.run_here("weigh", "a.shade", "--as", "csv", "-o", str(target), *more, **run)
        self.assertEqual(came, 3, (target, err))
        self.assertIn(says, err)
        return err

    def test_onto_what_is_no_plain_file(self):
        os.mkfifo(self.folder / "pipe")
        (self.folder / "folder").mkdir()
        os.symlink("loop", self.folder / "loop")
        before = self.left(self.folder)
        for target in ("pipe", "folder", "loop", ".", "/", "/dev/full", "/dev/null", "no/such/folder", "a.shade/x",
                       "", "x" * 300):
            for more in ([], ["--replace"]):
                with self.subTest((target[:20], more)):
                    self.refused(target, *more)
        self.assertEqual(self.left(self.folder), before)
        self.assertEqual((self.folder / "a.shade").read_text(), MANY)

    def test_where_nothing_can_be_written(self):
        self.refused("/proc/levigate-test")
        self.refused("/sys/levigate-test")
        if os.geteuid() != 0:  # to root every place is open
            place = self.folder / "shut"
            place.mkdir()
            (place / "old").write_text(self.old)
            place.chmod(0o500)
            self.refused(place / "new")
            self.refused(place / "old", "--replace")
            self.assertEqual((place / "old").read_text(), self.old)
            place.chmod(0o700)

    def test_a_file_that_may_not_grow(self):
        """What a full disk does, where no disk can be filled: a file may hold 8 kB."""
        (self.folder / "old").write_text(self.old)
        before = self.left(self.folder)
        small = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (8192, 8192))
        self.refused("old", "--replace", preexec_fn=small)
        self.refused("new", preexec_fn=small)
        self.assertEqual((self.folder / "old").read_text(), self.old)
        self.assertEqual(self.left(self.folder), before)

    def test_a_full_disk(self):
        disk = pathlib.Path(tempfile.mkdtemp())
        self.addCleanup(disk.rmdir)
        mounted = os.geteuid() == 0 and subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=16k", "levigate-test", str(disk)],
            stderr=subprocess.DEVNULL).returncode == 0
        if not mounted:
            self.skipTest("a disk can only be made by root, and not in every container")
        self.addCleanup(subprocess.run, ["umount", str(disk)])
        (disk / "old").write_text(self.old)
        self.assertIn(b"no room left", self.refused(disk / "old", "--replace"))
        self.assertIn(b"no room left", self.refused(disk / "new"))
        self.assertEqual((disk / "old").read_text(), self.old)
        self.assertEqual(self.left(disk), ["old"])

    def test_standard_output_that_is_full_or_gone(self):
        from support import BINARY
        with open("/dev/full", "wb") as full:
            done = subprocess.run([BINARY, "weigh", "a.shade"], cwd=self.folder, stdout=full,
                                  stderr=subprocess.PIPE, timeout=60)
        self.assertEqual(done.returncode, 3)
        self.assertIn(b"no room left", done.stderr)
        reader, writer = os.pipe()
        os.close(reader)
        done = subprocess.run([BINARY, "weigh", "a.shade"], cwd=self.folder, stdout=writer,
                              stderr=subprocess.PIPE, timeout=60)
        os.close(writer)
        self.assertEqual(done.returncode, 3)

    def test_a_file_that_is_there(self):
        (self.folder / "old").write_text(self.old)
        (self.folder / "old").chmod(0o640)
        self.assertIn(b"--replace", self.refused("old"))
        self.assertEqual((self.folder / "old").read_text(), self.old)
        self.assertEqual(self.run_here("weigh", "a.shade", "-o", "old", "--replace")[0], 0)
        self.assertNotEqual((self.folder / "old").read_text(), self.old)
        self.assertEqual((self.folder / "old").stat().st_mode & 0o777, 0o640)
        self.assertEqual(self.left(self.folder), ["a.shade", "old"])


if __name__ == "__main__":
    unittest.main()

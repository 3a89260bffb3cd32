"""page: the offline page written out whole where the program has it, else one line that says how to come by it."""
import os
import pathlib

from harness import ProgramTest, main

BUILT = pathlib.Path(os.environ["PAGE"])


class Page(ProgramTest):
    def test_page(self):
        file = self.directory / "sunstrain.html"
        run = self.run_program("page", "-o", str(file))
        if run.returncode == 0:
            self.assertEqual(file.read_bytes(), BUILT.read_bytes())
            self.assertEqual(self.answered("page"), BUILT.read_text())
        else:
            self.refused("page", "-o", str(file), says=["--target page"])
            self.assertFalse(file.exists())

    def test_bad_options(self):
        self.refused("page", "-o", "", says=["--output"])
        self.refused("page", "job.toml", says=["no bare words"])


main()

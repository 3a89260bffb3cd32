"""reference/texts.csv beside the sources: every sentence that a reader may be told is in it, every row of it is told,
no translation is empty, takes other figures or promises what the tool never does."""
import pathlib
import re
import string
import sys
import unittest

import sentences

SOURCE = pathlib.Path(sys.argv.pop(1))
HEADER, ROWS = sentences.read_table(SOURCE)


def places(text):
    """What a text takes: number of the argument and its format, in the order of the numbers."""
    fields, counted = [], 0
    for _, name, spec, _ in string.Formatter().parse(text):
        if name is None:
            continue
        fields.append((int(name) if name else counted, spec))
        counted += 1
        for inner in re.findall(r"{(\d*)}", spec):
            counted += 1 if not inner else 0
    return sorted(set(fields))


class Texts(unittest.TestCase):
    def test_every_sentence_has_a_row(self):
        self.assertEqual(sentences.missing(SOURCE), [])

    def test_every_sentence_is_a_plain_text_in_the_sources(self):
        self.assertEqual(sentences.all_sentences(SOURCE)[1], [])

    def test_every_row_is_told(self):
        told = set(sentences.all_sentences(SOURCE)[0])
        for key, word in sentences.choices(SOURCE):
            told |= {word, f"{key}={word}"}
        self.assertEqual([row[0] for row in ROWS if row[0] not in told], [])

    def test_no_row_stands_twice(self):
        seen = [row[0] for row in ROWS]
        self.assertEqual(sorted({text for text in seen if seen.count(text) > 1}), [])

    def test_every_cell_is_filled(self):
        self.assertEqual(HEADER[0], "en")
        for row in ROWS:
            self.assertEqual(len(row), len(HEADER), row)
            self.assertTrue(all(cell.strip() for cell in row), row)

    def test_translations_take_the_same_figures(self):
        for english, *translations in ROWS:
            for text in translations:
                self.assertEqual(places(english), places(text), english)

    def test_nothing_is_called_safe_or_approved(self):
        for row in ROWS:
            for text in row[1:]:
                self.assertNotRegex(text.lower(), r"\b(segur[oa]s?|aprobad[oa]s?|garantizad[oa]s?)\b")


if __name__ == "__main__":
    unittest.main()

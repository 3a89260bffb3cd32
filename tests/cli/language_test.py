"""--language: the same answer, verdict and figures in other words, and no English sentence left in it."""
import csv
import json
import pathlib
import re

from harness import LEAST, ProgramTest, main

SOURCE = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = SOURCE / "examples"
LANGUAGE = ["--language", "es"]


def sentences():
    """The English texts of three words and more, those with figures in their pieces between the figures."""
    with open(SOURCE / "reference/texts.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))[1:]
    found = set()
    for english, spanish in rows:
        for piece in re.split(r"{[^}]*}|\\n", english):
            piece = " ".join(piece.split())
            if len(re.findall("[A-Za-z']{2,}", piece)) >= 3 and piece not in " ".join(spanish.split()):
                found.add(piece)
    return sorted(found)


ENGLISH = sentences()


def plain(text):
    return " ".join(text.split())


def figures(text):
    return sorted(re.findall(r"\d+(?:\.\d+)?", text))


def leaves(document, path=()):
    """Everything in a JSON document that is no sentence: numbers, flags and words without a blank."""
    if isinstance(document, dict):
        for key, value in document.items():
            yield from leaves(value, (*path, key))
    elif isinstance(document, list):
        for i, value in enumerate(document):
            yield from leaves(value, (*path, i))
    elif not isinstance(document, str) or re.fullmatch(r"[\w.-]+", document):
        yield path, document


class LanguageTest(ProgramTest):
    def in_spanish(self, *words, code=0, width=80):
        """What it prints, with nothing English in it and the figures of the English answer."""
        done = self.run_program(*words, *LANGUAGE)
        english = self.run_program(*words)
        self.assertEqual((done.returncode, english.returncode), (code, code), (words, done.stderr.decode()))
        text = done.stdout.decode() + done.stderr.decode()
        for sentence in ENGLISH:
            self.assertNotIn(sentence, plain(text), words)
        self.assertEqual(figures(text), figures(english.stdout.decode() + english.stderr.decode()), words)
        for line in text.splitlines():
            self.assertLessEqual(len(line), width, line)
        return text

    def test_check_of_the_examples(self):
        verdicts = set()
        for path in sorted(EXAMPLES.glob("*.toml")):
            if path.name in ("crew-rules.toml", "school-defaults.toml"):
                continue
            text = self.in_spanish("check", str(path))
            self.in_spanish("check", str(path), "--full", "--units", "inch", "--width", "60", width=60)
            verdicts.add(text.split("[")[0].strip())
            self.assertIn("no una promesa", plain(text))
        self.assertEqual(verdicts, {"ADELANTE", "PRECAUCIÓN", "CONSULTAR"})

    def test_json_has_the_same_keys_words_and_figures(self):
        for path in ("stair-window.toml", "school-low-e.toml"):
            english = json.loads(self.answered("check", "--json", str(EXAMPLES / path)))
            spanish = json.loads(self.answered("check", "--json", str(EXAMPLES / path), *LANGUAGE))
            self.assertEqual(dict(leaves(english)), dict(leaves(spanish)))
            self.assertNotEqual(english["to_do"], spanish["to_do"])
            self.assertNotEqual(english["safety_note"], spanish["safety_note"])

    def test_own_rules_stay_as_they_were_written(self):
        rules = self.file('[[rule]]\nid = "Q1"\nseverity = "ask"\nwhen = { fact = "glass.panes", is = "1" }\n'
                          'text = "Film on already"\n', "rules.toml")
        text = self.answered("check", self.known(), "--rules", rules, "--full", *LANGUAGE)
        self.assertIn("regla propia Q1: Film on already", plain(text))

    def test_samples(self):
        self.in_spanish("check", *LEAST, "--set", "glass.panes=1", "--samples", "2000", "--threads", "1")

    def test_an_unknown_language_is_refused(self):
        line = self.refused("check", *LEAST, "--language", "xx", says=["--language = \"xx\"", "en, es"])
        self.assertIn("allowed", line)


if __name__ == "__main__":
    main()

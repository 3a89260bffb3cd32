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
            words = not re.search(r"_|--", piece)  # keys and options are the same in every language
            if words and len(re.findall("[A-Za-z']{2,}", piece)) >= 3 and piece not in " ".join(spanish.split()):
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
    def in_spanish(self, *words, code=0, width=80, sentences=ENGLISH):
        """What it prints, with nothing English in it and the figures of the English answer."""
        done = self.run_program(*words, *LANGUAGE)
        english = self.run_program(*words)
        self.assertEqual((done.returncode, english.returncode), (code, code), (words, done.stderr.decode()))
        text = done.stdout.decode() + done.stderr.decode()
        for sentence in sentences:
            self.assertNotIn(sentence, plain(text), words)
        self.assertEqual(figures(text), figures(english.stdout.decode() + english.stderr.decode()), words)
        for line in text.splitlines():
            self.assertLessEqual(len(line), width, line)
        return text

    def test_check_of_the_examples(self):
        verdicts = set()
        for path in sorted(EXAMPLES.glob("*.toml")):
            if path.name in ("crew-rules.toml", "reading-room-crack.toml", "school-defaults.toml", "stair-papers.toml"):
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

    def test_a_cracked_pane(self):
        example = str(EXAMPLES / "reading-room-crack.toml")
        template = self.file(self.answered("break", "--template"), "crack.toml")
        conflict = ["--set", "origin.impact=yes", "--set", "origin.cracks=3", "--set", "day.sky=unknown"]
        for words in ([example], [template], [example, *conflict]):
            self.in_spanish("break", *words)
            self.in_spanish("break", *words, "--units", "inch", "--width", "60", width=60)
        english, spanish = (json.loads(self.answered("break", "--json", example, *words)) for words in ([], LANGUAGE))
        self.assertEqual(dict(leaves(english)), dict(leaves(spanish)))
        self.assertNotEqual(english["note"], spanish["note"])
        text = plain(self.answered("break", "--template", *LANGUAGE).replace("# ", ""))
        for sentence in ENGLISH:
            self.assertNotIn(sentence, text)

    def test_own_rules_stay_as_they_were_written(self):
        rules = self.file('[[rule]]\nid = "Q1"\nseverity = "ask"\nwhen = { fact = "glass.panes", is = "1" }\n'
                          'text = "Film on already"\n', "rules.toml")
        text = self.answered("check", self.known(), "--rules", rules, "--full", *LANGUAGE)
        self.assertIn("regla propia Q1: Film on already", plain(text))

    def test_samples(self):
        self.in_spanish("check", *LEAST, "--set", "glass.panes=1", "--samples", "2000", "--threads", "1")

    def test_limit_rank_and_trace(self):
        for words in (["limit", str(EXAMPLES / "bakery-shadow.toml")],
                      ["rank", str(EXAMPLES / "stair-window.toml"), "--films", str(EXAMPLES / "invented-films.csv")]):
            self.in_spanish(*words)
            self.in_spanish(*words, "--width", "60", width=60)
        # What a source says stays in the source's own words.
        long = [sentence for sentence in ENGLISH if len(sentence.split()) > 4]
        self.in_spanish("trace", str(EXAMPLES / "school-low-e.toml"), width=200, sentences=long)

    def test_a_schedule_keeps_its_words_and_figures(self):
        table = self.file("job.name,pane.width,pane.height,film.solar_absorptance,frame.kind\n"
                          "A,1 m,1.5 m,0.3,wood\nB,1 m,1.5 m,0.6,aluminum\nC,1,1.5 m,0.6,wood\n", "panes.csv")
        rows = [list(csv.DictReader(self.run_program("schedule", table, *words).stdout.decode().splitlines()))
                for words in ([], LANGUAGE)]
        for english, spanish in zip(*rows, strict=True):
            for column in ("answer.verdict", "answer.ratio", "answer.rules"):
                self.assertEqual(english[column], spanish[column])
            self.assertNotEqual(english["answer.reason"], spanish["answer.reason"])
        self.in_spanish("schedule", table, "-o", str(self.directory / "out.csv"), code=2, width=200)

    def test_questions_and_practice(self):
        self.in_spanish("ask", "--sheet")
        for language, end in (("es", "salir"), ("en", "quit")):
            done = self.run_program("ask", "--language", language, stdin=None, input=f"1\n\n1\n?\n{end}\n".encode())
            self.assertEqual(done.returncode, 0, done.stderr)
        text = self.run_program("ask", *LANGUAGE, stdin=None, input="1\nno sé\natrás\nsalir\n".encode()).stdout.decode()
        self.assertIn("No se escribió nada.", text)
        for sentence in ENGLISH:
            self.assertNotIn(sentence, plain(text))
        self.in_spanish("practice", "--topics")

    def test_errors_are_told_with_the_same_exit_code(self):
        path = self.known()
        wrong = (["check"], ["check", "nowhere.toml"], ["chekc"], ["check", path, "--foo"], ["limit", "a", "b"],
                 ["check", path, "--set", "pane.width=5"], ["check", path, "--set", "pane.width=99 m"],
                 ["check", path, "--set", "pane.widht=5 m"], ["check", path, "--set", "lite.1.tint=purple"],
                 ["check", path, "--set", "film.solar_transmittance=0.9"], ["check", path, "--set", "film.surface=4"],
                 ["check", path, "--set", "lite.2.tint=clear"], ["check", path, "--units", "feet"],
                 ["rank"], ["sun"], ["schedule"], ["stress"], ["tables", "nothing"], ["ask", "-o", ""],
                 ["check", self.file("[pane\n", "broken.toml")], ["check", self.file("", "empty.toml")])
        for words in wrong:
            with self.subTest(words=words):
                line = self.refused(*words, *LANGUAGE)
                for sentence in ENGLISH:
                    self.assertNotIn(sentence, plain(line))
                self.assertNotEqual(line, self.refused(*words))

    def test_help_pages(self):
        for command in ("", "ask", "check", "schedule", "limit", "rank", "sun", "stress", "trace", "tables", "practice",
                        "break", "report", "page"):
            text = self.answered(*filter(None, [command]), "--help", *LANGUAGE)
            for sentence in ENGLISH:
                self.assertNotIn(sentence, plain(text), command)
            self.assertLessEqual(max(map(len, text.splitlines())), 80, command)

    def test_an_unknown_language_is_refused(self):
        line = self.refused("check", *LEAST, "--language", "xx", says=["--language = \"xx\"", "en, es"])
        self.assertIn("allowed", line)


if __name__ == "__main__":
    main()

"""Every sentence that a reader may be told, in English, as it stands in the sources and in the tables of reference/.

    python3 tests/texts/sentences.py SOURCE_DIR     prints those that reference/texts.csv does not have yet
"""
import csv
import json
import pathlib
import re
import sys
import tomllib

# Call -> which of its arguments is the sentence; None: any that has a blank in it.
CALLS = {"tell": 1, "told": 1, "say": 0, "saying": 0, "Saying": 0, "worded": 0, "BadInput": 0, "refuse": None, "refuse_file": None,
         "refuse_at": None, "spoiled": None, "parse_users_toml": None, "label": 0, "help_text": 1}
# Files whose functions give sentences back that others tell.
GIVEN_BACK = ("quantity.cpp", "job_check.cpp")
# Told by way of a variable: the file that holds the texts, and the texts.
BY_VARIABLE = {
    "src/report/words.cpp": ["go", "caution", "refer", "GO", "CAUTION", "REFER", "January",
                             "February", "March", "April", "May", "June", "July", "August", "September", "October",
                             "November", "December", "bottom", "right", "top", "left"],
    "src/engine/shadow.cpp": ["overhang", "reveal", "left fin", "right fin"],
    "src/engine/film_sheet.cpp": ["this reference glass", "this double reference glazing"],
    "src/cli/typed_lines.hpp": ["nothing was written"],
    "src/cli/practice.cpp": ["what was answered counts"],
    "src/engine/other_part.cpp": ["half-drawn blind", "sign", "sash in front", "bare part"],
    "src/io/data_tables.cpp": ["read", "recalled", "derived", "judgement", "common practice"],
    "src/report/question_sheet.cpp": ["outer", "middle", "inner"],
    "src/page/picture.js": ["a band along the top", "a band along one side", "an L", "half of the pane",
                            "a slanting line", "a narrow rim", "all but a patch of sun"],
    "src/engine/trace.cpp": ["sun", "optics", "heat", "field", "stress", "plane", "strength", "cold water"],
    "src/engine/trace_stages.cpp": ["latitude", "expansion", "sky", "panel"],
    "src/engine/trace_water.cpp": ["cloudburst", "garden hose"],
}
# Files whose every text with a blank in it is told: the figures of a working, what each is and where it is from.
WHOLE_FILES = ("trace.cpp", "trace_stages.cpp", "trace_plane.cpp", "trace_water.cpp")
# The options of a command and the list of commands: what has a blank in it is told by the help pages.
REGIONS = re.compile(r"add_options\(\).*?;\n|constexpr Command commands.*?\};", re.S)
CALL = re.compile(r"\b(?:tell|told|say|saying|Saying|worded|label)\s*\(")
LITERAL = re.compile(r'"((?:[^"\\]|\\.)*)"')


def read_table(source_dir):
    with open(source_dir / "reference/texts.csv", encoding="utf-8", newline="") as file:
        rows = [[cell.replace("\\n", "\n") for cell in row] for row in csv.reader(file)]
    return rows[0], rows[1:]


def unescaped(text):
    return re.sub(r"\\x1b.*", "", text).replace('\\"', '"').replace("\\n", "\n").replace("\\\\", "\\")


def without_comments(source):
    """C++ without comments; what stands in quotes stays."""
    return re.sub(r'("(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)\')|//[^\n]*|/\*.*?\*/',
                  lambda match: match.group(1) or " ", source, flags=re.S)


def arguments(source, at):
    """The arguments of a call as text; `at` is behind its bracket."""
    parts, depth, start = [], 0, at
    while at < len(source):
        char = source[at]
        if char in "\"'":
            quoted = re.compile(r"%s(?:[^%s\\\n]|\\.)*%s" % (char, char, char)).match(source, at)
            at = quoted.end() if quoted else at + 1
            continue
        if char in "([{":
            depth += 1
        elif char in ")]}":
            if depth == 0:
                return parts + [source[start:at]]
            depth -= 1
        elif char == "," and depth == 0:
            parts.append(source[start:at])
            start = at + 1
        at += 1
    return parts


def literals(argument):
    """The texts in it, those that stand beside one another joined."""
    texts, last_end = [], None
    for match in LITERAL.finditer(argument):
        if last_end is not None and not argument[last_end:match.start()].strip():
            texts[-1] += match.group(1)
        else:
            texts.append(match.group(1))
        last_end = match.end()
    return [unescaped(text) for text in texts]


def in_cpp(path):
    """(sentences, calls whose sentence is not a plain text) of one source file."""
    source = without_comments(path.read_text(encoding="utf-8"))
    found, unclear = [], []
    for match in re.finditer(r"\b(%s)\s*\(" % "|".join(CALLS), source):
        name, which = match.group(1), CALLS[match.group(1)]
        parts = arguments(source, match.end())
        if which is None:
            found += [text for part in parts for text in literals(part) if " " in text and not CALL.search(part)]
            continue
        if len(parts) <= which or CALL.search(parts[which]):
            continue  # the sentence is that of the call within
        texts = literals(parts[which])
        found += [text for text in texts if re.search("[A-Za-z]", text) or name in ("tell", "say")]
        if name == "BadInput" and "+" in re.sub(LITERAL, "", parts[which]):
            unclear.append(f"{path.name}: {parts[which].strip()[:80]}")
    for region in REGIONS.findall(source) if path.parent.name == "cli" else []:
        found += [text for text in literals(region) if " " in text]
    if path.name in GIVEN_BACK:
        found += [unescaped(text) for text in re.findall(r'return "((?:[^"\\]|\\.)*)";', source) if text]
    if path.parent.name == "engine" and path.name in WHOLE_FILES:
        found += [text for text in literals(source) if re.search("[A-Za-z]{2}", text) and " " in text]
    return found, unclear


def key_in_words(key):
    """As report::key_words tells it, with {} for the number of a lite or cavity."""
    if key == "unit.build_up":
        return "build-up of the unit"
    words = re.sub("[*1-9]", "{}", key.replace(".", " ").replace("_", " "), count=1)
    if words == "shading pattern":
        return "shadow"
    return re.sub("^(glass|site) ", "", words)


def table(source_dir, name):
    return tomllib.loads((source_dir / "reference" / name).read_text(encoding="utf-8"))


def all_keys(source_dir):
    """Those of a job and those of a report on a cracked pane."""
    for name in ("job_keys.toml", "break_keys.toml"):
        yield from table(source_dir, name)["key"]


def in_keys(source_dir):
    for key in all_keys(source_dir):
        yield from (key[name] for name in ("sentence", "question", "refused") if name in key)
        yield from (taken["why"] for taken in key.get("taken", []) if "why" in taken)
        if key.get("about_glass", True) or not key.get("personal", False):
            yield key_in_words(key["name"])


def choices(source_dir):
    """(key, word) of every choice that is more than a number or a place's name."""
    for key in all_keys(source_dir):
        if key["name"] == "site.place":
            continue
        for word in key.get("choices", []):
            if re.search("[A-Za-z]", word):
                yield key["name"], word


def in_data(source_dir):
    yield from in_keys(source_dir)
    for rule in table(source_dir, "rules.toml")["rule"]:
        yield from (rule["text"], rule["training"])
    for driver in table(source_dir, "drivers.toml")["driver"]:
        yield from (driver[name] for name in ("words", "how") if name in driver)
    for draw in table(source_dir, "samples.toml")["draw"]:
        yield draw["name"]
    for question in table(source_dir, "questions.toml")["question"]:
        yield from (question[name] for name in ("part", "ask", "find", "given") if name in question)
        yield from (answer["say"] for answer in question.get("answers", []))
    yield from in_practice(source_dir)
    yield from in_break(source_dir)


def in_break(source_dir):
    tables = table(source_dir, "break.toml")
    for name in ("clue", "band", "stress_sign", "keep", "handling"):
        for row in tables[name]:
            yield from (row[text] for text in ("text", "far", "say") if text in row)


def in_practice(source_dir):
    deck = table(source_dir, "practice.toml")
    for topic in deck["topic"]:
        yield from (topic["name"], topic["again"])
    for scenario in deck["scenario"]:
        yield from (scenario[name] for name in ("title", "see", "lesson") if scenario.get(name))
        yield from (comparison["say"] for comparison in scenario.get("compare", []))
    for drill in deck["drill"]:
        yield from (drill[name] for name in ("title", "see", "ask", "right", "proves", "proves_not"))
        yield from drill["wrong"]


def in_page(source_dir):
    for name in ("Outer", "Middle", "Inner"):
        yield f"{name} lite. "  # report::lite_asked, which the page tells
    for path in sorted((source_dir / "src/page").iterdir()):
        source = path.read_text(encoding="utf-8") if path.suffix in (".js", ".html") else ""
        if path.suffix == ".js":
            for match in re.finditer(r"\bt\(", source):
                yield from literals(re.sub(r"=== \"[^\"]*\"", "", arguments(source, match.end())[0]))
            yield from re.findall(r'\btitle: "([^"]*)"', source)
        for mark in re.finditer(r"<(\w+)[^>]*\bdata-t(?:=\"([^\"]*)\")?[^>]*>([^<]*)", source):
            yield re.sub(r"\s+", " ", mark.group(2) or mark.group(3)).strip()


def all_sentences(source_dir):
    """Each once, in the order of the sources."""
    found, unclear = {}, []
    for path in sorted(source_dir.glob("src/*/*.[ch]pp")) + sorted(source_dir.glob("include/**/*.hpp")):
        texts, problems = in_cpp(path)
        unclear += problems
        for text in texts:
            found.setdefault(text, str(path.relative_to(source_dir)))
    for file, texts in BY_VARIABLE.items():
        source = (source_dir / file).read_text(encoding="utf-8")
        unclear += [f"{file} says {text!r} no more" for text in texts if f'"{text}"' not in source]
        for text in texts:
            found.setdefault(text, file)
    for text in in_data(source_dir):
        found.setdefault(text, "reference")
    for text in in_page(source_dir):
        found.setdefault(text, "src/page")
    return found, unclear


def has_words(text):
    """Whether there is anything in it to translate beside what it takes."""
    return re.search("[A-Za-z]", re.sub(r"{[^}]*}", "", text)) is not None


def missing(source_dir):
    rows = {row[0] for row in read_table(source_dir)[1]}
    sentences, _ = all_sentences(source_dir)
    lacking = [text for text in sentences if text not in rows and has_words(text)]
    lacking += [word for key, word in choices(source_dir) if word not in rows and f"{key}={word}" not in rows]
    return list(dict.fromkeys(lacking))


if __name__ == "__main__":
    for line in missing(pathlib.Path(sys.argv[1])):
        print(json.dumps(line, ensure_ascii=False))

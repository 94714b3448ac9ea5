#!/usr/bin/env python3
"""Reads every text a person may meet, as a stranger would: the golden cases, the help of every
command and topic, the man page, the documents. Looks for long sentences, words that the glossary
replaced, options that do not exist, and words that neither a dictionary of English (aspell) nor
trade.txt knows.

  check.py PROGRAM [--age] [--root FOLDER]

--age prints the reading age of the help and of README instead: the Flesch-Kincaid grade (J. P.
Kincaid et al., Derivation of New Readability Formulas, 1975: 0.39 words a sentence + 11.8
syllables a word - 15.59).
"""
import argparse
import pathlib
import re
import subprocess
import sys

HERE = pathlib.Path(__file__).parent
LONGEST = 28  # words in a sentence


def said_in_cases(root):
    for case in sorted((root / "tests/cli/cases").rglob("*.case")):
        for number, line in enumerate(case.read_text().splitlines(), 1):
            if re.match(r"[>!] (?![a-z_, |]+$)", line):  # not the headings of tables for programs
                # Keys of JSON are for programs, and stay.
                yield f"{case.relative_to(root)}:{number}", re.sub(r'"\w+":', "", line[2:])


def printed(program, *arguments):
    return subprocess.run([program, *arguments], capture_output=True, text=True, check=True).stdout


def commands_of(program):
    known = []
    for line in printed(program, "help").split("Commands:")[1].splitlines():
        found = re.match(r"  ([a-z]+(?: [a-z-]+)?)  ", line)
        if found:
            known.append(found.group(1))
    return known


def helps_of(program):
    yield "help", printed(program, "help")
    for command in commands_of(program):
        yield "help " + command, printed(program, "help", *command.split())
    for topic in re.findall(r"^  ([a-z]+)  ", printed(program, "help", "topics"), re.M):
        yield "help " + topic, printed(program, "help", topic)


def paragraphs_of(text):
    """Wrapped lines put together; a line of its own where the indent or a gap says so."""
    whole, indent = "", None
    for line in [*text.splitlines(), ""]:
        body = line.strip()
        lead = len(line) - len(line.lstrip())
        table = re.search(r"\S {2,}\S", line.strip()) or body.startswith(("|", "-", "#", "$"))
        if not body or table or lead != indent:
            if whole:
                yield whole
            whole = ""
        if body:
            whole = (whole + " " + body).strip()
        indent = lead
    if whole:
        yield whole


def sentences_of(text):
    yield from re.split(r"(?<=[.!?:;])\s+", text)


def words_of(sentence):
    return re.findall(r"[A-Za-z][A-Za-z'’-]*", sentence)


def is_list(sentence):
    """Alternatives behind one another are looked through, not read."""
    return sentence.count(",") + sentence.count("|") >= 6


def documents_of(root):
    for name in ["README.md", "DEVELOPERS.md", "lib/README.md", "schema/README.md",
                 "sample_stash/README.md", "lib/docs/CHANGES.md"]:
        text = (root / name).read_text()
        text = re.sub(r"```.*?```|^    .*?$", "", text, flags=re.S | re.M)
        yield name, re.sub(r"`[^`]*`|\]\([^)]*\)", " ", text)


def syllables(word):
    groups = re.findall(r"[aeiouy]+", re.sub(r"e$", "", word.lower()))
    return max(1, len(groups))


def grade(texts):
    sentences = [s for text in texts for p in paragraphs_of(text) for s in sentences_of(p)
                 if len(words_of(s)) > 3]
    words = [word for sentence in sentences for word in words_of(sentence)]
    return (0.39 * len(words) / len(sentences) +
            11.8 * sum(map(syllables, words)) / len(words) - 15.59)


def unknown_words(texts):
    trade = {word.strip().lower() for word in (HERE / "trade.txt").read_text().splitlines()}
    asked = sorted({word.strip("'’-") for text in texts
                    for word in re.findall(r"(?<![\w.@/-])[A-Za-z][a-z'’]{2,}(?![\w@/]|\.\w)", text)})
    said = subprocess.run(["aspell", "list", "--lang=en", "--encoding=utf-8"],
                          input="\n".join(asked), capture_output=True, text=True, check=True).stdout
    return [word for word in said.split() if word.lower() not in trade]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--age", action="store_true")
    parser.add_argument("--root", type=pathlib.Path, default=HERE.parent.parent)
    asked = parser.parse_args()
    helps = list(helps_of(asked.program))
    documents = list(documents_of(asked.root))
    if asked.age:
        print(f"help: grade {grade([text for _, text in helps]):.1f}")
        print(f"README: grade {grade([documents[0][1]]):.1f}")
        return 0
    faults = []
    replaced = [line.split("\t") for line in (HERE / "replaced.tsv").read_text().splitlines()
                if line and not line.startswith("#")]
    options = {name for _, text in helps for name in re.findall(r"--[a-z][a-z-]+", text)}
    printed_lines = list(said_in_cases(asked.root))
    for where, text in [*printed_lines, *helps, *documents]:
        paragraphs = [text] if ":" in where else paragraphs_of(text)
        for paragraph in paragraphs:
            for sentence in sentences_of(paragraph):
                if len(words_of(sentence)) > LONGEST and not is_list(sentence):
                    faults.append((where, f"a sentence of {len(words_of(sentence))} words: {sentence}"))
        for old, better in replaced:
            if re.search(rf"\b{old}\b", text, re.I):
                faults.append((where, f"\"{old}\" (better: {better})"))
    for where, text in printed_lines:
        for name in re.findall(r"(?<![\w-])--[a-z][a-z-]+", text):
            if name not in options and "unknown option" not in text:
                faults.append((where, f"no command takes {name}: {text}"))
    for word in unknown_words([text for _, text in [*printed_lines, *helps, *documents]]):
        faults.append(("spelling", word))
    for where, what in faults:
        print(f"{where}: {what}")
    print(f"{len(faults)} findings in {len(printed_lines)} printed lines, {len(helps)} helps and "
          f"{len(documents)} documents")
    return 1 if faults else 0


sys.exit(main())

"""What the training voices say: commands, values, stretches of plain text, and words in any order.

Usage: texts.py LANGUAGE PHRASES COUNT SEED OUT.tsv CORPUS ...
PHRASES comes from phrases.ts; a CORPUS is a text, an HTML page, or a folder of such (README.md says which were used).
Writes `text<TAB>phones` lines. English phones come from the dictionary's first pronunciation, French ones from espeak-ng's reading of the
whole text, which knows liaisons. The test's talk and prompts are written elsewhere (tests/bench) and never read here.
"""

import html
import os
import random
import re
import sys
from collections import Counter

import phones

NAME = "undertray"
LETTERS = {"en": "a-z", "fr": "a-zàâäçéèêëîïôöùûüœæ"}


def read(path):
    if os.path.isdir(path):
        return "\n".join(read(os.path.join(path, name)) for name in sorted(os.listdir(path)) if name.endswith((".html", ".txt")))
    text = open(path, encoding="utf-8", errors="ignore").read()
    if path.endswith(".html"):
        text = html.unescape(re.sub(r"<[^>]+>", " ", re.sub(r"<(pre|code|script|style|head)\b.*?</\1>", " . ", text, flags=re.S)))
    return text.replace("’", "'")


def main():
    language, phrases_path, count, seed, out, *corpora = sys.argv[1:]
    random.seed(int(seed))
    reader = phones.Reader(language)
    phrases = [line.rstrip("\n").split("\t") for line in open(phrases_path, encoding="utf-8")]
    plain = re.compile(rf"[{LETTERS[language]}]+('[{LETTERS[language]}]+)?")
    tidy = lambda text: " ".join(re.sub(rf"[^{LETTERS[language]}' ]", " ", text.lower()).split())
    readable = [(kind, tidy(text)) for kind, text in phrases if reader.can_read(tidy(text))]
    commands = [text for kind, text in readable if kind == "command"]
    values = [text for kind, text in readable if kind == "value"]
    command_words = sorted({word for phrase in commands + values for word in phrase.split()})
    runs, counts = [], Counter()
    for path in corpora:
        for sentence in re.split(r"[.!?:;,()\n\"«»]+", read(path)):
            words = sentence.lower().split()
            if len(words) >= 3 and all(plain.fullmatch(word) and reader.knows(word) for word in words):
                runs.append(words)
                counts.update(words)
    common = [word for word, _ in counts.most_common(9000)]
    everyday = common[:2500]
    anything = [word for word in reader.words if plain.fullmatch(word) and 2 < len(word) < 11]
    texts = []
    while len(texts) < int(count):
        kind = random.random()
        if kind < 0.3:
            text = random.choice(commands)
            if random.random() < 0.12:
                text = NAME + " " + text
        elif kind < 0.5:
            text = random.choice(values)
        elif kind < 0.75:
            words = random.choice(runs)
            length = random.randrange(2, 9)
            start = random.randrange(0, max(1, len(words) - length + 1))
            text = " ".join(words[start : start + length])
        else:
            pool = random.choice([common, everyday, anything])
            text = " ".join(random.choice(command_words if random.random() < 0.3 else pool) for _ in range(random.choice([1, 1, 2, 2, 3, 4])))
        if len(text) < 60:
            texts.append(text)
    with open(out, "w", encoding="utf-8") as file:
        for text, spoken in zip(texts, reader.phones(texts)):
            if spoken:
                file.write(f"{text}\t{spoken}\n")


if __name__ == "__main__":
    main()

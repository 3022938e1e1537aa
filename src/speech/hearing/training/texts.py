"""What the training voices say: commands, numbers in carriers, stretches of plain English, and words in any order.

Usage: texts.py DICTIONARY PHRASES COUNT SEED OUT.tsv [CORPUS ...]
PHRASES holds what can be said to the app, a line each (phrases.ts writes it).
Writes `text<TAB>phones` lines; phones are ARPAbet without stress, from the dictionary's first pronunciation.
The test's talk and prompts are written elsewhere (tests/bench) and never read here.
"""

import random
import re
import sys
from collections import Counter

ONES = "zero one two three four five six seven eight nine".split()
TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
UNITS = ["newton meters", "newton meters", "pound feet", "foot pounds", "pound inches", "inch pounds", "kilogram meters", "millimeters", "degrees", "millimeter", "bar", "volts", "minutes", "seconds", "percent", "turns"]
COUNTED = ["done", "bolts", "bolts done", "nuts", "left", "tight", "torqued", "more", "fasteners"]


def cardinal(n):
    if n < 10:
        return ONES[n]
    if n < 20:
        return TEENS[n - 10]
    if n < 100:
        return TENS[n // 10 - 2] + ("" if n % 10 == 0 else " " + ONES[n % 10])
    rest = n % 100
    return ONES[n // 100] + " hundred" + ("" if rest == 0 else random.choice([" ", " and "]) + cardinal(rest))


def spoken_number():
    kind = random.random()
    if kind < 0.45:
        text = cardinal(random.choice([random.randrange(10, 100), random.randrange(0, 200), random.randrange(100, 1000)]))
    elif kind < 0.8:
        text = " ".join(random.choice(ONES) for _ in range(random.choice([1, 2, 2, 2, 3])))
    else:
        text = random.choice([cardinal(random.choice([13, 14, 15, 16, 17, 18, 19, 30, 40, 50, 60, 70, 80, 90]))])
    if random.random() < 0.3:
        text += random.choice([" point ", " point ", " decimal "]) + " ".join(random.choice(ONES) for _ in range(random.choice([1, 1, 2])))
    return text


def number_phrase():
    kind = random.random()
    if kind < 0.55:
        return spoken_number() + " " + random.choice(UNITS)
    if kind < 0.75:
        return cardinal(random.randrange(1, 25)) + " " + random.choice(COUNTED)
    if kind < 0.9:
        return random.choice(["it reads", "reading", "measured", "that makes", "value", "number", "I get"]) + " " + spoken_number() + random.choice(["", " " + random.choice(UNITS)])
    return spoken_number()


def main():
    dictionary_path, phrases_path, count, seed, out, *corpora = sys.argv[1:]
    random.seed(int(seed))
    dictionary = {}
    for line in open(dictionary_path, encoding="utf-8"):
        word, *phones = line.split()
        if phones and not word.endswith(")"):
            dictionary.setdefault(word, " ".join(phones))
    dictionary["undertray"] = "AH N D ER T R EY"
    dictionary["metres"] = dictionary["meters"]
    dictionary["metre"] = dictionary["meter"]
    dictionary["millimetres"] = dictionary["millimeters"]
    dictionary["centimetres"] = dictionary["centimeters"]
    dictionary["decanewton"] = "D EH K AH N UW T AH N"
    commands = [line.strip() for line in open(phrases_path, encoding="utf-8") if line.strip()]
    command_words = sorted({word.lower() for phrase in commands for word in phrase.split()})
    runs, counts = [], Counter()
    for path in corpora:
        for sentence in re.split(r"[.!?:;,()\n\"]+", open(path, encoding="utf-8", errors="ignore").read()):
            words = sentence.lower().split()
            if len(words) >= 3 and all(word in dictionary for word in words):
                runs.append(words)
                counts.update(words)
    common = [word for word, _ in counts.most_common(9000)]
    everyday = common[:2500]
    anything = [word for word in dictionary if word.isalpha() and 2 < len(word) < 11]
    lines = []
    while len(lines) < int(count):
        kind = random.random()
        if kind < 0.3:
            text = random.choice(commands)
            if random.random() < 0.12:
                text = "undertray " + text
        elif kind < 0.5:
            text = number_phrase()
        elif kind < 0.75:
            words = random.choice(runs)
            length = random.randrange(2, 9)
            start = random.randrange(0, max(1, len(words) - length + 1))
            text = " ".join(words[start : start + length])
        else:
            pool = random.choice([common, everyday, anything])
            text = " ".join(random.choice(command_words if random.random() < 0.3 else pool) for _ in range(random.choice([1, 1, 2, 2, 3, 4])))
        text = text.lower()
        words = text.split()
        if len(text) < 60 and all(word in dictionary for word in words):
            lines.append(text + "\t" + " ".join(dictionary[word] for word in words))
    with open(out, "w", encoding="utf-8") as file:
        file.write("\n".join(lines) + "\n")


main()

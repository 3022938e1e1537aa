"""What the training voices say: commands, numbers in carriers, stretches of plain English, and words in any order.

Usage: texts.py DICTIONARY COUNT SEED OUT.tsv [CORPUS ...]
Writes `text<TAB>phones` lines; phones are ARPAbet without stress, from the dictionary's first pronunciation.
The test's talk and prompts are written elsewhere (tests/bench) and never read here.
"""

import random
import re
import sys
from collections import Counter

COMMANDS = """
step done|all done|done|that is done|that's done|it's done|tight|torqued|that's tight|one done|next one|next|ok next|done with that
yes|yes it is|that's right|correct|affirmative|yes please|yeah|yep
no|no it isn't|that's wrong|negative|no thanks|nope
repeat|say again|repeat that|say that again|come again|pardon|read it again|once more
torque|what torque|which torque|how tight|torque setting|what's the torque|what is the torque|how much torque
socket|what socket|which socket|socket size|what size|what size socket|which spanner|what key
how many|how many are there|how many bolts|how many in all|number of bolts
how many left|how many more|what's left|how many to go|how many remain
where|where is it|where are they|show me where|where does it go|whereabouts
why|why that|what for|why is that|tell me why|what's the reason
caution|any cautions|what cautions|read the cautions|any warnings|is it safe
tools|what tools|which tools|what do I need|list the tools|tools needed
which step|what step|where am I|step number|which step is this|what step am I on
which next|which is next|which one next|what's next|next position|which bolt next
back|step back|go back|previous step|last step|one step back
undo|undo that|take that back|scratch that|undo the last
hold on|wait|wait a moment|pause|hold it|one moment|pause the job|hang on
carry on|continue|go on|resume|carry on please|let's go|keep going
stop|stop now|stop talking|be quiet|quiet|stop that|stop stop
start timer|start the timer|start the clock|timer on|begin timing|set the timer
time left|how long left|how much time|how long to go|time remaining
louder|speak up|speak louder|volume up|turn it up
quieter|speak softer|volume down|turn it down|not so loud
slower|speak slower|slow down|not so fast
faster|speak faster|speed up|talk faster
help|help me|what can I say|what can I do|give me the options
finish|finish up|finish the job|end the job|close the job|job finished
missing|it's missing|I don't have it|haven't got it|not here|don't have that
do it now|I'll do it now|go there now|take me there
accept|accept that|leave it at that|sign it off|accept it
leave open|leave it open|keep it open|stays open
skip|skip it|skip this|skip this step|skip that one|leave it out|pass over it
no part|part missing|no tool|tool missing|not fitted|can't reach|cannot reach it|damaged|it's damaged|told to|I was told to|do later|do it later|later|other reason|something else
note|take a note|make a note|note that|write this down
newton metres please|in newton metres|pound feet please|use pound feet|foot pounds|inch pounds|in pound inches|kilogram metres
ready|got it|have it|I have it|here|it's here|understood|I understand|clear|all clear
undertray|hey undertray
measured|it reads|reading is|it measures|I get|the gap is|the value is
""".strip()

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
    dictionary_path, count, seed, out, *corpora = sys.argv[1:]
    random.seed(int(seed))
    dictionary = {}
    for line in open(dictionary_path, encoding="utf-8"):
        word, *phones = line.split()
        if phones and not word.endswith(")"):
            dictionary.setdefault(word, " ".join(phones))
    dictionary["undertray"] = "AH N D ER T R EY"
    dictionary["metres"] = dictionary["meters"]
    commands = [phrase for line in COMMANDS.split("\n") for phrase in line.split("|")]
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

"""Packs recorded prompts of telephone exchanges, which a person spoke: the one natural voice that comes with its words and a free licence.

Usage: recorded.py DICTIONARY OUT.npz
Needs ffmpeg and Debian's asterisk-core-sounds-en-g722 (Allison Smith, CC BY-SA 3.0). prompts.tsv says what is said in which file.
Prompts longer than a command ever is (6 s) are left out.
"""

import os
import subprocess
import sys

import numpy as np

from synthesise import RATE, tidy

SOUNDS = "/usr/share/asterisk/sounds/en_US_f_Allison"


def heard(name):
    command = ["ffmpeg", "-v", "error", "-f", "g722", "-i", f"{SOUNDS}/{name}.g722", "-ac", "1", "-ar", str(RATE), "-f", "s16le", "-"]
    done = subprocess.run(command, capture_output=True, check=True)
    return tidy(np.frombuffer(done.stdout, dtype=np.int16).astype(np.float32))


def main():
    dictionary_path, out = sys.argv[1:]
    dictionary = {}
    for line in open(dictionary_path, encoding="utf-8"):
        word, *phones = line.split()
        if phones:
            dictionary.setdefault(word, " ".join(phones))
    prompts = os.path.join(os.path.dirname(os.path.abspath(__file__)), "prompts.tsv")
    lines = [line.rstrip("\n").split("\t") for line in open(prompts, encoding="utf-8") if not line.startswith("#")]
    unknown = sorted({word for _, text in lines for word in text.split() if word not in dictionary})
    if unknown:
        raise SystemExit(f"{prompts}: no pronunciation of {', '.join(unknown)} in {dictionary_path}")
    sounds, texts = [], []
    for name, text in lines:
        sound = heard(name)
        if sound is not None:
            sounds.append(sound)
            texts.append(" ".join(dictionary[word] for word in text.split()))
    lengths = np.array([len(sound) for sound in sounds], dtype=np.int64)
    np.savez(out, sound=np.concatenate(sounds), lengths=lengths, phones=np.array(texts), kinds=np.array(["recorded"] * len(sounds)))
    print(len(sounds), "prompts,", round(lengths.sum() / RATE / 60, 1), "minutes")


main()

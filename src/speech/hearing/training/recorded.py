"""Packs recorded prompts of telephone exchanges, which people spoke: the few natural voices that come with their words and a free licence.

Usage: recorded.py LANGUAGE OUT.npz
Needs ffmpeg and Debian's packages: asterisk-core-sounds-en-g722 (Allison Smith) for English; asterisk-core-sounds-fr-g722 (June Wallack) and
asterisk-prompt-fr-armelle (Armelle Desjardins) for French. The first two are under CC BY-SA 3.0, the third under a BSD licence.
prompts-LANGUAGE.tsv says what is said in which file. A prompt longer than a command ever is (6 s) is left out.
"""

import os
import subprocess
import sys

import numpy as np

import phones
from synthesise import RATE, tidy

SOUNDS = "/usr/share/asterisk/sounds"
SPEAKERS = {"en": {"recorded allison": "en_US_f_Allison"}, "fr": {"recorded june": "fr_CA_f_June", "recorded armelle": "fr"}}


def heard(path):
    for suffix, options in ((".g722", ["-f", "g722"]), (".gsm", ["-f", "gsm"])):
        if os.path.exists(path + suffix):
            done = subprocess.run(["ffmpeg", "-v", "error", *options, "-i", path + suffix, "-ac", "1", "-ar", str(RATE), "-f", "s16le", "-"], capture_output=True, check=True)
            return tidy(np.frombuffer(done.stdout, dtype=np.int16).astype(np.float32))
    return None


def main():
    language, out = sys.argv[1:]
    reader = phones.Reader(language)
    here = os.path.dirname(os.path.abspath(__file__))
    lines = [line.rstrip("\n").split("\t") for line in open(os.path.join(here, f"prompts-{language}.tsv"), encoding="utf-8") if not line.startswith("#")]
    unknown = sorted({word for _, text in lines for word in text.split() if not reader.knows(word)})
    if unknown:
        raise SystemExit(f"prompts-{language}.tsv: no pronunciation of {', '.join(unknown)}")
    spoken = reader.phones([text for _, text in lines])
    sounds, texts, kinds = [], [], []
    for kind, folder in SPEAKERS[language].items():
        for (name, _), text in zip(lines, spoken):
            sound = heard(os.path.join(SOUNDS, folder, name))
            if sound is not None:
                sounds.append(sound)
                texts.append(text)
                kinds.append(kind)
    lengths = np.array([len(sound) for sound in sounds], dtype=np.int64)
    np.savez(out, sound=np.concatenate(sounds), lengths=lengths, phones=np.array(texts), kinds=np.array(kinds), language=language)
    print(len(sounds), "prompts,", round(lengths.sum() / RATE / 60, 1), "minutes")


main()

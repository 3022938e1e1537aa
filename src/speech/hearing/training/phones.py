"""The phones of each language, and how texts are read in them."""

import os
import re
import subprocess

HERE = os.path.dirname(os.path.abspath(__file__))
MODELS = os.environ.get("SWALLOWER_MODELS", os.path.join(HERE, "../../../../node_modules/soundswallower/model"))

# English: ARPAbet without stress. French: the phones of soundswallower's French model, but "un" as "in", which most speakers say alike.
SETS = {
    "en": "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(),
    "fr": "aa ai an au bb ch dd ee ei eu ff gg gn ii in jj kk ll mm nn oe on oo ou pp rr ss tt uu uy vv ww yy zz".split(),
}

IPA = {
    "ɑ̃": "an", "ɛ̃": "in", "œ̃": "in", "ɔ̃": "on", "tʃ": "tt ch", "dʒ": "dd jj",
    "a": "aa", "ɑ": "aa", "æ": "aa", "ɐ": "aa", "ʌ": "aa", "ɛ": "ai", "e": "ei", "ə": "ee", "ø": "eu", "œ": "oe", "ɜ": "oe", "ɚ": "oe rr",
    "o": "au", "ɔ": "oo", "ɒ": "oo", "u": "ou", "ʊ": "ou", "y": "uu", "i": "ii", "ɪ": "ii", "ɥ": "uy", "w": "ww", "j": "yy",
    "p": "pp", "b": "bb", "t": "tt", "d": "dd", "k": "kk", "ɡ": "gg", "g": "gg", "f": "ff", "v": "vv", "s": "ss", "z": "zz", "θ": "ss", "ð": "zz",
    "ʃ": "ch", "ʒ": "jj", "m": "mm", "n": "nn", "ɲ": "gn", "ŋ": "nn", "l": "ll", "ɫ": "ll", "ʁ": "rr", "r": "rr", "ɹ": "rr", "ɾ": "rr", "x": "rr", "h": "",
}  # fmt: skip

OWN = {
    "en": {
        "undertray": "AH N D ER T R EY",
        "metres": "M IY T ER Z",
        "metre": "M IY T ER",
        "millimetre": "M IH L AH M IY T ER",
        "millimetres": "M IH L AH M IY T ER Z",
        "centimetre": "S EH N T AH M IY T ER",
        "centimetres": "S EH N T AH M IY T ER Z",
        "deca": "D EH K AH",
        "decanewton": "D EH K AH N UW T AH N",
    },
    # espeak-ng reads whatever stands here; only that it is known counts.
    "fr": {"undertray": "aa nn dd ee rr tt rr ei", "newton": "nn yy ou tt oo nn", "newtons": "nn yy ou tt oo nn"},
}


def of_ipa(text):
    """espeak-ng's IPA in the phones of the French model."""
    text = re.sub(r"\([a-z-]+\)", "", text)
    found, at = [], 0
    while at < len(text):
        for length in (2, 1):
            phone = IPA.get(text[at : at + length])
            if phone is not None:
                found += phone.split()
                at += length
                break
        else:
            at += 1
    # espeak-ng writes some sounds twice where words meet, and "huit" with the vowel of "rue".
    once = [phone for i, phone in enumerate(found) if i == 0 or phone != found[i - 1]]
    return " ".join("uy" if phone == "uu" and once[i + 1 : i + 2] == ["ii"] else phone for i, phone in enumerate(once))


class Reader:
    """Knows how a language's words are read."""

    def __init__(self, language):
        self.language = language
        folder = {"en": "en-us", "fr": "fr-fr"}[language]
        self.words = {}
        for line in open(os.path.join(MODELS, folder, "dict.txt"), encoding="utf-8"):
            word, *spoken = line.split()
            if spoken and not word.endswith(")"):
                self.words.setdefault(word, " ".join(spoken))
        self.words.update(OWN[language])

    def knows(self, word):
        return word in self.words

    def can_read(self, text):
        """espeak-ng reads anything; the English dictionary does not."""
        return self.language == "fr" or all(self.knows(word) for word in text.split())

    def phones(self, texts):
        if self.language == "en":
            return [" ".join(self.words[word] for word in text.split()) for text in texts]
        return [of_ipa(line) for line in ipa(texts)]


def ipa(texts, voice="fr"):
    """espeak-ng's reading of each text."""
    # Each text a paragraph of its own, so that each gets a line of its own.
    spoken = subprocess.run(["espeak-ng", "-v", voice, "-q", "--ipa"], input="\n\n".join(texts), capture_output=True, text=True, check=True)
    lines = [line.strip() for line in spoken.stdout.split("\n") if line.strip()]
    if len(lines) != len(texts):
        raise SystemExit(f"espeak-ng gave {len(lines)} readings for {len(texts)} texts")
    return lines

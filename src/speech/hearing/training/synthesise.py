"""Speaks the training texts with many synthetic voices and packs the sound.

Usage: synthesise.py MIX TEXTS.tsv OUT.npz PROCESSES SEED
MIX is one of MIXES. With ONLY=VOICE in the environment ("flite slt"), that voice of any engine but festival speaks everything, at its own pitch: a
pack to measure with. Needs flite, espeak-ng, festival (voices kal, ked, rab, don) and RHVoice. Voices kept for the bench are never used here:
slt of any engine, mbrola, pico, and the espeak-ng variants and accents that are missing from VARIANTS and ACCENTS.
"""

import os
import random
import subprocess
import sys
import tempfile
import wave
from math import gcd
from multiprocessing import Pool

import numpy as np
from scipy.signal import resample_poly

# Without f2, m4, linda, edward, Andrea and Mario.
VARIANTS = """Alex Alicia Andy Annie Denis Diogo Gene Gene2 Henrique Hugo Jacky Lee Marco Michael Mike Nguyen RicishayMax
RicishayMax2 RicishayMax3 Storm adam anika antonio aunty belinda benjamin boris caleb david ed edward2 f1 f3 f4 f5 grandma grandpa
gustave iven iven2 iven3 iven4 john kaukovalta klatt klatt2 klatt3 klatt4 klatt5 klatt6 m1 m2 m3 m5 m6 m7 m8 marcelo max michel miguel norbert
pablo paul pedro quincy rob robert sandro shelby steph steph2 steph3 travis victor zac""".split()
# Without en-us-nyc and en-gb-x-gbcwmd.
ACCENTS = ["en-us"] * 8 + ["en-gb"] * 4 + ["en-gb-scotland", "en-gb-x-gbclan", "en-gb-x-rp", "en-029"]
# Each voice and its share of the texts. DEVELOPERS.md ("The ear, measured") says how others fared.
MIXES = {
    "earlier": {"flite awb": 0.16, "flite rms": 0.16, "flite kal16": 0.08, "festival kal": 0.07, "festival ked": 0.08, "espeak": 0.45},
    "many": {
        "rhvoice bdl": 0.11,
        "rhvoice clb": 0.13,
        "rhvoice alan": 0.08,
        "festival rab": 0.07,
        "festival don": 0.05,
        "flite awb": 0.09,
        "flite rms": 0.11,
        "flite kal16": 0.04,
        "festival kal": 0.03,
        "festival ked": 0.04,
        "espeak": 0.25,
    },
}
RATE = 16000
ONLY = os.environ.get("ONLY")


def read(path):
    with wave.open(path) as file:
        rate = file.getframerate()
        sound = np.frombuffer(file.readframes(file.getnframes()), dtype=np.int16).astype(np.float32)
    if rate != RATE:
        common = gcd(rate, RATE)
        sound = resample_poly(sound, RATE // common, rate // common)
    return sound


def tidy(sound):
    """Without the quiet at either end, at a common level; None where nothing was said or too much."""
    if len(sound) < RATE // 10:
        return None
    frames = sound[: len(sound) // 160 * 160].reshape(-1, 160)
    energy = (frames**2).mean(1)
    loud = np.nonzero(energy > energy.max() * 1e-4)[0]
    if energy.max() < 100 or len(loud) < 10:
        return None
    start = max(0, loud[0] * 160 - 480)
    end = min(len(sound), loud[-1] * 160 + 640)
    sound = sound[start:end]
    if len(sound) > 6 * RATE:
        return None
    return (sound * (9000 / np.abs(sound).max())).astype(np.int16)


def spoken(command, out):
    done = subprocess.run(command, capture_output=True)
    return tidy(read(out)) if done.returncode == 0 else None


def flite(voice, text, chance, out):
    options = ["--setf", f"duration_stretch={chance.uniform(0.75, 1.3):.2f}"]
    if chance.random() < 0.7 and not ONLY:
        mean = 120 * 2 ** chance.uniform(-0.4, 0.7) if voice == "awb" else 100 * 2 ** chance.uniform(-0.4, 0.9)
        options += ["--setf", f"int_f0_target_mean={mean:.0f}"]
    return spoken(["flite", "-voice", voice, *options, "-t", text, "-o", out], out)


def pico(voice, text, chance, out):
    """pico2wave takes pace and pitch, in per cent, as marks in the text."""
    if not ONLY:
        pitch = round(100 * 2 ** chance.uniform(-0.75, 0.35)) if chance.random() < 0.7 else 100
        pace = round(100 * 2 ** chance.uniform(-0.35, 0.45))
        text = f'<speed level="{pace}"><pitch level="{pitch}">{text}</pitch></speed>'
    return spoken(["pico2wave", "-l", voice, "-w", out, text], out)


def rhvoice(voice, text, chance, out):
    pace, pitch = (100, 100) if ONLY else (round(100 * 2 ** chance.uniform(-0.35, 0.45)), round(100 * 2 ** chance.uniform(-0.3, 0.3)))
    done = subprocess.run(["RHVoice-test", "-p", voice, "-r", str(pace), "-t", str(pitch), "-o", out], input=text.encode(), capture_output=True)
    return tidy(read(out)) if done.returncode == 0 else None


def mbrola(voice, text, chance, out):
    """To measure with only."""
    return spoken(["espeak-ng", "-v", f"mb-{voice}", "-s", str(chance.randrange(130, 180)), "-w", out, text], out)


def espeak(_, text, chance, out):
    voice = chance.choice(ACCENTS) + "+" + chance.choice(VARIANTS)
    options = ["-p", str(chance.randrange(20, 80)), "-s", str(chance.randrange(120, 210)), "-v", voice]
    return spoken(["espeak-ng", *options, "-w", out, text], out)


def festival(voice, texts, chance, folder):
    """A run of texts in one process: festival takes long to start."""
    lines = [f"(voice_{voice}_diphone)"]
    for index, text in enumerate(texts):
        lines.append(f"(Parameter.set 'Duration_Stretch {chance.uniform(0.75, 1.3):.2f})")
        lines.append(f"(set! int_lr_params '((target_f0_mean {chance.randrange(85, 190)}) (target_f0_std {chance.randrange(8, 24)}) (model_f0_mean 170) (model_f0_std 34)))")
        lines.append(f'(utt.save.wave (utt.synth (Utterance Text "{text}")) "{folder}/{index}.wav" \'riff)')
    script = os.path.join(folder, "say.scm")
    with open(script, "w") as file:
        file.write("\n".join(lines))
    subprocess.run(["festival", "-b", script], capture_output=True)
    return [tidy(read(f"{folder}/{index}.wav")) if os.path.exists(f"{folder}/{index}.wav") else None for index in range(len(texts))]


def run(job):
    voice, texts, seed = job
    program, _, name = voice.partition(" ")
    chance = random.Random(seed)
    try:
        with tempfile.TemporaryDirectory() as folder:
            if program == "festival":
                return festival(name, texts, chance, folder)
            speak = {"flite": flite, "pico": pico, "rhvoice": rhvoice, "mbrola": mbrola, "espeak": espeak}[program]
            return [speak(name, text, chance, os.path.join(folder, f"{index}.wav")) for index, text in enumerate(texts)]
    except Exception as error:
        print(voice, error, file=sys.stderr)
        return [None] * len(texts)


def main():
    mix, texts_path, out, processes, seed = sys.argv[1:]
    rows = [line.rstrip("\n").split("\t") for line in open(texts_path, encoding="utf-8")]
    chance = random.Random(int(seed))
    shares = {ONLY: 1.0} if ONLY else MIXES[mix]
    pending = {voice: [] for voice in shares}
    jobs, owners = [], []
    for index in range(len(rows)):
        pending[chance.choices(list(shares), list(shares.values()))[0]].append(index)
    for voice, indexes in pending.items():
        for start in range(0, len(indexes), 40):
            owner = indexes[start : start + 40]
            jobs.append((voice, [rows[i][0] for i in owner], chance.getrandbits(32)))
            owners.append(owner)
    sounds, phones, kinds = [], [], []
    with Pool(int(processes)) as pool:
        for (voice, *_), owner, made in zip(jobs, owners, pool.imap(run, jobs)):
            for index, sound in zip(owner, made):
                if sound is not None:
                    sounds.append(sound)
                    phones.append(rows[index][1])
                    kinds.append(voice)
    lengths = np.array([len(sound) for sound in sounds], dtype=np.int64)
    np.savez(out, sound=np.concatenate(sounds), lengths=lengths, phones=np.array(phones), kinds=np.array(kinds))
    print(len(sounds), "of", len(rows), "texts spoken,", round(lengths.sum() / RATE / 3600, 2), "hours", flush=True)


if __name__ == "__main__":
    main()

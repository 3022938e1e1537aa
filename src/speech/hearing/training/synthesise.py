"""Speaks the training texts with many synthetic voices and packs the sound.

Usage: synthesise.py TEXTS.tsv OUT.npz PROCESSES SEED
With ONLY=VOICE in the environment, flite's voice of that name speaks everything: a pack to measure with.
Needs flite, espeak-ng and festival (voices kal, ked). Voices kept for the bench are never used here:
flite slt, festival slt, and the espeak-ng variants and accents in HELD_OUT.
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

HELD_OUT = {"f2", "m4", "linda", "edward", "Andrea", "Mario"}
HELD_OUT_ACCENTS = {"en-us-nyc", "en-gb-x-gbcwmd"}
VARIANTS = """Alex Alicia Andy Annie Denis Diogo Gene Gene2 Henrique Hugo Jacky Lee Marco Michael Mike Nguyen RicishayMax
RicishayMax2 RicishayMax3 Storm adam anika antonio aunty belinda benjamin boris caleb david ed edward2 f1 f3 f4 f5 grandma grandpa
gustave iven iven2 iven3 iven4 john kaukovalta klatt klatt2 klatt3 klatt4 klatt5 klatt6 m1 m2 m3 m5 m6 m7 m8 marcelo max michel miguel norbert
pablo paul pedro quincy rob robert sandro shelby steph steph2 steph3 travis victor zac""".split()
ACCENTS = ["en-us"] * 8 + ["en-gb"] * 4 + ["en-gb-scotland", "en-gb-x-gbclan", "en-gb-x-rp", "en-029"]
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
    """Without the quiet at either end, at a common level; None where nothing was said."""
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


def flite(job):
    voice, text, seed = job
    chance = random.Random(seed)
    with tempfile.NamedTemporaryFile(suffix=".wav") as out:
        options = ["--setf", f"duration_stretch={chance.uniform(0.75, 1.3):.2f}"]
        if chance.random() < 0.7 and not ONLY:
            mean = 120 * 2 ** chance.uniform(-0.4, 0.7) if voice == "awb" else 100 * 2 ** chance.uniform(-0.4, 0.9)
            options += ["--setf", f"int_f0_target_mean={mean:.0f}"]
        done = subprocess.run(["flite", "-voice", voice, *options, "-t", text, "-o", out.name], capture_output=True)
        return tidy(read(out.name)) if done.returncode == 0 else None


def espeak(job):
    _, text, seed = job
    chance = random.Random(seed)
    voice = chance.choice(ACCENTS) + "+" + chance.choice(VARIANTS)
    with tempfile.NamedTemporaryFile(suffix=".wav") as out:
        options = ["-p", str(chance.randrange(20, 80)), "-s", str(chance.randrange(120, 210)), "-v", voice]
        done = subprocess.run(["espeak-ng", *options, "-w", out.name, text], capture_output=True)
        return tidy(read(out.name)) if done.returncode == 0 else None


def festival(batch):
    """A run of texts in one process: festival takes long to start."""
    voice, texts, seed = batch
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
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
    kind, payload = job
    try:
        if kind == "festival":
            return festival(payload)
        return [flite(payload) if kind == "flite" else espeak(payload)]
    except Exception:
        return [None] * (len(payload[1]) if kind == "festival" else 1)


def main():
    texts_path, out, processes, seed = sys.argv[1:]
    rows = [line.rstrip("\n").split("\t") for line in open(texts_path, encoding="utf-8")]
    chance = random.Random(int(seed))
    jobs, owners = [], []
    pending = {"kal": [], "ked": []}
    for index, (text, _) in enumerate(rows):
        pick = chance.random()
        if ONLY:
            jobs.append(("flite", (ONLY, text, chance.getrandbits(32))))
            owners.append([index])
        elif pick < 0.4:
            voice = "awb" if pick < 0.16 else "rms" if pick < 0.32 else "kal16"
            jobs.append(("flite", (voice, text, chance.getrandbits(32))))
            owners.append([index])
        elif pick < 0.55:
            voice = "kal" if pick < 0.47 else "ked"
            pending[voice].append(index)
            if len(pending[voice]) == 40:
                jobs.append(("festival", (voice, [rows[i][0] for i in pending[voice]], chance.getrandbits(32))))
                owners.append(pending[voice])
                pending[voice] = []
        else:
            jobs.append(("espeak", ("", text, chance.getrandbits(32))))
            owners.append([index])
    sounds, phones, kinds = [], [], []
    with Pool(int(processes)) as pool:
        for (kind, payload), owner, made in zip(jobs, owners, pool.imap(run, jobs, chunksize=8)):
            for index, sound in zip(owner, made):
                if sound is not None:
                    sounds.append(sound)
                    phones.append(rows[index][1])
                    kinds.append(kind if kind == "espeak" else payload[0])
    lengths = np.array([len(sound) for sound in sounds], dtype=np.int64)
    np.savez(out, sound=np.concatenate(sounds), lengths=lengths, phones=np.array(phones), kinds=np.array(kinds))
    print(len(sounds), "utterances,", round(lengths.sum() / RATE / 3600, 2), "hours")


main()

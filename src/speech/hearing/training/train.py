"""Trains the ear: a small convolutional network from log-mel frames to phones (CTC) and to the chance of speech.

Usage: train.py PACK[,PACK] OUT_FOLDER SECONDS SEED MONITOR_PACK[,PACK] [NET[,NET]]
The monitor packs are only measured, never learnt from. NET is one of NETS; several learn from the same sound side by side.
For each it writes NET.net (8-bit weights, for the product), NET.pt (to go on from; taken up again where it is there) and NET.json (a clip with its outputs).
"""

import json
import math
import os
import sys
import time

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

import noises

PHONES = "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split()
RATE, HOP, WINDOW, FFT, MELS = 16000, 160, 400, 512, 40
FLOOR = 1e-6
MEAN, SCALE = -4.0, 4.0
EXPANSION, TAPS = 2, 9
# Left reach, right reach, dilation of each block's depthwise filter (9 taps), in frames of 20 ms.
QUICK = [(7, 1, 1)] * 6 + [(8, 0, 1)] * 2 + [(16, 0, 2)] * 4
# As far ahead as back: for a second look, once somebody has done speaking.
BOTH_WAYS = [(4, 4, 1)] * 5 + [(8, 8, 2)] * 4 + [(12, 12, 3)] * 3
# The width and the blocks of each.
NETS = {"ear": (192, QUICK), "wide": (240, QUICK), "second": (240, BOTH_WAYS)}


def mel_filters():
    to_mel = lambda hertz: 2595 * math.log10(1 + hertz / 700)
    edges = [700 * (10 ** (mel / 2595) - 1) for mel in np.linspace(to_mel(60), to_mel(7600), MELS + 2)]
    bins = np.arange(FFT // 2 + 1) * RATE / FFT
    filters = np.zeros((MELS, FFT // 2 + 1), dtype=np.float32)
    for row in range(MELS):
        low, centre, high = edges[row : row + 3]
        filters[row] = np.maximum(0, np.minimum((bins - low) / (centre - low), (high - bins) / (high - centre)))
    return torch.tensor(filters)


class Features(nn.Module):
    def __init__(self):
        super().__init__()
        self.register_buffer("filters", mel_filters())
        self.register_buffer("window", F.pad(torch.hann_window(WINDOW), (0, FFT - WINDOW)))

    def forward(self, sound, warp=None):
        frames = sound.unfold(1, WINDOW, HOP)
        frames = F.pad(frames, (0, FFT - WINDOW)) * self.window
        power = torch.fft.rfft(frames).abs().pow(2)
        if warp is not None:
            # Another length of the vocal tract: the whole spectrum stretched or shrunk.
            at = (torch.arange(power.shape[2], device=power.device)[None] / warp[:, None]).clamp(max=power.shape[2] - 1.001)
            index = at.floor().long()
            part = (at - index)[:, None]
            index = index[:, None].expand(-1, power.shape[1], -1)
            power = power.gather(2, index) * (1 - part) + power.gather(2, index + 1) * part
        return torch.log(power @ self.filters.T + FLOOR).transpose(1, 2)


class Block(nn.Module):
    def __init__(self, width, left, right, dilation):
        super().__init__()
        self.pad = (left, right)
        self.depthwise = nn.Conv1d(width, width, TAPS, groups=width, dilation=dilation, bias=False)
        self.norm = nn.BatchNorm1d(width)
        self.widen = nn.Conv1d(width, width * EXPANSION, 1)
        self.narrow = nn.Conv1d(width * EXPANSION, width, 1)
        self.drop = nn.Dropout(0.1)
        nn.init.zeros_(self.narrow.bias)
        self.narrow.weight.data *= 0.3

    def forward(self, x):
        y = self.norm(self.depthwise(F.pad(x, self.pad)))
        return x + self.narrow(self.drop(F.relu(self.widen(y))))


class Ear(nn.Module):
    def __init__(self, name):
        super().__init__()
        self.name = name
        self.width, self.shapes = NETS[name]
        self.stem = nn.Conv1d(MELS, self.width, 5, stride=2, bias=False)
        self.stem_norm = nn.BatchNorm1d(self.width)
        self.blocks = nn.ModuleList(Block(self.width, *shape) for shape in self.shapes)
        self.norm = nn.BatchNorm1d(self.width)
        self.head = nn.Conv1d(self.width, len(PHONES) + 2, 1)

    def forward(self, mels):
        x = F.relu(self.stem_norm(self.stem(F.pad((mels - MEAN) / SCALE, (3, 1)))))
        for block in self.blocks:
            x = block(x)
        out = self.head(self.norm(x)).float()
        return out[:, :-1], out[:, -1]


def folded(conv, norm):
    """A bias-free convolution and the batch norm after it as one weight and one bias."""
    scale = norm.weight / torch.sqrt(norm.running_var + norm.eps)
    return conv.weight * scale[:, None, None], norm.bias - norm.running_mean * scale


@torch.no_grad()
def exported(model):
    """Named float arrays in the order of use; matrices as [out, in], depthwise filters as [channel, tap]."""
    arrays = {}
    weight, bias = folded(model.stem, model.stem_norm)
    arrays["stem.weight"], arrays["stem.bias"] = weight.permute(0, 2, 1).reshape(model.width, -1), bias
    for index, block in enumerate(model.blocks):
        weight, bias = folded(block.depthwise, block.norm)
        arrays[f"{index}.depthwise.weight"], arrays[f"{index}.depthwise.bias"] = weight[:, 0], bias
        arrays[f"{index}.widen.weight"], arrays[f"{index}.widen.bias"] = block.widen.weight[:, :, 0], block.widen.bias
        arrays[f"{index}.narrow.weight"], arrays[f"{index}.narrow.bias"] = block.narrow.weight[:, :, 0], block.narrow.bias
    scale = model.norm.weight / torch.sqrt(model.norm.running_var + model.norm.eps)
    shift = model.norm.bias - model.norm.running_mean * scale
    head = model.head.weight[:, :, 0]
    arrays["head.weight"], arrays["head.bias"] = head * scale[None], model.head.bias + head @ shift
    return {name: array.float().cpu().numpy() for name, array in arrays.items()}


def write_net(model, path):
    """A header in JSON, then for each matrix its row scales (float32) and its 8-bit weights; biases as float32."""
    entries, blobs, offset = [], [], 0
    for name, array in exported(model).items():
        entry = {"name": name, "shape": list(array.shape), "at": offset}
        if array.ndim == 2:
            scales = np.maximum(np.abs(array).max(1) / 127, 1e-12).astype(np.float32)
            data = scales.tobytes() + np.clip(np.round(array / scales[:, None]), -127, 127).astype(np.int8).tobytes()
        else:
            data = array.astype(np.float32).tobytes()
        data += bytes(-len(data) % 4)
        entries.append(entry)
        blobs.append(data)
        offset += len(data)
    header = json.dumps(
        {"format": 1, "phones": PHONES, "mels": MELS, "mean": MEAN, "scale": SCALE, "floor": FLOOR, "low": 60, "high": 7600, "width": model.width,
         "blocks": [{"left": left, "right": right, "dilation": dilation} for left, right, dilation in model.shapes], "taps": TAPS, "arrays": entries}
    ).encode()
    header += b" " * (-len(header) % 4)
    with open(path, "wb") as file:
        file.write(b"EAR1" + len(header).to_bytes(4, "little") + header + b"".join(blobs))


class Plans(torch.utils.data.IterableDataset):
    """What goes where on each canvas, drawn in processes of their own: utterances, places, speeds, labels."""

    def __init__(self, packs, rows, length, seed):
        loaded = [np.load(path) for path in packs]
        self.lengths = np.concatenate([pack["lengths"] for pack in loaded])
        self.starts = np.concatenate([[0], np.cumsum(self.lengths)[:-1]])
        number = {phone: index + 1 for index, phone in enumerate(PHONES)}
        self.labels = [np.array([number[p] for p in text.split()], dtype=np.int64) for pack in loaded for text in pack["phones"]]
        kinds = np.concatenate([pack["kinds"] for pack in loaded])
        self.natural = kinds != "espeak"
        # Recorded voices count double: there are few of them, and they are what people sound like. A person's own recordings are
        # fewer still. LEFT_OUT names kinds that this network is not to hear, so that thresholds can be set on them.
        weights = np.where(kinds == "recorded", 18.0, np.where(self.natural, 2.0, 1.0))
        self.chances = np.cumsum(np.where(np.isin(kinds, os.environ.get("LEFT_OUT", "").split(",")), 0.0, weights))
        self.rows, self.length, self.seed = rows, length, seed

    def __iter__(self):
        worker = torch.utils.data.get_worker_info()
        self.random = np.random.default_rng([self.seed, worker.id if worker else 0])
        while True:
            silent = self.random.random(self.rows) < 0.08
            main = self.canvas(self.rows, self.length, 3, silent)
            crowd = [self.canvas(self.rows // 3, self.length, 3)[:4] for _ in range(int(self.random.integers(1, 7)))]
            yield main, crowd

    def canvas(self, rows, length, count, silent=None, pick=None, still=False):
        chosen = np.searchsorted(self.chances, self.random.random((rows, count)) * self.chances[-1]) if pick is None else pick
        speed = np.exp(self.random.normal(0, 0.11, size=chosen.shape)).clip(0.78, 1.3)
        # Grown men's recorded voices also as smaller speakers.
        speed = np.where(self.natural[chosen] & (self.random.random(chosen.shape) < 0.4), speed * 1.18, speed).clip(0.78, 1.42)
        if still:
            speed = np.ones_like(speed)
        spoken = np.ceil(self.lengths[chosen] / speed).astype(np.int64)
        labels, place = [], np.full(chosen.shape, -(10**7), dtype=np.int64)
        for row in range(rows):
            kept, total = [], 0
            if silent is None or not silent[row]:
                for k in range(count):
                    if total + spoken[row, k] + 1600 < length:
                        kept.append(k)
                        total += spoken[row, k] + 1600
            gaps = self.random.dirichlet(np.ones(len(kept) + 1)) * (length - total) if kept else []
            at = 0
            for gap, k in zip(gaps, kept):
                at += int(gap)
                place[row, k] = at
                at += int(spoken[row, k]) + 1600
            labels.append(np.concatenate([self.labels[chosen[row, k]] for k in kept]) if kept else np.zeros(0, dtype=np.int64))
        sizes = np.array([len(label) for label in labels])
        return self.starts[chosen], self.lengths[chosen], place, speed.astype(np.float32), np.concatenate(labels), sizes


class Kitchen:
    """Makes the planned canvases into sound: speakers' sizes, a room, a noise, a level."""

    def __init__(self, packs, device):
        self.device = device
        self.sound = torch.tensor(np.concatenate([np.load(path)["sound"] for path in packs])).to(device)
        self.noise = noises.bank(device)
        self.rooms = noises.rooms(device)
        self.comfort = noises.shaped(64, 16 * RATE, device, (-1.0, -1.0)).half()

    def canvas(self, plan, length):
        starts, lengths, place, speed = [torch.as_tensor(part).to(self.device, non_blocking=True) for part in plan[:4]]
        rows, count = starts.shape
        out = torch.zeros(rows, length, device=self.device)
        active = torch.zeros(rows, length // 320, device=self.device)
        time = torch.arange(length, device=self.device)[None]
        for k in range(count):
            source = (time - place[:, k : k + 1]) * speed[:, k : k + 1]
            last = lengths[:, k : k + 1] - 1
            valid = (source >= 0) & (source < last)
            index = torch.minimum(source.floor().long().clamp(min=0), last - 1)
            part = source - index
            base = index + starts[:, k : k + 1]
            value = self.sound[base].float() * (1 - part) + self.sound[base + 1].float() * part
            value = torch.where(valid, value, torch.zeros_like(value)) / 9000
            loud = value[:, : length // 320 * 320].reshape(rows, -1, 320).pow(2).mean(2) > 10**-3.6
            active = torch.maximum(active, F.max_pool1d(loud.float()[:, None], 5, 1, 2)[:, 0])
            out += value * 10 ** (torch.empty(rows, 1, device=self.device).uniform_(-3, 3) / 20)
        return out, active

    def batch(self, plan, crowds, length):
        speech, active = self.canvas(plan, length)
        rows, device = len(speech), self.device
        size = length + self.rooms.shape[1]
        room = self.rooms[torch.randint(0, len(self.rooms), (rows,), device=device)]
        wet = torch.fft.irfft(torch.fft.rfft(speech, n=size) * torch.fft.rfft(room, n=size), n=size)[:, :length]
        speech = torch.where(torch.rand(rows, 1, device=device) < 0.65, wet, speech)
        power = (speech.pow(2)[:, : active.shape[1] * 320] * active.repeat_interleave(320, 1)).sum(1, keepdim=True) / (active.sum(1, keepdim=True) * 320 + 1)
        power = torch.where(active.sum(1, keepdim=True) == 0, torch.full_like(power, 0.01), power)
        at = torch.randint(0, self.noise.shape[1] - length, (rows, 1), device=device)
        which = torch.randint(0, len(self.noise), (rows, 1), device=device)
        span = at + torch.arange(length, device=device)[None]
        noise = self.noise[which, span].float()
        crowd = sum(self.canvas(one, length)[0] for one in crowds)
        noise[: len(crowd)] = crowd
        noise = noises.level(noise + self.noise[which.flip(0), span].float() * (torch.rand(rows, 1, device=device) < 0.25) * 0.5)
        low = torch.full((rows, 1), -4.0, device=device)
        if len(crowds) == 1:
            # One other talker cannot be told from the speaker but by level.
            low[: len(crowd)] = 9.0
        ratio = low + torch.rand(rows, 1, device=device) * (26 - low)
        amount = power.sqrt() * 10 ** (-ratio / 20) * (torch.rand(rows, 1, device=device) > 0.12)
        mix = speech + noise * amount
        hiss = 10 ** (torch.empty(rows, 1, device=device).uniform_(-80, -48) / 20) * (torch.rand(rows, 1, device=device) < 0.9)
        mix = mix + torch.randn_like(mix) * hiss
        # The faint noise that the ear adds to all that it hears (comfort.ts).
        loudest = mix[:, : length // 160 * 160].reshape(rows, -1, 160).pow(2).mean(2).amax(1, keepdim=True).sqrt()
        comfort = self.comfort[torch.randint(0, len(self.comfort), (rows, 1), device=device), span].float()
        mix = mix + comfort * (loudest * 10 ** (-22 / 20)).clamp(min=10 ** (-66 / 20)) * (torch.rand(rows, 1, device=device) < 0.75)
        mix = mix / mix.abs().amax(1, keepdim=True).clamp(min=0.3) * 10 ** (torch.empty(rows, 1, device=device).uniform_(-30, 0) / 20)
        return mix, active


def coloured(mels):
    """Another microphone: a smooth curve over the bands; and a few bands and frames lost."""
    rows, bands, frames = mels.shape
    knots = torch.randn(rows, 1, 5, device=mels.device) * 0.6
    curve = F.interpolate(knots, size=bands, mode="linear", align_corners=True)[:, 0]
    # A narrow band, as over a headset, for some.
    top = torch.empty(rows, 1, device=mels.device).uniform_(26, 60)
    curve = curve - 1.5 * (torch.arange(bands, device=mels.device)[None] - top).clamp(min=0, max=5)
    mels = torch.logaddexp(mels + curve[:, :, None], torch.tensor(math.log(FLOOR), device=mels.device))
    band = torch.arange(bands, device=mels.device)[None, :, None]
    start = torch.randint(0, bands, (rows, 1, 1), device=mels.device)
    span = torch.randint(0, 6, (rows, 1, 1), device=mels.device)
    mels = torch.where((band >= start) & (band < start + span), mels.mean((1, 2), keepdim=True), mels)
    frame = torch.arange(frames, device=mels.device)[None, None]
    for _ in range(2):
        start = torch.randint(0, frames, (rows, 1, 1), device=mels.device)
        span = torch.randint(0, 7, (rows, 1, 1), device=mels.device)
        mels = torch.where((frame >= start) & (frame < start + span), mels.mean((1, 2), keepdim=True), mels)
    return mels


def losses(phones, chance, flat, sizes, active):
    log = F.log_softmax(phones, 1).permute(2, 0, 1)
    frames = log.shape[0]
    ctc = F.ctc_loss(log, flat, torch.full_like(sizes, frames), sizes, reduction="none", zero_infinity=True)
    return (ctc / sizes.clamp(min=8)).mean(), F.binary_cross_entropy_with_logits(chance, active[:, :frames])


def greedy(phones):
    best = phones.argmax(1).cpu().numpy()
    return [[int(p) for i, p in enumerate(row) if p != 0 and (i == 0 or p != row[i - 1])] for row in best]


def distance(a, b):
    previous = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        current = [i]
        for j, y in enumerate(b, 1):
            current.append(min(previous[j] + 1, current[-1] + 1, previous[j - 1] + (x != y)))
        previous = current
    return previous[-1]


@torch.no_grad()
def monitored(model, features, path, device):
    """Share of wrong phones on a pack of unseen voices: in the clean, and in white noise at 10 dB."""
    pack = {name: array for name, array in np.load(path).items()}
    number = {phone: index + 1 for index, phone in enumerate(PHONES)}
    model.eval()
    errors = []
    for noise in (0.0, 10**-0.5):
        generator = torch.Generator(device).manual_seed(1)
        wrong = total = at = 0
        sounds, labels = [], []
        for length, text in zip(pack["lengths"][:150], pack["phones"][:150]):
            sound = torch.tensor(pack["sound"][at : at + length].astype(np.float32) / 9000 * 0.3)
            at += length
            sounds.append(F.pad(sound, (6400, 72000 - 6400 - len(sound)))[:72000])
            labels.append([number[p] for p in text.split()])
        batch = torch.stack(sounds).to(device)
        level = batch.pow(2).sum(1, keepdim=True).div((batch != 0).sum(1, keepdim=True)).sqrt()
        batch = batch + torch.randn(batch.shape, device=device, generator=generator) * (1e-3 + level * noise)
        for start in range(0, len(batch), 128):
            phones, _ = model(features(batch[start : start + 128]))
            for heard, label in zip(greedy(phones), labels[start : start + 128]):
                wrong += distance(heard, label)
                total += len(label)
        errors.append(round(wrong / total, 3))
    model.train()
    return errors


class Pupil:
    """One network, its running average (which is what ships), and what it takes to teach it."""

    def __init__(self, name, out, device):
        self.name, self.out, self.device = name, out, device
        self.model, self.average = Ear(name).to(device), Ear(name).to(device)
        self.again = os.path.exists(self.path("pt"))
        if self.again:
            self.model.load_state_dict(torch.load(self.path("pt"), map_location=device))
        self.average.load_state_dict(self.model.state_dict())
        self.ours = [value for value in self.average.state_dict().values() if value.dtype.is_floating_point]
        self.theirs = [value for value in self.model.state_dict().values() if value.dtype.is_floating_point]
        self.optimiser = torch.optim.AdamW(self.model.parameters(), lr=1e-3, weight_decay=5e-3, betas=(0.9, 0.98), fused=device == "cuda")

    def path(self, ending):
        return os.path.join(self.out, f"{self.name}.{ending}")

    def learn(self, mels, flat, sizes, active, step, done):
        for group in self.optimiser.param_groups:
            group["lr"] = (2e-3 if self.again else 3e-3) * min(1, (step + 1) / 300) * (0.5 + 0.5 * math.cos(math.pi * done)) + 1e-5
        with torch.autocast(self.device, dtype=torch.bfloat16):
            phones, chance = self.model(mels)
        ctc, voice = losses(phones, chance, flat, sizes, active)
        self.optimiser.zero_grad()
        (ctc + 0.5 * voice).backward()
        norm = nn.utils.clip_grad_norm_(self.model.parameters(), 2.0)
        if torch.isfinite(norm):
            self.optimiser.step()
        keep = min(0.9985, (step + 1) / (step + 20))
        with torch.no_grad():
            torch._foreach_mul_(self.ours, keep)
            torch._foreach_add_(self.ours, self.theirs, alpha=1 - keep)
        return ctc

    def kept(self):
        self.average.eval()
        write_net(self.average, self.path("net"))
        torch.save(self.average.state_dict(), self.path("pt"))

    def checked(self, sound, features):
        with torch.no_grad():
            mels = features.cpu()(sound)
            phones, chance = self.average.cpu().eval()(mels)
        check = {"sound": [round(x, 6) for x in sound[0].tolist()], "mels": mels[0, :, 50].tolist(), "phones": phones[0, :, ::10].T.tolist(), "chance": chance[0].tolist()}
        with open(self.path("json"), "w") as file:
            json.dump(check, file)


def main():
    packs, out, seconds, seed, monitor, *rest = sys.argv[1:]
    torch.manual_seed(int(seed))
    torch.backends.cudnn.benchmark = True
    device = "cuda" if torch.cuda.is_available() else "cpu"
    packs, rows, length = packs.split(","), int(os.environ.get("ROWS", 256)), 72000
    os.makedirs(out, exist_ok=True)
    began = time.time()
    plans = Plans(packs, rows, length, int(seed))
    kitchen, features = Kitchen(packs, device), Features().to(device)
    loader = iter(torch.utils.data.DataLoader(plans, batch_size=None, num_workers=min(10, max(1, (os.cpu_count() or 2) - 3)), prefetch_factor=4))
    pupils = [Pupil(name, out, device) for name in (rest[0] if rest else "ear").split(",")]
    print("made ready in", round(time.time() - began), "s;", len(plans.labels), "utterances;", [sum(p.numel() for p in pupil.model.parameters()) for pupil in pupils], "weights", flush=True)
    began, step, last = time.time(), 0, 0.0
    while (done := (time.time() - began) / float(seconds)) < 1:
        plan, crowds = next(loader)
        with torch.no_grad():
            sound, active = kitchen.batch(plan, crowds, length)
            warp = torch.exp(torch.randn(rows, device=device) * 0.12).clamp(0.74, 1.36)
            mels = coloured(features(sound, warp))
        flat, sizes = [torch.as_tensor(part).to(device) for part in plan[4:]]
        losses_now = [pupil.learn(mels, flat, sizes, active, step, done) for pupil in pupils]
        step += 1
        if step % 100 == 0 and time.time() - last > 60:
            last = time.time()
            for pupil in pupils:
                pupil.kept()
            heard = [[monitored(pupil.average, features, path, device) for path in monitor.split(",")] for pupil in pupils]
            print(f"{last - began:5.0f} s  step {step}  ctc {[round(loss.item(), 3) for loss in losses_now]}  monitored {heard}", flush=True)
    for pupil in pupils:
        pupil.kept()
    print("steps:", step, "monitored", [[monitored(pupil.average, features, path, device) for path in monitor.split(",")] for pupil in pupils], flush=True)
    pack = np.load(monitor.split(",")[0])
    sound = torch.tensor(pack["sound"][: pack["lengths"][0]].astype(np.float32) / 30000)[None]
    sound = F.pad(sound, (8000, 8000)) + 1e-3 * torch.randn(1, sound.shape[1] + 16000)
    for pupil in pupils:
        pupil.checked(sound, features)


main()

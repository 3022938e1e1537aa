"""Workshop noises for training, made on the GPU. The bench's noises are made by other code with other settings."""

import math

import torch

RATE = 16000


def shaped(count, length, device, slope=(-2.2, 0.6)):
    """Noise whose power falls with frequency by a random slope, with random broad humps."""
    white = torch.fft.rfft(torch.randn(count, length, device=device))
    hertz = torch.linspace(0, RATE / 2, white.shape[1], device=device).clamp(min=25)
    exponent = torch.empty(count, 1, device=device).uniform_(*slope) / 2
    gain = (hertz / 500)[None] ** exponent
    for _ in range(3):
        centre = 80 * 2 ** (torch.rand(count, 1, device=device) * 6.5)
        width = 0.2 + torch.rand(count, 1, device=device)
        lift = 10 ** (torch.empty(count, 1, device=device).uniform_(-0.8, 0.9))
        gain = gain * (1 + (lift - 1) * torch.exp(-0.5 * ((hertz / centre).log2() / width) ** 2))
    return level(torch.fft.irfft(white * gain, n=length))


def level(sound):
    return sound / (sound.pow(2).mean(1, keepdim=True).sqrt() + 1e-9)


def slow(count, length, device, hertz):
    """A slowly wandering curve from 0 to 1."""
    points = max(4, int(length / RATE * hertz))
    return torch.nn.functional.interpolate(torch.rand(count, 1, points, device=device), size=length, mode="linear", align_corners=True)[:, 0]


def machine(count, length, device, low, high):
    """Harmonics of a turning or reciprocating machine, its beat, and its rattle."""
    time = torch.arange(length, device=device)[None] / RATE
    base = low * (high / low) ** torch.rand(count, 1, device=device)
    wander = 1 + 0.03 * (slow(count, length, device, 2) - 0.5)
    phase = 2 * math.pi * torch.cumsum(base * wander / RATE, 1)
    sound = torch.zeros(count, length, device=device)
    fall = torch.empty(count, 1, device=device).uniform_(0.3, 1.6)
    for harmonic in range(1, 40):
        size = torch.rand(count, 1, device=device) * harmonic**-fall * (base * harmonic < 7000)
        sound += size * torch.sin(phase * harmonic + 6.28 * torch.rand(count, 1, device=device))
    beat = 1 + torch.rand(count, 1, device=device) * torch.sin(2 * math.pi * time * torch.empty(count, 1, device=device).uniform_(4, 26)).clamp(min=-0.7)
    rattle = shaped(count, length, device, (-1.5, 0.3)) * beat
    return level(level(sound) + rattle * torch.empty(count, 1, device=device).uniform_(0.1, 2.0))


def hits(count, length, device, rate, gated):
    """Blows on metal: quick trains as of an impact tool, or single clanks."""
    impulses = torch.zeros(count, length, device=device)
    for row in range(count):
        at, step = 0.0, RATE / (rate[0] + (rate[1] - rate[0]) * torch.rand(1).item())
        while at < length:
            burst_end = at + (RATE * (0.2 + 2 * torch.rand(1).item()) if gated else step)
            while at < min(burst_end, length):
                impulses[row, int(at)] = 0.4 + torch.rand(1).item()
                at += step * (0.9 + 0.2 * torch.rand(1).item() if gated else 0.3 + 1.5 * torch.rand(1).item())
            at += RATE * 1.5 * torch.rand(1).item() if gated else 0
    span = RATE // 4
    time = torch.arange(span, device=device)[None] / RATE
    ring = torch.randn(count, span, device=device) * torch.exp(-time / torch.empty(count, 1, device=device).uniform_(0.002, 0.02))
    for _ in range(5):
        pitch = 400 * 2 ** (4 * torch.rand(count, 1, device=device))
        ring += torch.rand(count, 1, device=device) * torch.sin(6.283 * pitch * time) * torch.exp(-time / torch.empty(count, 1, device=device).uniform_(0.004, 0.06 if gated else 0.15))
    size = length + span
    sound = torch.fft.irfft(torch.fft.rfft(impulses, n=size) * torch.fft.rfft(ring, n=size), n=size)[:, :length]
    hum = shaped(count, length, device) * torch.empty(count, 1, device=device).uniform_(0.0, 0.3)
    return level(level(sound) + hum)


def tune(count, length, device):
    """Chords of a radio, with drums."""
    time = torch.arange(length, device=device)[None] / RATE
    sound = torch.zeros(count, length, device=device)
    for _ in range(4):
        notes = (torch.rand(count, length // (RATE // 3) + 1, device=device) * 30).floor()
        pitch = 110 * 2 ** (notes.repeat_interleave(RATE // 3, 1)[:, :length] / 12)
        phase = 6.283 * torch.cumsum(pitch / RATE, 1)
        envelope = torch.exp(-((time * 3) % 1) * torch.empty(count, 1, device=device).uniform_(0, 4))
        for harmonic in (1, 2, 3, 4, 5):
            sound += torch.sin(phase * harmonic) * envelope * torch.rand(count, 1, device=device) / harmonic
    return level(level(sound) + shaped(count, length, device) * torch.exp(-((time * 4) % 1) * 20) * 1.5)


def bank(device, each=48, seconds=16):
    """Rows of noise at unit power."""
    length = seconds * RATE
    parts = []
    for _ in range(3):
        steady = shaped(each, length, device)
        parts.append(steady)
        wavering = shaped(each // 2, length, device) * (0.15 + slow(each // 2, length, device, 3))
        parts.append(level(wavering))
    parts.append(machine(each, length, device, 18, 60))
    parts.append(machine(each, length, device, 40, 260))
    parts.append(hits(each // 2, length, device, (12, 50), True))
    parts.append(hits(each // 2, length, device, (0.7, 4), False))
    parts.append(tune(each // 2, length, device))
    return torch.cat(parts).half()


def rooms(device, count=1024, span=RATE // 2):
    """Room responses: the direct sound, a few early reflections, a decaying tail."""
    time = torch.arange(span, device=device)[None] / RATE
    decay = torch.empty(count, 1, device=device).uniform_(0.08, 0.7)
    tail = torch.randn(count, span, device=device) * torch.exp(-6.9 * time / decay)
    tail[:, : RATE // 500] = 0
    tail = tail / tail.pow(2).sum(1, keepdim=True).sqrt()
    response = tail * 10 ** (torch.empty(count, 1, device=device).uniform_(-20, 2) / 20)
    response[:, 0] = 1
    for _ in range(6):
        at = torch.randint(10, RATE // 40, (count,), device=device)
        response[torch.arange(count, device=device), at] += torch.empty(count, device=device).uniform_(-0.5, 0.5)
    return response

"""Trains the reader of talks: which numbers are counts, sizes and torques, which words name fasteners, and what belongs together.

Usage: train.py LINES[,LINES] WEIGHTS.pt TALKS.net
       train.py --export WEIGHTS.pt TALKS.net

LINES are files of JSON lines (also .gz) from export-talks.ts and tests/bench/reader-training.ts. WEIGHTS.pt keeps the weights in full
precision, TALKS.net has them as ../net.ts reads them; --export only writes the latter again.
Settings come as environment variables: TIME is when to end, in seconds from the start of the program; without it EPOCHS says how many passes
over the talks. VECTORS is a file of word vectors, WARM a file of weights (talks.pt.half or talks.net) to go on from, RATE the learning rate, WIDTH and
NODE_BLOCKS the size of the net. SEED begins the random numbers. HOLD_OUT=0 trains on every talk. WORKERS processes get the talks ready
beside each GPU (0: the program itself). Several GPUs: torchrun.
The names of the weights (Reader, Block) are those of the file: ../net.ts looks them up, so they are kept short and must not change.
"""

import gzip
import json
import math
import os
import random
import struct
import sys
import time
from functools import partial
from multiprocessing import Pool

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn
from torch.utils.data import DataLoader

DEVICE = "cuda" if torch.cuda.is_available() else "cpu"
# Several devices are one process each, as torchrun starts them.
RANK, DEVICES = int(os.environ.get("RANK", "0")), int(os.environ.get("WORLD_SIZE", "1"))
STARTED = time.time()
if DEVICES > 1:
    if DEVICE == "cuda":
        torch.cuda.set_device(RANK)
    torch.distributed.init_process_group("nccl" if DEVICE == "cuda" else "gloo")
# What needs no precision and much room.
LOW = torch.bfloat16

# Getting an excerpt ready takes longer than learning from it, so others do that meanwhile.
WORKERS = int(os.environ.get("WORKERS", "0"))
WIDTH = int(os.environ.get("WIDTH", "128"))
HEADS, PAIR_WIDTH, SUFFIXES = WIDTH // 32, 64, 1024
# How many blocks look at all nodes of the talk at once.
NODE_BLOCKS = int(os.environ.get("NODE_BLOCKS", "2"))
# How far from a value the words are that say of which build it is.
BUILD_REACH = 40
# How many tokens each block looks back and ahead.
WINDOWS = [48, 96, 160, 160]
# How many values each row of small numbers has; as ../view.ts fills them.
KINDS_USED, SIZES_USED, ITEMS_USED, RULED_USED, MARKS_USED, GAPS_USED = 29, 35, 35, 9, 5, 3
# A CPU draws random numbers slowly, and of attention there are many.
DROPOUT, ATTENTION_DROPOUT = 0.25, 0.1 if DEVICE == "cuda" else 0.0
LEARNING_RATE = float(os.environ.get("RATE", "2e-3"))
# A step takes as many talks as fit into so many tokens; of a CPU's cache few do. A GPU needs about the same time for 14,000.
TOKENS_IN_STEP = 20000 if DEVICE == "cuda" else 3500

# Roles by their letters in the lines: nothing, count, size, torque, void, name, reference, "the same as". Order as in ../net.ts.
ROLES = ["o", "c", "s", "t", "x", "n", "r", "="]
NOTHING, COUNT, SIZE, TORQUE, VOID, NAME, REFERENCE, SAME = range(8)
# Of a name and of "the same as" there are few, so they would be learnt late if all weighed the same.
ROLE_WEIGHTS = [0.7, 1.2, 1.2, 1.2, 1.0, 1.0, 1.0, 1.5]
TIMES = [1, 2, 3, 4, 6, 8, 0]
IMPLIED = [0, 1, 2, 3, 4, 6, 8, -1]
NODE_KINDS = ["number", "mention", "component", "pronoun", "same", "build"]
FIELDS = "cst"
# What cross entropy is to leave out: a label that nobody knows.
UNKNOWN = -100
# Distances between tokens and between mentions are looked up by bucket, 23 and 15 of them.
DISTANCES, MENTION_STEPS = 23, 7
BETWEEN = 2 * MENTION_STEPS + 1
PAIR_FEATURES = DISTANCES + BETWEEN + 11
# The writer whose talks are kept for fitting the chances.
FOR_CHANCES = "u8"
# Stands in for minus infinity, which would make a row without any pair not a number.
FAR_BELOW = -1e9
# What the grammar read a number as, and 0 for words; as kindNames in ../view.ts.
READ_KINDS = 15
BUILD_WEIGHT = 0.5
# Of the words that have vectors so many are written though no talk has them.
COMMON_WORDS = 10000
# Pairs grow with the square.
MOST_NODES = 700

# Words that say nothing of which fasteners are meant; as `empty` in ../net.ts.
EMPTY = set(
    "the a an of on at in to by and for up down from with it they them those these this that is are 's 're get gets go goes you i we so then now"
    " one ones two three four <n> all each both side there has have got no not just do n't well okay right on".split()
)
# Never put in place of another name: they name a fastener and not which.
HEADS_OF_NAMES = set("bolt bolts nut nuts screw screws stud studs plug plugs clamp clamps fitting fittings clip clips one ones".split())
PADDING, UNKNOWN_WORD = 0, 1


def index_or(options, value, otherwise):
    return options.index(value) if value in options else otherwise


def steps_apart(distance):
    """Signed distances as 0 to 22: 11 is none, then by powers of two."""
    size = np.abs(distance)
    step = np.where(size == 0, 0, np.minimum(1 + np.floor(np.log2(np.maximum(size, 1))), 10)).astype(np.uint8)
    return np.where(distance >= 0, 11 + step, 11 - step)


def suffix_of(word):
    """FNV-1a of the last three letters, so that unknown words are told apart by their endings."""
    code = 0x811C9DC5
    for byte in word[-3:].encode("utf8"):
        code = ((code ^ byte) * 0x01000193) & 0xFFFFFFFF
    return code % SUFFIXES


def incidence(sets):
    """A row for each set, a column for each thing in any of them."""
    columns = {key: index for index, key in enumerate(sorted({key for one in sets for key in one}, key=str))}
    at = [(row, columns[key]) for row, one in enumerate(sets) for key in one]
    return ones_at(at, len(sets), max(1, len(columns)))


def ones_at(at, rows, columns):
    matrix = np.zeros((rows, columns), np.float32)
    if at:
        where = np.array(at)
        matrix[where[:, 0], where[:, 1]] = 1
    return matrix


def share_any(sets):
    """For each pair of sets whether they have something in common."""
    matrix = incidence(sets)
    return matrix @ matrix.T > 0


def pair_features(talk, nodes, rarity):
    """Eleven signs for each pair of nodes: rare words that they share, and whether the rules put both to one group."""
    words, stems = talk["words"], talk["stems"]
    telling = [word not in EMPTY and not word.startswith("<") for word in words]
    column_of = {stem: index for index, stem in enumerate(sorted(set(stems)))}
    weights = np.array([rarity.get(stem, rarity[""]) for stem in column_of], np.float32)

    def matrix(spans):
        at = [
            (row, column_of[stems[token]])
            for row, (first, last) in enumerate(spans)
            for token in range(max(0, first), min(last, len(words)))
            if telling[token]
        ]
        return ones_at(at, len(nodes), len(column_of))

    def overlap(ones, others):
        shared = (ones * weights) @ others.T
        of_ones, of_others = (ones * weights).sum(1)[:, None], (others * weights).sum(1)[None]
        return np.stack([shared / np.maximum(of_ones, 1e-6), shared / np.maximum(of_others, 1e-6), np.minimum(shared / 10, 1)], -1)

    near = matrix([(node["f"] - 12, node["t"] + 6) for node in nodes])
    own = matrix([(node["f"], node["t"]) if node["k"] != "number" else (0, 0) for node in nodes])
    close = matrix([(node["f"] - 4, node["t"] + 2) for node in nodes])
    ruled = [set(node["ro"]) for node in nodes]
    has_group = np.array([bool(one) for one in ruled])
    same_group = share_any(ruled)
    by_rules = np.stack([same_group, has_group[:, None] & has_group[None] & ~same_group], -1)
    return np.concatenate([overlap(near, own), overlap(own, own), overlap(close, close), by_rules], -1)


def sources_of(nodes, groups):
    """For each "the same as" the nodes of the group that it points to."""
    source = np.zeros((len(nodes), len(nodes)), bool)
    for row, node in enumerate(nodes):
        if node["role"] == "=":
            for column, group in enumerate(groups):
                if node["like"] in group:
                    source[row, column] = True
    return source


NUMBERS = {word: at for at, word in enumerate("nought one two three four five six seven eight nine ten eleven twelve".split())}
NUMBERED = set("mark mk series phase type build version generation".split())
# Words beside the one that tells builds apart.
NO_BUILD = set("mark series model the wheel wheelbase build builds cab litre liter ton s".split())
# Other ways to say a build.
SAME_BUILD = ["late later latest newer new", "early earlier earliest older old", "auto automatic", "alloy aluminium aluminum", "electric ev",
    "twin twins dual dually double", "petrol gas gasoline"]
BUILD_WORDS = {word: set(line.split()) for line in SAME_BUILD for word in line.split()}


def build_words(talk, node):
    """Which of the tokens near a value name the one build that it holds for; None where that is not known."""
    if node["role"] not in "cst" or talk.get("silver"):
        return None
    if node["build"] is None:
        return []
    wanted, sizes = set(), set()
    for part in node["build"].lower().replace("-", " ").replace("/", " ").split():
        wanted |= BUILD_WORDS.get(part, {part}) | {part + "s", part + "er", part.rstrip("s")}
        digits = "".join(letter for letter in part if letter.isdigit())
        if part in NUMBERS or (digits and len(digits) < 3):
            sizes.add(NUMBERS[part] if part in NUMBERS else int(digits))
    wanted -= NO_BUILD
    first, last = max(0, node["f"] - BUILD_REACH), min(len(talk["words"]), node["t"] + BUILD_REACH)
    own = range(node["f"], node["t"])
    words = talk["words"]

    def is_numbered(at):
        return words[at] == "<n>" and talk["sizes"][at] in sizes and at > 0 and words[at - 1] in NUMBERED

    return [at for at in range(first, last) if at not in own and (words[at] in wanted or is_numbered(at))] or None


def prepare(talk, rarity):
    """All of a talk that stays the same from pass to pass: what the net sees of it and what it is to answer."""
    nodes = talk["nodes"][:MOST_NODES]
    first, last = np.array([node["f"] for node in nodes]), np.array([node["t"] - 1 for node in nodes])
    kinds = np.array([NODE_KINDS.index(node["k"]) for node in nodes])
    mentions = np.cumsum(kinds == NODE_KINDS.index("mention"))
    groups = [set(node["groups"]) if node["role"] in "cstnr=" else set() for node in nodes]

    def times_of(node):
        return UNKNOWN if node["role"] != "c" or node["times"] == -1 else index_or(TIMES, node["times"], len(TIMES) - 1)

    def part_of(node):
        # The rules do not say which of their counts are parts.
        return -1.0 if node["role"] != "c" or talk.get("silver") else float(node["part"])

    def implied_of(node):
        return UNKNOWN if node["role"] != "n" else index_or(IMPLIED, node["implied"] or 0, len(IMPLIED) - 1)

    spots = [build_words(talk, node) for node in nodes]
    between = MENTION_STEPS + np.clip(mentions[None] - mentions[:, None], -MENTION_STEPS, MENTION_STEPS)
    return dict(
        read_kind=np.array([node["rk"] for node in nodes]),
        read_size=np.array([node["rz"] for node in nodes]),
        first=first,
        last=last,
        node_kind=kinds,
        role=np.array([UNKNOWN if node["role"] == "?" else ROLES.index(node["role"]) for node in nodes]),
        times=np.array([times_of(node) for node in nodes]),
        part=np.array([part_of(node) for node in nodes], np.float32),
        implied=np.array([implied_of(node) for node in nodes]),
        fields=np.array([[field in node["fields"] for field in FIELDS] for node in nodes], np.float32),
        kinds=np.array(talk["kinds"]),
        gaps=np.array(talk["gaps"]),
        items=np.array(talk["items"]),
        # Of pairs there are so many that they are kept small.
        source=sources_of(nodes, groups),
        together=share_any(groups),
        apart=apart_of(first),
        between=between.astype(np.uint8),
        shared=pair_features(talk, nodes, rarity).astype(np.float16),
        # Each value whose build is known: of which node, and the words that name it; no words are of all builds.
        built=[(at, spot) for at, spot in enumerate(spots) if spot is not None],
        # Which tokens are words of a name; of talks without marks it is not known.
        naming=np.array(talk["naming"], np.float32) if "naming" in talk else np.full(len(talk["words"]), -1.0, np.float32),
        length=len(talk["words"]),
        # Which tokens a step sees: all, or those of an excerpt.
        kept=np.arange(len(talk["words"])),
        count=len(nodes),
        words=np.array(talk["words"], dtype=object),
        suffixes=np.array([suffix_of(word) for word in talk["words"]]),
        sizes=np.array(talk["sizes"]),
        marks=np.array(talk["marks"]),
        ruled=np.array(talk["ruled"]),
    )


def apart_of(starts):
    """How far each two nodes are apart, in steps."""
    return steps_apart(starts[None] - starts[:, None])


# What a talk has for each node, and for each two.
OF_NODES = "read_kind read_size node_kind role times part implied fields".split()
OF_PAIRS = "together source between shared".split()


def excerpt(talk):
    """
    A stretch of a talk with some words left out, and the nodes that are whole in it. There are few talks, and whole ones would soon be known
    by heart; what belongs together in a stretch does so whatever is said before.
    """
    kept = np.ones(talk["length"], bool)
    if random.random() < 0.7:
        many = int(talk["length"] * random.uniform(0.35, 1))
        start = random.randint(0, talk["length"] - many)
        kept[:start] = kept[start + many :] = False
    if random.random() < 0.6:
        for at in np.flatnonzero(np.random.rand(talk["length"]) < 0.015):
            kept[at : at + random.randint(1, 4)] = False
    first, last = talk["first"], talk["last"]
    before = np.concatenate([[0], np.cumsum(kept)])
    whole = np.flatnonzero(before[last + 1] - before[first] == last + 1 - first)
    if len(whole) < 2:
        return talk
    node_now = {int(node): at for at, node in enumerate(whole)}
    starts = before[first[whole]]
    return dict(
        talk,
        **{name: talk[name][whole] for name in OF_NODES},
        **{name: talk[name][whole][:, whole] for name in OF_PAIRS},
        first=starts,
        last=before[last[whole]],
        apart=apart_of(starts),
        # A value whose build is named only in what is left out is not learnt from.
        built=[
            (node_now[at], [int(before[token]) for token in spot if kept[token]])
            for at, spot in talk["built"]
            if at in node_now and (not spot or kept[spot].any())
        ],
        count=len(whole),
        kept=np.flatnonzero(kept),
    )


class Attention(nn.Module):
    """Attention with something added to what speaks for each pair, and two layers over each column by itself."""

    def __init__(self, inner):
        super().__init__()
        self.n1 = nn.LayerNorm(WIDTH)
        self.qkv = nn.Linear(WIDTH, 3 * WIDTH)
        self.out = nn.Linear(WIDTH, WIDTH)
        self.n2 = nn.LayerNorm(WIDTH)
        self.up = nn.Linear(WIDTH, inner)
        self.down = nn.Linear(inner, WIDTH)
        self.drop = nn.Dropout(DROPOUT)

    def attend(self, query, key, value, bias):
        """What each row of `query` (rows, length, width) sees of `value`; `bias` speaks for each pair, by head."""

        def by_heads(values):
            return values.unflatten(-1, (HEADS, WIDTH // HEADS)).transpose(1, 2)

        dropout = ATTENTION_DROPOUT if self.training else 0
        seen = F.scaled_dot_product_attention(
            by_heads(query), by_heads(key), by_heads(value), attn_mask=bias.to(query.dtype), dropout_p=dropout
        )
        return seen.transpose(1, 2).flatten(2)

    def after(self, x, seen):
        x = x + self.drop(self.out(seen))
        return x + self.drop(self.down(F.relu(self.up(self.n2(x)))))


class Block(Attention):
    """Each token looks at those within a window; the distance between two adds to their attention."""

    def __init__(self, window):
        super().__init__(3 * WIDTH)
        self.window = window
        self.bias = nn.Parameter(torch.zeros(HEADS, DISTANCES))
        # Stretches as long as the window: each looks at itself and at the two beside it, so that nothing far away is worked out in vain.
        distance = np.arange(-window, 2 * window)[None] - np.arange(window)[:, None]
        self.register_buffer("buckets", torch.eye(DISTANCES)[torch.tensor(steps_apart(distance)).long()], persistent=False)
        self.register_buffer("far", torch.tensor(abs(distance) > window), persistent=False)

    def forward(self, x, keep):
        batch, length, _ = x.shape
        window, stretches = self.window, -(-length // self.window)
        missing = stretches * window - length

        def beside(values):
            """For each stretch the values of the one before, its own, and of the one after."""
            return F.pad(values, (0, 0, window, missing + window)).unfold(1, 3 * window, window).transpose(2, 3)

        bias = (self.buckets @ self.bias.t()).permute(2, 0, 1)[None].masked_fill(self.far, FAR_BELOW)
        there = beside(keep.float()[..., None]).flatten(0, 1)[:, None, None, :, 0]
        bias = bias + (1 - there) * FAR_BELOW
        query, key, value = self.qkv(self.n1(x)).split(WIDTH, -1)
        query = F.pad(query, (0, 0, 0, missing)).view(batch, stretches, window, WIDTH)
        seen = self.attend(query.flatten(0, 1), beside(key).flatten(0, 1), beside(value).flatten(0, 1), bias)
        return self.after(x, seen.reshape(batch, -1, WIDTH)[:, :length])


class NodeBlock(Attention):
    """Each node looks at every other; what is known of the two adds to their attention."""

    def __init__(self):
        super().__init__(2 * WIDTH)
        self.feat = nn.Linear(PAIR_FEATURES, HEADS, bias=False)

    def forward(self, x, nodes, features):
        bias = self.feat(features).permute(0, 3, 1, 2).masked_fill(~nodes["there"][:, None, None, :], FAR_BELOW)
        return self.after(x, self.attend(*self.qkv(self.n1(x)).split(WIDTH, -1), bias))


class Reader(nn.Module):
    """Tokens to vectors (encode), nodes out of their first and last token (nodes), and what holds between two nodes (pairs)."""

    def __init__(self, vocabulary_size, vectors=None):
        super().__init__()
        self.word = nn.Embedding(vocabulary_size, WIDTH)
        # What the words mean elsewhere; not trained, only how it is taken over.
        self.vectors = None if vectors is None else nn.Parameter(vectors, requires_grad=False)
        self.meaning = None if vectors is None else nn.Linear(vectors.shape[1], WIDTH, bias=False)
        self.suf = nn.Embedding(SUFFIXES, WIDTH)
        self.kind = nn.Embedding(KINDS_USED, WIDTH)
        self.size = nn.Embedding(SIZES_USED, WIDTH)
        self.mark = nn.Embedding(MARKS_USED, WIDTH)
        self.gap = nn.Embedding(GAPS_USED, WIDTH)
        self.item = nn.Embedding(ITEMS_USED, WIDTH)
        self.ruled = nn.Embedding(RULED_USED, WIDTH)
        for table in (self.word, self.suf, self.kind, self.size, self.mark, self.gap, self.item, self.ruled):
            nn.init.normal_(table.weight, 0, 0.3)
        self.blocks = nn.ModuleList([Block(window) for window in WINDOWS])
        self.norm = nn.LayerNorm(WIDTH)
        self.drop = nn.Dropout(DROPOUT)
        self.node = nn.Linear(2 * WIDTH, WIDTH)
        self.nk = nn.Embedding(len(NODE_KINDS), WIDTH)
        self.rk = nn.Embedding(READ_KINDS, WIDTH)
        self.rz = nn.Embedding(SIZES_USED, WIDTH)
        self.nodeblocks = nn.ModuleList([NodeBlock() for _ in range(NODE_BLOCKS)])
        # Which words say of which build a value is.
        self.wq = nn.Linear(WIDTH, PAIR_WIDTH)
        self.wk = nn.Linear(WIDTH, PAIR_WIDTH)
        self.wd = nn.Embedding(DISTANCES, 1)
        self.none = nn.Linear(WIDTH, 1)
        nn.init.zeros_(self.wd.weight)
        # Whether a token is a word of a name.
        self.naming = nn.Linear(WIDTH, 1)
        self.role = nn.Linear(WIDTH, len(ROLES))
        self.times = nn.Linear(WIDTH, len(TIMES))
        self.part = nn.Linear(WIDTH, 1)
        self.implied = nn.Linear(WIDTH, len(IMPLIED))
        self.fields = nn.Linear(WIDTH, len(FIELDS))
        # A pair: each of the two (lq, lk), how far apart, how many mentions between, the shared words; then a product of the two (bq, bk).
        self.lq = nn.Linear(WIDTH, PAIR_WIDTH)
        self.lk = nn.Linear(WIDTH, PAIR_WIDTH, bias=False)
        self.bq = nn.Linear(WIDTH, PAIR_WIDTH)
        self.bk = nn.Linear(WIDTH, PAIR_WIDTH)
        self.feat = nn.Linear(PAIR_FEATURES, PAIR_WIDTH, bias=False)
        self.score = nn.Linear(PAIR_WIDTH, 2)
        self.sq = nn.Linear(WIDTH, PAIR_WIDTH)
        self.sk = nn.Linear(WIDTH, PAIR_WIDTH)
        # Guesses words that were hidden: only a second thing to learn from, not in the exported file.
        self.mlm = nn.Linear(WIDTH, vocabulary_size)

    def encode(self, tokens):
        x = self.word(tokens["word"])
        if self.vectors is not None:
            x = x + self.meaning(F.embedding(tokens["meant"], self.vectors))
        x = x + self.suf(tokens["suffix"]) + self.kind(tokens["kinds"]) + self.size(tokens["sizes"])
        x = self.drop(x + self.mark(tokens["marks"]) + self.gap(tokens["gaps"]) + self.item(tokens["items"]) + self.ruled(tokens["ruled"]))
        for block in self.blocks:
            x = block(x, tokens["keep"])
        return self.norm(x)

    def nodes(self, x, nodes, features):
        talk = torch.arange(x.shape[0], device=x.device)[:, None]
        ends = torch.cat([x[talk, nodes["first"]], x[talk, nodes["last"]]], -1)
        x = F.relu(self.node(ends) + self.nk(nodes["node_kind"]) + self.rk(nodes["read_kind"]) + self.rz(nodes["read_size"]))
        for block in self.nodeblocks:
            x = block(x, nodes, features)
        return x

    def builds(self, seen, x, values):
        """For each value how much speaks for each word near it naming the one build that it holds for, and last how much for none."""
        talk, node, first = values["talk"], values["node"], values["first"]
        at = first[:, None] + torch.arange(-BUILD_REACH, BUILD_REACH + 1, device=x.device)[None]
        inside = (at >= 0) & (at < values["length"][:, None])
        words = self.wk(x[talk[:, None], at.clamp(0, x.shape[1] - 1)])
        score = (self.wq(seen[talk, node])[:, None] * words).sum(-1) / 8 + self.wd(values["distance"])[..., 0][None]
        none = self.none(seen[talk, node])
        return torch.cat([score.masked_fill(~inside, FAR_BELOW), none], -1)

    def pairs(self, x, nodes, features):
        """How much speaks for two nodes being of the same fasteners (either way round the same), and for one being said to be as the other."""
        both = self.lq(x)[:, :, None] + self.lk(x)[:, None] + self.feat(features)
        score = self.score(F.relu(both))
        link = score[..., 0] + self.bq(x) @ self.bk(x).transpose(1, 2) / 8
        source = score[..., 1] + self.sq(x) @ self.sk(x).transpose(1, 2) / 8
        return (link + link.transpose(1, 2)) / 2, source


def up_to_eights(length):
    """Attention is quick where lengths are multiples of eight."""
    return -(-length // 8) * 8


def batch_of_nodes(talks):
    """The nodes of several talks, filled up to the same number."""
    most = up_to_eights(max(talk["count"] for talk in talks))

    def filled(name, many, fill=0):
        """An array for all talks of what each has for a node (many=1) or for two (many=2)."""
        one = talks[0][name]
        rows = np.full((len(talks), *[most] * many, *one.shape[many:]), fill, one.dtype)
        for row, talk in zip(rows, talks):
            row[(slice(talk["count"]),) * many] = talk[name]
        return rows

    fills = dict(first=0, last=0, node_kind=0, read_kind=0, read_size=0, fields=0, role=UNKNOWN, times=UNKNOWN, part=-1, implied=UNKNOWN)
    return {name: filled(name, 1, fill) for name, fill in fills.items()} | {
        **{name: filled(name, 2) for name in ("apart", "between", "shared", "together", "source")},
        "there": np.arange(most)[None] < np.array([talk["count"] for talk in talks])[:, None],
    }


WORD_STEPS = steps_apart(np.arange(-BUILD_REACH, BUILD_REACH + 1)).astype(int)


def values_of(talks):
    """The values of several talks whose build is known, in one row."""
    values = [(at, node, talk["first"][node], words) for at, talk in enumerate(talks) for node, words in talk["built"]]
    wanted = np.zeros((len(values), 2 * BUILD_REACH + 1), np.float32)
    for row, (_, _, first, words) in enumerate(values):
        for word in words:
            if abs(word - first) <= BUILD_REACH:
                wanted[row, word - first + BUILD_REACH] = 1
    talk, node, first = (np.array([value[at] for value in values], int) for at in range(3))
    length = np.array([len(talk["kept"]) for talk in talks])[talk]
    return dict(talk=talk, node=node, first=first, length=length, wanted=wanted, distance=WORD_STEPS)


class Disturbance:
    """Makes a talk a little different in every pass, so that the net learns how things are said and not these talks by heart."""

    def __init__(self, vocabulary, names, meanings):
        self.vocabulary = vocabulary
        self.names = names
        self.meanings = meanings

    def __call__(self, talk):
        """The rows of the talk that changed; `guess` has the words that are hidden (UNKNOWN for those that are not)."""
        length = talk["length"]
        meant = talk["meant"].copy()
        ids, suffixes, sizes, ruled, marks = talk["ids"].copy(), talk["suffixes"].copy(), talk["sizes"].copy(), talk["ruled"].copy(), talk["marks"]
        if random.random() < 0.7:
            # Names of parts are many; no talk has them all, so others stand in.
            for at in talk["where"].values():
                if random.random() < 0.25:
                    name = random.choice(self.names)
                    ids[at] = self.vocabulary.get(name, UNKNOWN_WORD)
                    meant[at] = self.meanings.get(name, 0)
                    suffixes[at] = suffix_of(name)
        hidden = np.random.rand(length) < np.where(talk["rare"], 0.12, 0.03)
        guess = np.where(hidden & (ids > UNKNOWN_WORD), ids, UNKNOWN)
        ids[hidden] = UNKNOWN_WORD
        suffixes[hidden & (np.random.rand(length) < 0.7)] = 0
        meant[hidden] = 0
        # A word that is only known by what it means elsewhere.
        ids[(meant > 0) & (np.random.rand(length) < np.where(talk["rare"], 0.15, 0.02))] = UNKNOWN_WORD
        # Larger numbers a little larger or smaller: their size is a hint, not the answer.
        moved = (sizes > 8) & (np.random.rand(length) < 0.25)
        sizes[moved] = np.clip(sizes[moved] + np.random.randint(-4, 5, moved.sum()), 5, 33)
        if random.random() < 0.15:
            marks = np.where(np.random.rand(length) < 0.6, marks, 0)
        # Sometimes nothing of what the rules told, so that the net does not lean on them.
        ruled[np.random.rand(length) < (1.0 if random.random() < 0.1 else 0.1)] = 0
        return dict(word=ids, meant=meant, suffix=suffixes, sizes=sizes, marks=marks, ruled=ruled, guess=guess)


def batch_of_tokens(talks, disturb):
    """The tokens of several talks, filled up to the same length; as they are where `disturb` is None."""
    shape = len(talks), up_to_eights(max(len(talk["kept"]) for talk in talks))
    rows = {name: np.zeros(shape, int) for name in ("word", "meant", "suffix", "sizes", "marks", "ruled", "kinds", "gaps", "items")}
    rows |= dict(guess=np.full(shape, UNKNOWN), keep=np.zeros(shape, bool), naming=np.full(shape, -1.0, np.float32))
    for at, talk in enumerate(talks):
        kept, length = talk["kept"], len(talk["kept"])
        if disturb is None:
            own = dict(word=talk["ids"], meant=talk["meant"], suffix=talk["suffixes"], sizes=talk["sizes"], marks=talk["marks"], ruled=talk["ruled"])
        else:
            own = disturb(talk)
        for name, values in (own | {name: talk[name] for name in ("kinds", "gaps", "items", "naming")}).items():
            rows[name][at, :length] = values[kept]
        rows["keep"][at, :length] = True
    return rows


def batch_of(talks, disturb=None):
    """What a step sees of several talks: tokens, nodes and values of known build. With `disturb` an excerpt of each, made a little different."""
    if disturb is not None:
        talks = [excerpt(talk) for talk in talks]
    batch = dict(tokens=batch_of_tokens(talks, disturb), nodes=batch_of_nodes(talks), values=values_of(talks))
    return {part: {name: torch.from_numpy(values) for name, values in rows.items()} for part, rows in batch.items()}


ONES_APART, ONES_BETWEEN = torch.eye(DISTANCES, dtype=LOW, device=DEVICE), torch.eye(BETWEEN, dtype=LOW, device=DEVICE)


def on_device(batch):
    """Tokens, nodes and values of a batch where the net is, with what is known of each two nodes put together."""
    tokens, nodes, values = ({name: rows.to(DEVICE, non_blocking=True) for name, rows in batch[part].items()} for part in ("tokens", "nodes", "values"))
    # Ones and noughts are multiplied much faster than rows of a table are added up.
    nodes["features"] = torch.cat([ONES_APART[nodes["apart"].int()], ONES_BETWEEN[nodes["between"].int()], nodes["shared"].to(LOW)], -1)
    for name in ("together", "source"):
        nodes[name] = nodes[name].float()
    return tokens, nodes, values


def loss_of(model, batch):
    """What is wrong with the answers on these talks, all tasks weighted and added."""
    tokens, nodes, values = on_device(batch)
    x = model.encode(tokens)
    hidden = tokens["guess"] >= 0
    loss = 0.15 * F.cross_entropy(model.mlm(x[hidden]), tokens["guess"][hidden])
    is_known = tokens["naming"] >= 0
    if is_known.any():
        # Few tokens are, so those that are weigh more.
        told = tokens["naming"][is_known]
        wrong = F.binary_cross_entropy_with_logits(model.naming(x)[..., 0][is_known].float(), told, reduction="none")
        loss = loss + (wrong * torch.where(told > 0, 2.0, 1.0)).mean()
    features = nodes["features"]
    # The last two features come from the rules; now and then a talk goes without.
    kept = torch.rand(len(features), 1, 1, 1, device=DEVICE) > 0.15
    features = torch.cat([features[..., :-2], features[..., -2:] * kept.to(features.dtype)], -1)
    words = x
    x = model.drop(model.nodes(words, nodes, features))
    role = nodes["role"]

    def classes(head, wanted, weight=None):
        return F.cross_entropy(head(x).flatten(0, 1), wanted.flatten(), weight=weight, ignore_index=UNKNOWN)

    loss = loss + classes(model.role, role, torch.tensor(ROLE_WEIGHTS, device=DEVICE))
    loss = loss + 0.4 * classes(model.times, nodes["times"])
    has_part = nodes["part"] >= 0
    if has_part.any():
        loss = loss + 0.4 * F.binary_cross_entropy_with_logits(model.part(x)[..., 0][has_part], nodes["part"][has_part])
    if (nodes["implied"] >= 0).any():
        loss = loss + 0.3 * classes(model.implied, nodes["implied"])

    if len(values["node"]):
        score = model.builds(x, words, values).float()
        none = 1 - values["wanted"].amax(1, keepdim=True)
        wanted = torch.cat([values["wanted"], none], -1)
        wrong = torch.logsumexp(score, 1) - torch.logsumexp(score + torch.log(wanted + 1e-9), 1)
        # Most values are of all builds.
        loss = loss + BUILD_WEIGHT * (wrong * torch.where(none[:, 0] > 0, 1.0, 3.0)).mean()

    link, source = model.pairs(x, nodes, features)
    loss = loss + link_loss(link, nodes)

    is_same = role == SAME
    if is_same.any():
        # "The same as" is rare: only its rows of the pairs count, and only columns of what belongs to fasteners.
        wrong = F.binary_cross_entropy_with_logits(source, nodes["source"], reduction="none")
        loss = loss + 0.06 * (wrong * (is_same[:, :, None] & of_fasteners(role)[:, None, :]))[is_same].sum() / is_same.sum()
        loss = loss + 0.3 * F.binary_cross_entropy_with_logits(model.fields(x)[is_same], nodes["fields"][is_same])
    return loss


def of_fasteners(role):
    """Which nodes belong to fasteners at all; for the others no pair is learnt."""
    return (role > NOTHING) & (role != VOID)


def link_loss(link, nodes):
    """Each pair by itself, and for each node that any of its own is more likely than all the others together."""
    active = of_fasteners(nodes["role"])
    others = 1 - torch.eye(link.shape[1], device=DEVICE)
    counted = (active[:, :, None] & active[:, None, :]).float() * others
    wanted = nodes["together"] * counted
    wrong = F.binary_cross_entropy_with_logits(link, nodes["together"], reduction="none")
    loss = 0.5 * (wrong * counted).sum() / active.sum().clamp(min=1)
    score = link.masked_fill(counted == 0, FAR_BELOW)
    has_other = wanted.sum(2) > 0
    if has_other.any():
        loss = loss + (torch.logsumexp(score, 2) - torch.logsumexp(score + torch.log(wanted + 1e-9), 2))[has_other].mean()
    return loss


@torch.no_grad()
def measure(model, talks):
    """Precision/recall of each role and of pairs of values, and how often a count's times are right, on talks that were not learnt from."""
    seen = np.zeros((len(ROLES), len(ROLES)), int)
    pairs = dict(right=0, given=0, wanted=0)
    built = dict(right=0, given=0, wanted=0)
    times_right = times_all = 0
    naming = dict(right=0, given=0, wanted=0)
    for talk in talks:
        tokens, nodes, values = on_device(batch_of([talk]))
        nodes["features"] = nodes["features"].float()
        many = talk["count"]
        words = model.encode(tokens)
        named, is_named = model.naming(words)[..., 0] > 0, tokens["naming"] > 0
        naming["right"] += int((named & is_named).sum())
        naming["given"] += int((named & (tokens["naming"] >= 0)).sum())
        naming["wanted"] += int(is_named.sum())
        x = model.nodes(words, nodes, nodes["features"])
        if len(values["node"]):
            found = model.builds(x, words, values).argmax(1)
            has = values["wanted"].amax(1) > 0
            is_right = torch.gather(F.pad(values["wanted"], (0, 1)), 1, found[:, None])[:, 0] > 0
            built["wanted"] += int(has.sum())
            built["given"] += int((found < 2 * BUILD_REACH + 1).sum())
            built["right"] += int(is_right.sum())
        role = nodes["role"][0, :many]
        wanted, given = role.cpu().numpy(), model.role(x)[0, :many].argmax(-1).cpu().numpy()
        known = wanted != UNKNOWN
        np.add.at(seen, (wanted[known], given[known]), 1)
        value = torch.isin(role, torch.tensor([COUNT, SIZE, TORQUE], device=DEVICE))
        upper = torch.triu(value[:, None] & value[None], diagonal=1)
        linked = (model.pairs(x, nodes, nodes["features"])[0][0, :many, :many] > 0) & upper
        together = (nodes["together"][0, :many, :many] > 0) & upper
        pairs["right"] += int((linked & together).sum())
        pairs["given"] += int(linked.sum())
        pairs["wanted"] += int(together.sum())
        is_count = role == COUNT
        times_all += int(is_count.sum())
        times_right += int((model.times(x)[0, :many].argmax(-1) == nodes["times"][0, :many])[is_count].sum())
    roles = " ".join(
        f"{name} {seen[at, at] / max(1, seen[:, at].sum()):.3f}/{seen[at, at] / max(1, seen[at].sum()):.3f}"
        for at, name in enumerate(ROLES)
        if at != NOTHING
    )

    def rates(seen):
        return f"{seen['right'] / max(1, seen['given']):.3f}/{seen['right'] / max(1, seen['wanted']):.3f}"

    return (
        f"{roles} | builds {rates(built)} | pairs of values {rates(pairs)} | words of names {rates(naming)}"
        f" | times {times_right / max(1, times_all):.3f}"
    )


def is_held_out(talk):
    """One talk of twelve, by its name, so that both forms of it are held out together; as isHeldOut in marked.ts."""
    code = 0
    for letter in talk["dir"] + talk["id"]:
        code = (code * 31 + ord(letter)) & 0xFFFFFF
    return code % 12 == 0


def count_words(talks):
    counts, talks_with = {}, {}
    for talk in talks:
        for word in talk["words"]:
            counts[word] = counts.get(word, 0) + 1
        for stem in set(talk["stems"]):
            talks_with[stem] = talks_with.get(stem, 0) + 1
    return counts, talks_with


def words_of_names(talks, counts):
    """Words that mostly stand in names of fasteners and may stand for each other."""
    in_names = {}
    for talk in talks:
        for node in talk["nodes"]:
            if node["role"] == "n":
                for word in talk["words"][node["f"] : node["t"]]:
                    in_names[word] = in_names.get(word, 0) + 1
    return [
        word
        for word, count in in_names.items()
        if word not in HEADS_OF_NAMES and word not in EMPTY and not word.startswith("<") and count >= 0.25 * counts[word]
    ]


class Passes:
    """Pass after pass without end: the talks of each step by their numbers, of about the same length so that little is filled up."""

    def __init__(self, talks):
        self.lengths = [talk["length"] for talk in talks]

    def __iter__(self):
        while True:
            steps, step = [], []
            for at in sorted(range(len(self.lengths)), key=lambda at: self.lengths[at] * (1 + 0.15 * random.random())):
                if step and (len(step) + 1) * self.lengths[at] > TOKENS_IN_STEP:
                    steps.append(step)
                    step = []
                step.append(at)
            steps.append(step)
            random.shuffle(steps)
            yield from steps


def read_lines(paths):
    for path in paths:
        with gzip.open(path, "rt") if path.endswith(".gz") else open(path) as lines:
            yield from (json.loads(line) for line in lines if line.strip())


def vectors_of(path):
    """What words mean elsewhere, from lines of a word and its numbers: an index for each word, and the rows; index 0 is unknown."""
    if not path:
        return {}, None
    meanings, rows = {}, [None]
    with gzip.open(path, "rt") if path.endswith(".gz") else open(path) as lines:
        for line in lines:
            word, *values = line.split()
            meanings[word] = len(rows)
            rows.append([float(value) for value in values])
    rows[0] = [0.0] * len(rows[1])
    return meanings, torch.tensor(rows)


def weights_before(path, meanings, vectors):
    """
    The weights to go on from and their vocabulary; None without a path. A file for ../net.ts has eight bits of each weight, and words and what
    they mean elsewhere added up: its common words, which were not learnt, tell what their meaning adds.
    """
    if not path:
        return None
    if not path.endswith(".net"):
        return torch.load(path, weights_only=False, map_location="cpu")
    with open(path, "rb") as file:
        content = file.read()
    begin = 8 + struct.unpack_from("<I", content, 4)[0]
    header = json.loads(content[8:begin])
    state = {}
    for array in header["arrays"]:
        name, shape, at = array["name"], array["shape"], begin + array["at"]
        values = np.frombuffer(content, "<f4", shape[0], at)
        if len(shape) > 1:
            rows = np.frombuffer(content, np.int8, shape[0] * shape[1], at + 4 * shape[0]).reshape(shape)
            values = rows * values[:, None]
        state[name.removesuffix(".weight") if name.endswith(".bias.weight") else name] = torch.tensor(values, dtype=torch.float32)
    words = header["vocabulary"]
    learnt = len(words)
    if meanings:
        # Common words come last, in the order of the vectors.
        places = [meanings.get(word, 0) for word in words] + [len(meanings) + 1]
        while 0 < places[learnt - 1] < places[learnt]:
            learnt -= 1
        rows, meant = state["word.weight"], vectors[torch.tensor(places[:-1])]
        state["meaning.weight"] = torch.linalg.lstsq(meant[learnt:], rows[learnt:] - rows[UNKNOWN_WORD]).solution.t()
        state["word.weight"] = (rows - meant @ state["meaning.weight"].t())[:learnt]
    return dict(state=state, vocab={word: at for at, word in enumerate(words[:learnt])})


def train(paths, weights_path):
    seed = int(os.environ.get("SEED", "1"))
    # The same weights to begin with on all devices; what they see then differs.
    torch.manual_seed(seed)
    random.seed(seed + RANK)
    np.random.seed(seed + RANK)
    limit, passes = float(os.environ.get("TIME", "0")), int(os.environ.get("EPOCHS", "60"))

    talks = [talk for talk in read_lines(paths) if talk["dir"] != FOR_CHANCES]
    holds_out = os.environ.get("HOLD_OUT", "1") != "0"
    learnt = [talk for talk in talks if not (holds_out and is_held_out(talk))]
    held_out = [talk for talk in talks if holds_out and is_held_out(talk)]
    counts, talks_with = count_words(learnt)
    rarity = {stem: math.log(1 + len(learnt) / (1 + count)) for stem, count in talks_with.items()}
    rarity[""] = math.log(1 + len(learnt))
    meanings, vectors = vectors_of(os.environ.get("VECTORS"))
    before = weights_before(os.environ.get("WARM"), meanings, vectors)
    vocabulary = before["vocab"] if before else {"<pad>": PADDING, "<unk>": UNKNOWN_WORD}
    for word, count in sorted(counts.items(), key=lambda entry: (-entry[1], entry[0])):
        # What was said only a few times cannot be learnt as a word.
        if count >= 4:
            vocabulary.setdefault(word, len(vocabulary))
    names = words_of_names(learnt, counts)
    with Pool(max(1, WORKERS)) as pool:
        learnt, held_out = (pool.map(partial(prepare, rarity=rarity), some, chunksize=8) for some in (learnt, held_out))
    for talk in learnt + held_out:
        words = talk["words"]
        talk["ids"] = np.array([vocabulary.get(word, UNKNOWN_WORD) for word in words])
        talk["meant"] = np.array([meanings.get(word, 0) for word in words])
        talk["rare"] = np.array([counts.get(word, 0) < 30 for word in words])
        talk["where"] = {word: np.where(words == word)[0] for word in sorted(set(words) & set(names))}

    model = Reader(len(vocabulary), vectors).to(DEVICE)
    print(f"{len(learnt)} talks, {len(held_out)} held out, {len(vocabulary)} words, {sum(p.numel() for p in model.parameters())} weights", flush=True)
    if before:
        for at, block in enumerate(model.nodeblocks):
            if f"nodeblocks.{at}.up.weight" not in before["state"]:
                # A block that is new begins by adding nothing.
                for one in (block.out, block.down):
                    nn.init.zeros_(one.weight)
                    nn.init.zeros_(one.bias)
        own = model.state_dict()
        for name, values in before["state"].items():
            # Words that are new come last and begin as they are.
            own[name][: len(values)].copy_(values.float())
    fit(model, learnt, Disturbance(vocabulary, names, meanings), limit, passes, weights_path)
    if RANK > 0:
        return
    if held_out:
        model.eval()
        print(measure(model, held_out))
    state = {name: values.cpu() for name, values in model.state_dict().items()}
    torch.save(dict(state=state, meanings=meanings, vocab=vocabulary, idf=rarity, D=WIDTH, L=len(WINDOWS), win=WINDOWS), weights_path)


def fit(model, talks, disturb, limit, passes, weights_path):
    """
    AdamW with a short rise and a cosine fall of the rate; what is kept is a running mean of the weights. With several devices each takes
    steps of its own, and their gradients are averaged.
    """
    optimizer = torch.optim.AdamW([one for one in model.parameters() if one.requires_grad], lr=LEARNING_RATE, weight_decay=0.05, betas=(0.9, 0.98))
    each_pass = math.ceil(sum(talk["length"] for talk in talks) / (TOKENS_IN_STEP * 0.9) / DEVICES)
    done, began, progress, told = 0, time.time(), 0.0, 0
    mean = [values.clone() for values in model.state_dict().values()]
    model.train()
    losses = []
    loader = DataLoader(
        talks,
        batch_sampler=Passes(talks),
        collate_fn=partial(batch_of, disturb=disturb),
        num_workers=WORKERS,
        worker_init_fn=begin_random if WORKERS else None,
        pin_memory=DEVICE == "cuda",
        prefetch_factor=4 if WORKERS else None,
    )
    for batch in loader:
        if progress >= 1:
            break
        with torch.autocast(DEVICE, dtype=torch.bfloat16):
            loss = loss_of(model, batch)
        optimizer.zero_grad()
        loss.backward()
        # By the clock, where there is a limit: a slower machine then learns less and not longer.
        now = time.time()
        progress = min(1.0, (now - began) / max(1.0, STARTED + limit - began) if limit else (done + 1) / (passes * each_pass))
        if DEVICES > 1:
            progress = average_of(model, progress)
        nn.utils.clip_grad_norm_(model.parameters(), 1.0)
        optimizer.step()
        losses.append(loss.detach())
        done += 1
        torch._foreach_lerp_(mean, list(model.state_dict().values()), 1 - min(0.998, done / (done + 50)))
        rate = min(1.0, progress / 0.08) * max(0.01, 0.5 + 0.5 * math.cos(math.pi * max(0.0, (progress - 0.08) / 0.92)))
        for group in optimizer.param_groups:
            group["lr"] = LEARNING_RATE * rate
        if RANK == 0 and (now - told > 30 or progress >= 1):
            told = now
            print(f"pass {done / each_pass:.1f}, {now - STARTED:.0f} s, loss {float(torch.stack(losses).mean()):.3f}", flush=True)
            losses = []
            state = {name: values.half().cpu() for name, values in zip(model.state_dict(), mean) if name != "vectors"}
            torch.save(dict(state=state, vocab=disturb.vocabulary), f"{weights_path}.half")
    for values, kept in zip(model.state_dict().values(), mean):
        values.copy_(kept)


def begin_random(_):
    """Random numbers of its own for a process that gets talks ready."""
    seed = torch.initial_seed() % 2**32
    random.seed(seed)
    np.random.seed(seed)


def average_of(model, progress):
    """Averages the gradients of all devices; gives the progress of the first, so that all end at the same step."""
    own = [one for one in model.parameters() if one.requires_grad]
    gradients = [(torch.zeros_like(one) if one.grad is None else one.grad).flatten() for one in own]
    flat = torch.cat([*gradients, torch.tensor([progress if RANK == 0 else 0.0], device=DEVICE)])
    torch.distributed.all_reduce(flat)
    at = 0
    for one in own:
        one.grad = (flat[at : at + one.numel()] / DEVICES).view_as(one)
        at += one.numel()
    return float(flat[-1])


def export(weights_path, net_path):
    """Writes the file for ../net.ts: "RDR1", the length of a JSON header, the header, row scales (float32) with 8-bit weights, biases (float32)."""
    saved = torch.load(weights_path, weights_only=False, map_location="cpu")
    arrays, blob = [], bytearray()

    def put(name, values):
        values = values.float().numpy()
        arrays.append(dict(name=name, shape=list(values.shape), at=len(blob)))
        if values.ndim == 1:
            blob.extend(values.astype("<f4").tobytes())
            return
        scales = np.maximum(np.abs(values).max(1), 1e-8) / 127
        blob.extend(scales.astype("<f4").tobytes())
        blob.extend(np.clip(np.round(values / scales[:, None]), -127, 127).astype(np.int8).tobytes())
        # Floats are read in place, so they begin at multiples of four.
        blob.extend(bytes(-len(blob) % 4))

    words = [word for word, _ in sorted(saved["vocab"].items(), key=lambda entry: entry[1])]
    state = saved["state"]
    if saved["meanings"]:
        # A row for each word that was learnt or is common: its own, or that of an unknown one, and what it means elsewhere.
        common = [word for word, at in saved["meanings"].items() if at <= COMMON_WORDS and word not in saved["vocab"]]
        words += common
        rows = torch.tensor([saved["vocab"].get(word, UNKNOWN_WORD) for word in words])
        meant = torch.tensor([saved["meanings"].get(word, 0) for word in words])
        state["word.weight"] = state["word.weight"][rows] + state["vectors"][meant] @ state["meaning.weight"].t()
    for name, values in state.items():
        if name.startswith("mlm") or name in ("vectors", "meaning.weight"):
            continue
        # The bias of a block by distance is a table, so it is called as the other tables are.
        put(f"{name}.weight" if name.endswith(".bias") and values.ndim == 2 else name, values)
    header = dict(
        width=saved["D"],
        heads=saved["D"] // 32,
        windows=saved["win"],
        pairWidth=PAIR_WIDTH,
        suffixes=SUFFIXES,
        nodeBlocks=sum(name.endswith("up.weight") and name.startswith("nodeblocks") for name in saved["state"]),
        vocabulary=words,
        rarity={stem: round(value, 2) for stem, value in saved["idf"].items()},
        arrays=arrays,
    )
    text = json.dumps(header, separators=(",", ":")).encode("ascii")
    text += b" " * (-(8 + len(text)) % 4)
    with open(net_path, "wb") as out:
        out.write(b"RDR1" + struct.pack("<I", len(text)) + text + bytes(blob))


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    if sys.argv[1] != "--export":
        train(sys.argv[1].split(","), sys.argv[2])
    if RANK == 0:
        export(sys.argv[2], sys.argv[3])

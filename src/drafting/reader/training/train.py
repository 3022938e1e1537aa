"""Trains the reader of talks: which numbers are counts, sizes and torques, which words name fasteners, and what belongs together.

Usage: train.py LINES[,LINES] WEIGHTS.pt TALKS.net
       train.py --export WEIGHTS.pt TALKS.net

LINES are files of JSON lines (also .gz) from export-talks.ts and tests/bench/reader-training.ts. WEIGHTS.pt keeps the weights in full
precision, TALKS.net has them as ../net.ts reads them; --export only writes the latter again.
Settings come as environment variables: TIME is how many seconds to train; without it EPOCHS says how many passes over the talks.
SEED begins the random numbers. HOLD_OUT=0 trains on every talk.
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

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

DEVICE = "cuda" if torch.cuda.is_available() else "cpu"

WIDTH, HEADS, PAIR_WIDTH, SUFFIXES = 128, 4, 64, 1024
# How many tokens each block looks back and ahead.
WINDOWS = [48, 96, 160, 160]
# How many values each row of small numbers has; as kindsUsed, sizesUsed, itemsUsed, ruledUsed, marksUsed, gapsUsed in ../view.ts.
KINDS_USED, SIZES_USED, ITEMS_USED, RULED_USED, MARKS_USED, GAPS_USED = 29, 35, 35, 9, 5, 3
DROPOUT, ATTENTION_DROPOUT = 0.2, 0.1
LEARNING_RATE = 2e-3
# A step takes as many talks as fit into so many tokens.
TOKENS_IN_STEP = 9000

# Roles by their letters in the lines: nothing, count, size, torque, void, name, reference, "the same as". Order as in ../net.ts.
ROLES = ["o", "c", "s", "t", "x", "n", "r", "="]
NOTHING, COUNT, SIZE, TORQUE, VOID, NAME, REFERENCE, SAME = range(8)
# Of a name and of "the same as" there are few, so they would be learnt late if all weighed the same.
ROLE_WEIGHTS = [0.7, 1.2, 1.2, 1.2, 1.0, 1.0, 1.0, 1.5]
TIMES = [1, 2, 3, 4, 6, 8, 0]
IMPLIED = [0, 1, 2, 3, 4, 6, 8, -1]
NODE_KINDS = ["number", "mention", "component", "pronoun", "same"]
FIELDS = "cst"
# What cross entropy is to leave out: a label that nobody knows.
UNKNOWN = -100
# Distances between tokens and between mentions are looked up by bucket, 23 and 15 of them.
DISTANCES, MENTION_STEPS = 23, 7
# Stands in for minus infinity, which would make a row without any pair not a number.
FAR_BELOW = -1e9
# Pairs grow with the square; as mostNodes in ../net.ts.
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


def distance_buckets(distance):
    """Signed distances as 0 to 22: 11 is none, then by powers of two."""
    size = np.abs(distance)
    step = np.where(size == 0, 0, np.minimum(10, 1 + np.floor(np.log2(np.maximum(size, 1))).astype(int)))
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
    matrix = np.zeros((len(sets), max(1, len(columns))), np.float32)
    for row, one in enumerate(sets):
        for key in one:
            matrix[row, columns[key]] = 1
    return matrix


def share_any(matrix):
    """For each pair of rows whether they have something in common."""
    return matrix @ matrix.T > 0


def pair_features(talk, nodes, rarity):
    """Eleven signs for each pair of nodes: rare words that they share, and whether the rules put both to one group."""
    words, stems = talk["words"], talk["stems"]
    columns = sorted(set(stems))
    column_of = {stem: index for index, stem in enumerate(columns)}
    weights = np.array([rarity.get(stem, rarity[""]) for stem in columns], np.float32)

    def telling(first, last):
        first = max(0, first)
        return {stem for stem, word in zip(stems[first:last], words[first:last]) if word not in EMPTY and not word.startswith("<")}

    def matrix(sets):
        rows = np.zeros((len(nodes), len(columns)), np.float32)
        for row, one in enumerate(sets):
            for stem in one:
                rows[row, column_of[stem]] = 1
        return rows

    def overlap(ones, others):
        shared = (ones * weights) @ others.T
        of_ones, of_others = (ones * weights).sum(1)[:, None], (others * weights).sum(1)[None]
        return np.stack([shared / np.maximum(of_ones, 1e-6), shared / np.maximum(of_others, 1e-6), np.minimum(1, shared / 10)], -1)

    near = matrix([telling(node["f"] - 12, node["t"] + 6) for node in nodes])
    own = matrix([telling(node["f"], node["t"]) if node["k"] != "number" else set() for node in nodes])
    close = matrix([telling(node["f"] - 4, node["t"] + 2) for node in nodes])
    ruled = [set(node["ro"]) for node in nodes]
    has_group = np.array([float(bool(one)) for one in ruled])
    same_group = share_any(incidence(ruled)) * 1.0
    by_rules = np.stack([same_group, np.outer(has_group, has_group) * (1 - same_group)], -1)
    return np.concatenate([overlap(near, own), overlap(own, own), overlap(close, close), by_rules], -1).astype(np.float32)


def sources_of(nodes, groups):
    """For each "the same as" the nodes of the group that it points to."""
    source = np.zeros((len(nodes), len(nodes)), np.float32)
    for row, node in enumerate(nodes):
        if node["role"] == "=":
            for column, group in enumerate(groups):
                if node["like"] in group:
                    source[row, column] = 1
    return source


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

    tensors = dict(
        first=first,
        last=last,
        node_kind=kinds,
        role=[UNKNOWN if node["role"] == "?" else ROLES.index(node["role"]) for node in nodes],
        times=[times_of(node) for node in nodes],
        part=[part_of(node) for node in nodes],
        implied=[implied_of(node) for node in nodes],
        fields=[[float(field in node["fields"]) for field in FIELDS] for node in nodes],
        distance=distance_buckets(first[None] - first[:, None]),
        between=MENTION_STEPS + np.clip(mentions[None] - mentions[:, None], -MENTION_STEPS, MENTION_STEPS),
        features=pair_features(talk, nodes, rarity),
        together=share_any(incidence(groups)).astype(np.float32),
        source=sources_of(nodes, groups),
        kinds=talk["kinds"],
        gaps=talk["gaps"],
        items=talk["items"],
    )
    return dict(
        {name: torch.tensor(values).to(DEVICE) for name, values in tensors.items()},
        length=len(talk["words"]),
        count=len(nodes),
        words=np.array(talk["words"], dtype=object),
        suffixes=np.array([suffix_of(word) for word in talk["words"]]),
        sizes=np.array(talk["sizes"]),
        marks=np.array(talk["marks"]),
        ruled=np.array(talk["ruled"]),
    )


class Block(nn.Module):
    """Attention within a window, and two layers over each token by itself."""

    def __init__(self, window):
        super().__init__()
        self.window = window
        self.n1 = nn.LayerNorm(WIDTH)
        self.qkv = nn.Linear(WIDTH, 3 * WIDTH)
        self.out = nn.Linear(WIDTH, WIDTH)
        self.n2 = nn.LayerNorm(WIDTH)
        self.up = nn.Linear(WIDTH, 3 * WIDTH)
        self.down = nn.Linear(3 * WIDTH, WIDTH)
        # What the distance between two tokens adds to their attention.
        self.bias = nn.Parameter(torch.zeros(HEADS, DISTANCES))
        self.drop = nn.Dropout(DROPOUT)

    def forward(self, x, buckets, keep):
        batch, length, _ = x.shape
        query, key, value = self.qkv(self.n1(x)).view(batch, length, 3, HEADS, WIDTH // HEADS).permute(2, 0, 3, 1, 4)
        at = torch.arange(length, device=x.device)
        far = (at[:, None] - at[None]).abs() > self.window
        bias = self.bias[:, buckets][None].masked_fill(far[None, None] | ~keep[:, None, None, :], FAR_BELOW)
        seen = F.scaled_dot_product_attention(query, key, value, attn_mask=bias, dropout_p=ATTENTION_DROPOUT if self.training else 0)
        x = x + self.drop(self.out(seen.transpose(1, 2).reshape(batch, length, WIDTH)))
        return x + self.drop(self.down(F.relu(self.up(self.n2(x)))))


class Reader(nn.Module):
    """Tokens to vectors (encode), nodes out of their first and last token (nodes), and what holds between two nodes (pairs)."""

    def __init__(self, vocabulary_size):
        super().__init__()
        self.word = nn.Embedding(vocabulary_size, WIDTH)
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
        self.dist = nn.Embedding(DISTANCES, PAIR_WIDTH)
        self.betw = nn.Embedding(2 * MENTION_STEPS + 1, PAIR_WIDTH)
        self.feat = nn.Linear(11, PAIR_WIDTH, bias=False)
        self.score = nn.Linear(PAIR_WIDTH, 2)
        self.sq = nn.Linear(WIDTH, PAIR_WIDTH)
        self.sk = nn.Linear(WIDTH, PAIR_WIDTH)
        # Guesses words that were hidden: only a second thing to learn from, not in the exported file.
        self.mlm = nn.Linear(WIDTH, vocabulary_size)
        nn.init.normal_(self.dist.weight, 0, 0.1)
        nn.init.normal_(self.betw.weight, 0, 0.1)

    def encode(self, tokens):
        x = self.word(tokens["word"]) + self.suf(tokens["suffix"]) + self.kind(tokens["kinds"]) + self.size(tokens["sizes"])
        x = self.drop(x + self.mark(tokens["marks"]) + self.gap(tokens["gaps"]) + self.item(tokens["items"]) + self.ruled(tokens["ruled"]))
        at = torch.arange(x.shape[1], device=x.device)
        distance = at[None] - at[:, None]
        size = distance.abs().float()
        step = torch.where(size == 0, torch.zeros_like(size), (1 + torch.log2(size.clamp(min=1)).floor()).clamp(max=10)).long()
        buckets = torch.where(distance >= 0, 11 + step, 11 - step)
        for block in self.blocks:
            x = block(x, buckets, tokens["keep"])
        return self.norm(x)

    def nodes(self, x, nodes):
        talk = torch.arange(x.shape[0], device=x.device)[:, None]
        ends = torch.cat([x[talk, nodes["first"]], x[talk, nodes["last"]]], -1)
        return F.relu(self.node(ends) + self.nk(nodes["node_kind"]))

    def pairs(self, x, nodes, features):
        """How much speaks for two nodes being of the same fasteners (either way round the same), and for one being said to be as the other."""
        both = self.lq(x)[:, :, None] + self.lk(x)[:, None] + self.dist(nodes["distance"]) + self.betw(nodes["between"]) + self.feat(features)
        score = self.score(F.relu(both))
        link = score[..., 0] + self.bq(x) @ self.bk(x).transpose(1, 2) / 8
        source = score[..., 1] + self.sq(x) @ self.sk(x).transpose(1, 2) / 8
        return (link + link.transpose(1, 2)) / 2, source


def batch_of_nodes(talks):
    """The nodes of several talks, filled up to the same number."""
    most = max(talk["count"] for talk in talks)
    missing = [most - talk["count"] for talk in talks]
    fills = dict(first=0, last=0, node_kind=0, role=UNKNOWN, times=UNKNOWN, part=-1.0, implied=UNKNOWN)
    batch = {
        name: torch.stack([F.pad(talk[name], (0, more), value=fill) for talk, more in zip(talks, missing)]) for name, fill in fills.items()
    }
    batch["fields"] = torch.stack([F.pad(talk["fields"], (0, 0, 0, more)) for talk, more in zip(talks, missing)])
    batch["features"] = torch.stack([F.pad(talk["features"], (0, 0, 0, more, 0, more)) for talk, more in zip(talks, missing)])
    for name in ("distance", "between", "together", "source"):
        batch[name] = torch.stack([F.pad(talk[name], (0, more, 0, more)) for talk, more in zip(talks, missing)])
    return batch


class Disturbance:
    """Makes a talk a little different in every pass, so that the net learns how things are said and not these talks by heart."""

    def __init__(self, vocabulary, names):
        self.vocabulary = vocabulary
        self.names = names

    def __call__(self, talk):
        """The rows of the talk that changed, and the words that are hidden (UNKNOWN for those that are not)."""
        length = talk["length"]
        ids, suffixes, sizes, ruled, marks = talk["ids"].copy(), talk["suffixes"].copy(), talk["sizes"].copy(), talk["ruled"].copy(), talk["marks"]
        if random.random() < 0.5:
            # Names of parts are many; no talk has them all, so others stand in.
            for word in talk["swappable"]:
                if random.random() < 0.25:
                    name = random.choice(self.names)
                    ids[talk["where"][word]] = self.vocabulary.get(name, UNKNOWN_WORD)
                    suffixes[talk["where"][word]] = suffix_of(name)
        hidden = np.random.rand(length) < np.where(talk["rare"], 0.12, 0.03)
        guess = np.where(hidden & (ids > UNKNOWN_WORD), ids, UNKNOWN)
        ids[hidden] = UNKNOWN_WORD
        suffixes[hidden & (np.random.rand(length) < 0.7)] = 0
        # Larger numbers a little larger or smaller: their size is a hint, not the answer.
        moved = (sizes > 8) & (np.random.rand(length) < 0.25)
        sizes[moved] = np.clip(sizes[moved] + np.random.randint(-4, 5, moved.sum()), 5, 33)
        if random.random() < 0.15:
            marks = np.where(np.random.rand(length) < 0.6, marks, 0)
        # Sometimes nothing of what the rules told, so that the net does not lean on them.
        ruled[np.random.rand(length) < (1.0 if random.random() < 0.1 else 0.1)] = 0
        return dict(word=ids, suffix=suffixes, sizes=sizes, marks=marks, ruled=ruled), guess


def batch_of_tokens(talks, disturb):
    """The tokens of several talks, filled up to the same length; as they are where `disturb` is None."""
    shape = len(talks), max(talk["length"] for talk in talks)
    rows = {name: np.zeros(shape, int) for name in ("word", "suffix", "sizes", "marks", "ruled")}
    rows["guess"] = np.full(shape, UNKNOWN)
    batch = {name: torch.zeros(*shape, dtype=torch.long, device=DEVICE) for name in ("kinds", "gaps", "items")}
    batch["keep"] = torch.zeros(*shape, dtype=torch.bool, device=DEVICE)
    for at, talk in enumerate(talks):
        length = talk["length"]
        if disturb is None:
            own = dict(word=talk["ids"], suffix=talk["suffixes"], sizes=talk["sizes"], marks=talk["marks"], ruled=talk["ruled"])
        else:
            own, rows["guess"][at, :length] = disturb(talk)
        for name, values in own.items():
            rows[name][at, :length] = values
        for name in ("kinds", "gaps", "items"):
            batch[name][at, :length] = talk[name]
        batch["keep"][at, :length] = True
    return dict(batch, **{name: torch.tensor(values, device=DEVICE) for name, values in rows.items()})


def loss_of(model, talks, disturb):
    """What is wrong with the answers on these talks, all tasks weighted and added."""
    tokens, nodes = batch_of_tokens(talks, disturb), batch_of_nodes(talks)
    x = model.encode(tokens)
    hidden = tokens["guess"] >= 0
    loss = 0.3 * F.cross_entropy(model.mlm(x[hidden]), tokens["guess"][hidden])
    x = model.drop(model.nodes(x, nodes))
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

    features = nodes["features"]
    # The last two features come from the rules; now and then a talk goes without.
    kept = torch.rand(len(talks), 1, 1, 1, device=DEVICE) > 0.15
    features = torch.cat([features[..., :9], features[..., 9:] * kept], -1)
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
    times_right = times_all = 0
    for talk in talks:
        nodes = batch_of_nodes([talk])
        x = model.nodes(model.encode(batch_of_tokens([talk], None)), nodes)
        wanted, given = talk["role"].cpu().numpy(), model.role(x)[0].argmax(-1).cpu().numpy()
        known = wanted != UNKNOWN
        np.add.at(seen, (wanted[known], given[known]), 1)
        value = torch.isin(talk["role"], torch.tensor([COUNT, SIZE, TORQUE], device=DEVICE))
        upper = torch.triu(value[:, None] & value[None], diagonal=1)
        linked = (model.pairs(x, nodes, nodes["features"])[0][0] > 0) & upper
        together = (talk["together"] > 0) & upper
        pairs["right"] += int((linked & together).sum())
        pairs["given"] += int(linked.sum())
        pairs["wanted"] += int(together.sum())
        is_count = talk["role"] == COUNT
        times_all += int(is_count.sum())
        times_right += int((model.times(x)[0].argmax(-1) == talk["times"])[is_count].sum())
    roles = " ".join(
        f"{name} {seen[at, at] / max(1, seen[:, at].sum()):.3f}/{seen[at, at] / max(1, seen[at].sum()):.3f}"
        for at, name in enumerate(ROLES)
        if at != NOTHING
    )
    both = f"{pairs['right'] / max(1, pairs['given']):.3f}/{pairs['right'] / max(1, pairs['wanted']):.3f}"
    return f"{roles} | pairs of values {both} | times {times_right / max(1, times_all):.3f}"


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


def steps_of(talks):
    """The talks of one pass in steps of about the same length, so that little is filled up."""
    steps, step = [], []
    for talk in sorted(talks, key=lambda talk: talk["length"] * (1 + 0.15 * random.random())):
        if step and (len(step) + 1) * talk["length"] > TOKENS_IN_STEP:
            steps.append(step)
            step = []
        step.append(talk)
    steps.append(step)
    random.shuffle(steps)
    return steps


def read_lines(paths):
    for path in paths:
        with gzip.open(path, "rt") if path.endswith(".gz") else open(path) as lines:
            yield from (json.loads(line) for line in lines if line.strip())


def train(paths, weights_path):
    seed = int(os.environ.get("SEED", "1"))
    torch.manual_seed(seed)
    random.seed(seed)
    np.random.seed(seed)
    limit, passes = float(os.environ.get("TIME", "0")), int(os.environ.get("EPOCHS", "60"))

    talks = list(read_lines(paths))
    holds_out = os.environ.get("HOLD_OUT", "1") != "0"
    learnt = [talk for talk in talks if not (holds_out and is_held_out(talk))]
    held_out = [talk for talk in talks if holds_out and is_held_out(talk)]
    counts, talks_with = count_words(learnt)
    rarity = {stem: math.log(1 + len(learnt) / (1 + count)) for stem, count in talks_with.items()}
    rarity[""] = math.log(1 + len(learnt))
    vocabulary = {"<pad>": PADDING, "<unk>": UNKNOWN_WORD}
    for word, count in sorted(counts.items(), key=lambda entry: (-entry[1], entry[0])):
        # What was said only a few times cannot be learnt as a word.
        if count >= 4:
            vocabulary.setdefault(word, len(vocabulary))
    names = words_of_names(learnt, counts)
    learnt, held_out = [prepare(talk, rarity) for talk in learnt], [prepare(talk, rarity) for talk in held_out]
    for talk in learnt + held_out:
        words = talk["words"]
        talk["ids"] = np.array([vocabulary.get(word, UNKNOWN_WORD) for word in words])
        talk["rare"] = np.array([counts.get(word, 0) < 30 for word in words])
        talk["where"] = {word: np.where(words == word)[0] for word in sorted(set(words) & set(names))}
        talk["swappable"] = list(talk["where"])

    model = Reader(len(vocabulary)).to(DEVICE)
    print(f"{len(learnt)} talks, {len(held_out)} held out, {len(vocabulary)} words, {sum(p.numel() for p in model.parameters())} weights", flush=True)
    fit(model, learnt, Disturbance(vocabulary, names), limit, passes)
    if held_out:
        model.eval()
        print(measure(model, held_out))
    state = {name: values.cpu() for name, values in model.state_dict().items()}
    torch.save(dict(state=state, vocab=vocabulary, idf=rarity, D=WIDTH, L=len(WINDOWS), win=WINDOWS), weights_path)


def fit(model, talks, disturb, limit, passes):
    """AdamW with a short rise and a cosine fall of the rate; what is kept is a running mean of the weights."""
    optimizer = torch.optim.AdamW(model.parameters(), lr=LEARNING_RATE, weight_decay=0.05, betas=(0.9, 0.98))
    expected = passes * math.ceil(sum(talk["length"] for talk in talks) / 8000)
    started, done, progress, turn = time.time(), 0, 0.0, 0
    mean = [values.clone() for values in model.state_dict().values()]
    model.train()
    while progress < 1:
        losses = []
        for step in steps_of(talks):
            with torch.autocast(DEVICE, dtype=torch.bfloat16, enabled=DEVICE == "cuda"):
                loss = loss_of(model, step, disturb)
            optimizer.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(model.parameters(), 1.0)
            optimizer.step()
            losses.append(loss.detach())
            done += 1
            torch._foreach_lerp_(mean, list(model.state_dict().values()), 1 - min(0.998, done / (done + 50)))
            # By the clock, where there is a limit: a slower machine then learns less and not longer.
            progress = min(1.0, (time.time() - started) / limit if limit else done / expected)
            rate = min(1.0, progress / 0.08) * max(0.01, 0.5 + 0.5 * math.cos(math.pi * max(0.0, (progress - 0.08) / 0.92)))
            for group in optimizer.param_groups:
                group["lr"] = LEARNING_RATE * rate
        turn += 1
        if turn % 15 == 0 or progress >= 1:
            print(f"pass {turn}, {time.time() - started:.0f} s, loss {float(torch.stack(losses).mean()):.3f}", flush=True)
    for values, kept in zip(model.state_dict().values(), mean):
        values.copy_(kept)


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

    for name, values in saved["state"].items():
        if name.startswith("mlm"):
            continue
        # The bias of a block by distance is a table, so it is called as the other tables are.
        put(f"{name}.weight" if name.endswith(".bias") and values.ndim == 2 else name, values)
    header = dict(
        width=saved["D"],
        heads=HEADS,
        windows=saved["win"],
        pairWidth=PAIR_WIDTH,
        suffixes=SUFFIXES,
        vocabulary=[word for word, _ in sorted(saved["vocab"].items(), key=lambda entry: entry[1])],
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
    export(sys.argv[2], sys.argv[3])

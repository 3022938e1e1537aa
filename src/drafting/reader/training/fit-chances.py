"""Fits the weights of ../chances.ts: how likely a value is right that the net, the rules or both put to a group.

Usage: fit-chances.py CANDIDATES.csv [HELD_OUT[,HELD_OUT]]

CANDIDATES.csv and CANDIDATES.csv.wants.json come from `tests/bench/reader-training.ts chances`. Prints a line of weights for each field.
HELD_OUT are batches (folders of talks) that the weights are not fitted to; what would hold on them is printed as a comment, and so is
what holds on every batch when it is left out in turn: precision/recall of the values that are as likely right as each limit.
"""

import json
import sys

import numpy as np
import pandas as pd
from sklearn.linear_model import LogisticRegression

LIMITS = (0, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9)
NOT_SIGNS = ("batch", "file", "group", "field", "build", "place", "right")
# Signs that say more together than each by itself.
JOINT = {
    "agreedBelongs": ("agreed", "belongs"),
    "agreedRule": ("agreed", "rule"),
    "isBelongs": ("is", "belongs"),
    "ruleOnlyRule": ("ruleOnly", "rule"),
    "doubledRule": ("doubled", "rule"),
}
# The marked talks only help to fit: those who wrote them also wrote talks that the net learnt from.
MARKED = "marked"


def design(candidates, signs):
    single = candidates[signs].to_numpy(float)
    joint = [single[:, signs.index(one)] * single[:, signs.index(other)] for one, other in JOINT.values()]
    return np.column_stack([single, *joint])


def regression(rows, right):
    return LogisticRegression(C=0.5, max_iter=5000).fit(rows, right)


def told(candidates, chance, wanted, field):
    """Precision/recall from each limit up, where of several candidates for one value the likeliest is taken."""
    best = candidates.assign(chance=chance).sort_values("chance").groupby(["batch", "file", "group", "build"]).tail(1)
    every = sum(wanted[batch][field] for batch in candidates.batch.unique())
    kept = [(limit, best[best.chance >= limit].right) for limit in LIMITS]
    return " ".join(f"{limit}: {right.mean():.3f}/{right.sum() / every:.3f}" for limit, right in kept)


def main(path, held_out):
    candidates = pd.read_csv(path)
    candidates["build"] = candidates.build.fillna("")
    with open(f"{path}.wants.json") as file:
        wanted = json.load(file)
    signs = [column for column in candidates.columns if column not in NOT_SIGNS]
    for field in ("count", "size", "torque"):
        own = candidates[candidates.field == field].reset_index(drop=True)
        rows, right = design(own, signs), own.right.to_numpy()
        left_out = np.zeros(len(own))
        for batch in own.batch.unique():
            others = (own.batch != batch).to_numpy()
            left_out[~others] = regression(rows[others], right[others]).predict_proba(rows[~others])[:, 1]
        finished = (own.batch != MARKED).to_numpy()
        if finished.any():
            print(f"// {field}, each batch left out in turn: {told(own[finished], left_out[finished], wanted, field)}")
        is_held_out = own.batch.isin(held_out).to_numpy()
        model = regression(rows[~is_held_out], right[~is_held_out])
        if is_held_out.any():
            print(f"// {field}, held out: {told(own[is_held_out], model.predict_proba(rows[is_held_out])[:, 1], wanted, field)}")
        weights = [f"{name}: {weight:.2f}" for name, weight in zip(signs + list(JOINT), model.coef_[0]) if abs(weight) >= 0.005]
        print(f"  {field}: {{ before: {model.intercept_[0]:.2f}, {', '.join(weights)} }},")


if __name__ == "__main__":
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2].split(",") if len(sys.argv) > 2 else [])

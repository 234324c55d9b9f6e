"""Puts the published problems through a general-purpose Bayesian library and compares.

Not part of the test suite: it needs Python and the packages pyagrum and pyyaml from PyPI.

    python3 -m venv VENV && VENV/bin/pip install pyagrum pyyaml
    cargo build --release
    VENV/bin/python tests/outside/compare_with_library.py target/release/stillwheel

Every tree in tests/published becomes a network: one node an event, one a condition, one
deterministic node a gate (wide ones split), one node a check. Answers are drawn from a fixed
seed. Probabilities must agree to 1e-9.
"""

import glob
import itertools
import json
import math
import os
import random
import subprocess
import sys

import pyagrum as gum
import yaml

LIMIT = 1e-9


def chance_of(event):
    if "chance" in event:
        return float(event["chance"])
    rate = float(event["rate"].split()[0])
    exposure = float(event["exposure"].split()[0])
    return -math.expm1(-rate * exposure)


class Network:
    def __init__(self, tree):
        self.tree, self.net, self.made = tree, gum.BayesNet(), {}
        self.conditions = tree.get("conditions") or {}
        for name, event in tree["events"].items():
            p = chance_of(event)
            self.net.add(gum.LabelizedVariable(name, name, ["0", "1"]))
            self.net.cpt(name)[:] = [1 - p, p]
        for name, condition in self.conditions.items():
            if "chance" in condition:
                values = {"yes": condition["chance"], "no": 1 - condition["chance"]}
            else:
                values = condition["one-of"]
            self.net.add(gum.LabelizedVariable(name, name, list(values)))
            self.net.cpt(name)[:] = list(values.values())
        for name in tree["gates"]:
            self.node(name)

    def boolean(self, name, inputs, rule):
        """A two-valued node: the rule over the truth of its inputs."""
        self.net.add(gum.LabelizedVariable(name, name, ["0", "1"]))
        for parent in inputs:
            self.net.addArc(parent, name)
        for bits in itertools.product([0, 1], repeat=len(inputs)):
            yes = float(rule(bits))
            self.net.cpt(name)[dict(zip(inputs, bits))] = [1 - yes, yes]
        return name

    def node(self, text):
        """The two-valued node that stands for a node of the tree."""
        if text in self.made:
            return self.made[text]
        if text in self.tree["events"]:
            made = text
        elif "=" in text or text in self.conditions:
            name, _, word = text.partition("=")
            word = word or "yes"
            made = f"is_{name}_{word}"
            self.net.add(gum.LabelizedVariable(made, made, ["0", "1"]))
            self.net.addArc(name, made)
            for label in self.net.variable(name).labels():
                yes = float(label == word)
                self.net.cpt(made)[{name: label}] = [1 - yes, yes]
        else:
            made = self.gate(text, self.tree["gates"][text])
        self.made[text] = made
        return made

    def gate(self, name, gate):
        if "not" in gate:
            return self.boolean(name, [self.node(gate["not"])], lambda b: not b[0])
        if "at-least" in gate:
            inputs = [self.node(x) for x in gate["of"]]
            return self.boolean(name, inputs, lambda b: sum(b) >= gate["at-least"])
        if "either" in gate:
            inputs = [self.node(x) for x in gate["either"]]
            return self.boolean(name, inputs, lambda b: sum(b) == 1)
        rule = any if "any" in gate else all
        inputs = [self.node(x) for x in gate.get("any") or gate.get("all")]
        part = 0
        while len(inputs) > 4:
            part += 1
            joined = self.boolean(f"{name}_part{part}", inputs[:4], rule)
            inputs = inputs[4:] + [joined]
        return self.boolean(name, inputs, rule)

    def check(self, name, check, answer):
        """A likelihood node for one answer; the first line whose nodes hold decides."""
        lines, answers = [], check.get("answers") or ["yes", "no"]
        for line in check.get("yes") or check["lines"]:
            when = line.get("when", [])
            nodes = [self.node(x) for x in ([when] if isinstance(when, str) else when)]
            share = line.get("shares") or line.get("chance", line.get("otherwise"))
            share = share if isinstance(share, list) else [share, 1 - share]
            lines.append((nodes, share[answers.index(answer)]))
        parents = list(dict.fromkeys(x for nodes, _ in lines for x in nodes))
        node = f"check_{name}"
        self.net.add(gum.LabelizedVariable(node, node, ["no", "yes"]))
        for parent in parents:
            self.net.addArc(parent, node)
        for bits in itertools.product([0, 1], repeat=len(parents)):
            truth = dict(zip(parents, bits))
            share = next(s for nodes, s in lines if all(truth[x] for x in nodes))
            self.net.cpt(node)[truth] = [1 - share, share]
        return node


def load(path):
    """Keys such as `yes:` stay texts, as this project reads them."""
    tree = yaml.load(open(path), Loader=yaml.BaseLoader)

    def numbers(value):
        if isinstance(value, dict):
            return {key: numbers(v) for key, v in value.items()}
        if isinstance(value, list):
            return [numbers(v) for v in value]
        try:
            number = float(value)
            return int(number) if number == int(number) and "." not in value else number
        except ValueError:
            return value

    return numbers(tree)


def compare(program, path, rng):
    tree = load(path)
    network = Network(tree)
    arguments, evidence = [program, "rank", path, "--no-report", "--json"], {}
    for name, check in (tree.get("checks") or {}).items():
        if rng.random() < 0.5:
            answer = rng.choice(check.get("answers") or ["yes", "no"])
            evidence[network.check(name, check, answer)] = "yes"
            arguments += ["--answer", f"{name}={answer}"]
    run = subprocess.run(arguments, capture_output=True, text=True)
    ours = json.loads(run.stdout)
    inference = gum.LazyPropagation(network.net)
    inference.setEvidence(evidence)
    try:
        inference.makeInference()
        theirs = inference.evidenceProbability() if evidence else 1.0
    except gum.GumException:
        theirs = 0.0
    if "contradiction" in ours or theirs == 0.0:
        return 0.0 if "contradiction" in ours and theirs == 0.0 else None
    worst = abs(theirs - ours["evidence_probability"])
    for event in ours["causes"] + ours["bystanders"]:
        worst = max(worst, abs(inference.posterior(event["id"])[1] - event["probability"]))
    for gate in tree["gates"]:
        worst = max(worst, abs(inference.posterior(gate)[1] - ours["nodes"][gate]))
    return worst


def main():
    program, rng = os.path.abspath(sys.argv[1]), random.Random(20)
    print(f"pyagrum {gum.__version__}")
    failed = False
    for path in sorted(glob.glob("tests/published/*.yaml")):
        worst = [compare(program, path, rng) for _ in range(5)]
        bad = any(w is None or w > LIMIT for w in worst)
        failed |= bad
        shown = "one side alone finds a contradiction" if None in worst else f"{max(worst):.1e}"
        name = os.path.basename(path)
        print(f"{name:32} largest difference of 5 draws {shown}{'  FAILED' if bad else ''}")
    sys.exit(failed)


if __name__ == "__main__":
    main()

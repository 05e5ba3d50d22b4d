"""Computes passing, D50 and the verdicts of a certificate again, from its twin alone: python3 recompute.py C-26-00042.json"""
import json, math, sys

twin = json.load(open(sys.argv[1], encoding="utf-8"))

def curve(run):
    """Aperture in µm and percent passing, finest first."""
    cuts = sorted(run["cuts"], key=lambda cut: cut["apertureNanometres"])
    above = lambda i: sum(c["residueMicrograms"] for c in cuts[i:]) if stack else cuts[i]["residueMicrograms"]
    return [(c["usedApertureNanometres"] / 1000, 100 - 100 * above(i) / c["wholeMicrograms"]) for i, c in enumerate(cuts)]

def size_at(points, percent):
    """Straight over the logarithm of the aperture; None outside the measured apertures, which are never extrapolated."""
    for (x1, q1), (x2, q2) in zip(points, points[1:]):
        if q1 <= percent <= q2 and q1 < q2:
            return x1 * (x2 / x1) ** ((percent - q1) / (q2 - q1))

for sample in [twin, *twin.get("further", [])]:  # version 2 of the form has further samples
    data = sample["measurements"]
    stack = data["procedure"] == "nestedStack"
    print(f"lot {sample['product']['lotNumber']}, sample {sample['sample']['code']}")
    curves = [curve(run) for run in data["runs"]]
    mean = lambda values: sum(values) / len(values) if values and None not in values else None
    for i, (x, _) in enumerate(curves[0]):
        print(f"passing {x:g} um: {mean([c[i][1] for c in curves]):.6f} %")
    for limit in data["limits"]:
        kind, value = limit["characteristic"], limit["value"]
        if kind in ("passing", "retained"):
            place = sorted(c["apertureNanometres"] for c in data["runs"][0]["cuts"]).index(limit["apertureNanometres"])
            value = mean([c[place][1] if kind == "passing" else 100 - c[place][1] for c in curves])
        elif kind == "percentile" and data["reading"] == "logLinear":
            value = mean([size_at(c, limit["percent"]) for c in curves])
        inside = value is not None and (limit["lower"] is None or value >= limit["lower"] - 1e-9) and (limit["upper"] is None or value <= limit["upper"] + 1e-9)
        print(f"{kind} {limit['percent'] or limit['apertureNanometres'] or ''}: {'none' if value is None else f'{value:.6f}'} {'inside' if inside else 'outside'}; certified {limit['verdict']}")

"""How long Cycles takes over the room scene, and how far off it is then; run by peer.mjs.

    blender -b --factory-startup --python-exit-code 1 -P reference/cycles/peer.py -- result.json scale

At scale 1 the points are those of values.json, which are also the truth. A larger scale makes the picture finer (scale^2
times the pixels); its truth is a long render of its own. Seconds are those of the render call alone: scene set-up inside
Cycles, tracing, writing the little file.
"""

import json
import math
import os
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import cycles_scene as cycles  # noqa: E402
from points import visible  # noqa: E402

SCENE = "room"
COUNTS = [1, 4, 16, 64, 256, 1024]
SEEDS = 3
RIM = 32  # a coarser outline of the disc, same area: a little quicker, and the same values to 0.03 %
TRUTH_SAMPLES = 8192  # eight times the highest count: its own error makes that one look 6 % larger


def irradiances(points, reflectance, samples, seed):
    picture, seconds = cycles.render(samples, seed)
    return [math.pi * picture[j][i][0] / reflectance for i, j, *_ in points], seconds


def main(target, scale):
    cycles.RIM = RIM
    scene = cycles.scenes()["scenes"][SCENE]
    scene["camera"]["across"] *= scale
    scene["camera"]["down"] *= scale
    reflectance = scene["heads"][0]["reflectance"]
    cycles.build(scene)
    points = visible(scene)
    if scale == 1:
        with open(os.path.join(cycles.HERE, "values.json")) as file:
            rows = json.load(file)["scenes"][SCENE]["points"]
        kept = {(row[0], row[1]): row[9] for row in rows}
        points = [p for p in points if (p[0], p[1]) in kept]
        truth = [kept[p[0], p[1]] for p in points]
    else:
        truth, _ = irradiances(points, reflectance, TRUTH_SAMPLES, 1000)
    cycles.render(1, 0)  # the first render of a process also loads things
    rows = []
    for samples in COUNTS:
        errors, times = [], []
        for seed in range(SEEDS):
            values, seconds = irradiances(points, reflectance, samples, seed)
            errors += [(v / t - 1) ** 2 for v, t in zip(values, truth)]
            times.append(seconds)
        rms = math.sqrt(sum(errors) / len(errors))
        rows.append({"samples": samples, "seconds": sorted(times)[SEEDS // 2], "rms": rms})
    head_pixels = sum(place is not None for row in cycles.positions() for place in row)
    found = [{"triangle": t, "place": place, "normal": normal} for _, _, t, place, normal in points]
    with open(target, "w") as file:
        json.dump({"rows": rows, "points": found, "truth": truth, "headPixels": head_pixels}, file)


target, scale = sys.argv[sys.argv.index("--") + 1 :]
main(target, int(scale))

"""Writes values.json: irradiance on the head, from Cycles, for every scene of scenes.json.

    blender -b --factory-startup --python-exit-code 1 -P reference/cycles/render.py [-- samples [runs]]
"""

import json
import math
import os
import sys

import bpy

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import cycles_scene as cycles  # noqa: E402
from points import visible  # noqa: E402

SCALING_WITHIN = 0.003
DARK = 0.01  # points with less of the brightest point's irradiance are left out: there noise, relative to them, is all
PLACE_WITHIN_M = 2e-5  # Cycles' positions are 32-bit
COLUMNS = ["column", "row", "triangle", "x", "y", "z", "nx", "ny", "nz", "irradiance", "direct", "noise"]


def prove_scaling(proof):
    """A plane before a disc has a closed form: Cycles' irradiance over it must be 1."""
    light = proof["lights"][0]
    radius, height = light["radius"], light["centre"][2]
    expected = radius**2 / (radius**2 + height**2) / (math.pi * radius**2)
    cycles.build(proof)
    picture, _ = cycles.render(16384, 1)
    pixels = [p[0] for row in picture for p in row]
    ratio = math.pi * sum(pixels) / len(pixels) / proof["panels"][0]["reflectance"] / expected
    print(f"scaling: Cycles / closed form = {ratio:.5f}")
    assert abs(ratio - 1) < SCALING_WITHIN, "irradiance is not scaled as it should be"
    return ratio


def irradiances(points, reflectance, samples, seed):
    picture, _ = cycles.render(samples, seed)
    return [math.pi * picture[j][i][0] / reflectance for i, j, *_ in points]


def mean(values):
    return sum(values) / len(values)


def measure(name, scene, samples, runs):
    cycles.build(scene)
    points = visible(scene)
    seen = cycles.positions()
    off = max(math.dist(seen[j][i], place) for i, j, _, place, _ in points)
    assert off < PLACE_WITHIN_M, f"{name}: Cycles sees another point, {off} m away"
    reflectance = scene["heads"][0]["reflectance"]
    full = [irradiances(points, reflectance, samples, 1 + run) for run in range(runs)]
    cycles.set_bounces(0)
    direct = [irradiances(points, reflectance, samples, 101 + run) for run in range(runs)]
    brightest = max(full[0])
    rows, noises, pair = [], [], []
    for n, (i, j, triangle, place, normal) in enumerate(points):
        each = [run[n] for run in full]
        value = mean(each)
        if value < DARK * brightest:
            continue
        spread = math.sqrt(sum((x - value) ** 2 for x in each) / (runs - 1) / runs)
        noises.append(spread / value)
        pair.append((each[0] - each[1]) / value)
        numbers = [*(f"{x:.6f}" for x in (*place, *normal)), f"{value:.5g}", f"{mean([run[n] for run in direct]):.5g}"]
        rows.append([i, j, triangle, *(float(x) for x in numbers), float(f"{noises[-1]:.2g}")])
    noise, differ = (math.sqrt(mean([x * x for x in list])) for list in (noises, pair))
    print(f"{name}: {len(rows)} points, noise {noise:.2%} RMS, {max(noises):.2%} worst; two runs differ by {differ:.2%} RMS")
    return {
        "samples": samples,
        "runs": runs,
        "noise": float(f"{noise:.2g}"),
        "noiseWorst": float(f"{max(noises):.2g}"),
        "runsDifferBy": float(f"{differ:.2g}"),
        "placesDifferBy_m": float(f"{off:.1g}"),
        "leftOutDark": len(points) - len(rows),
        "points": rows,
    }


def write(table):
    parts = []
    for name, scene in table["scenes"].items():
        head = json.dumps({k: v for k, v in scene.items() if k != "points"})[:-1]
        rows = ",\n".join("        " + json.dumps(row) for row in scene["points"])
        parts.append(f'    "{name}": {head}, "points": [\n{rows}\n      ]}}')
    front = json.dumps({k: v for k, v in table.items() if k != "scenes"})[1:-1]
    with open(os.path.join(cycles.HERE, "values.json"), "w") as file:
        file.write("{\n  " + front + ',\n  "scenes": {\n' + ",\n".join(parts) + "\n  }\n}\n")


asked = [int(x) for x in sys.argv[sys.argv.index("--") + 1 :]] if "--" in sys.argv else []
samples, runs = (asked + [16384, 8][len(asked) :])[:2]
described = cycles.scenes()
table = {
    "blender": bpy.app.version_string,
    "scaling": round(prove_scaling(described["proof"]), 5),
    "columns": COLUMNS,
    "scenes": {name: measure(name, scene, samples, runs) for name, scene in described["scenes"].items()},
}
write(table)

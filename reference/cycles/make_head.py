"""Melts the head's parts (skin, eyeballs, ears) into one closed skin, thins it and writes it; run by make-head.mjs."""

import json
import sys

import bmesh
import bpy

VOXEL_M = 0.0015
TRIANGLES = 7000

source, target = sys.argv[sys.argv.index("--") + 1 :]
with open(source) as file:
    head = json.load(file)
flat, corners = head["positions"], head["triangles"]
mesh = bpy.data.meshes.new("head")
mesh.from_pydata(
    [flat[i : i + 3] for i in range(0, len(flat), 3)], [], [corners[i : i + 3] for i in range(0, len(corners), 3)]
)
thing = bpy.data.objects.new("head", mesh)
bpy.context.scene.collection.objects.link(thing)
melt = thing.modifiers.new("melt", "REMESH")
melt.mode = "VOXEL"
melt.voxel_size = VOXEL_M
melt.adaptivity = 0
split = thing.modifiers.new("split", "TRIANGULATE")


def evaluated():
    return bpy.data.meshes.new_from_object(thing.evaluated_get(bpy.context.evaluated_depsgraph_get()))


def islands(shape):
    left = set(shape.verts)
    while left:
        todo = [left.pop()]
        found = set(todo)
        while todo:
            for edge in todo.pop().link_edges:
                for vertex in edge.verts:
                    if vertex in left:
                        left.discard(vertex)
                        found.add(vertex)
                        todo.append(vertex)
        yield found


# What lies inside (voids that melting leaves) goes before the thinning, so that only the outer skin is counted.
shape = bmesh.new()
shape.from_mesh(evaluated())
parts = sorted(islands(shape), key=len)
print("islands:", [len(p) for p in parts])
for part in parts[:-1]:
    bmesh.ops.delete(shape, geom=list(part), context="VERTS")
skin = bpy.data.meshes.new("skin")
shape.to_mesh(skin)
full = len(shape.faces)
shape.free()
thing.modifiers.clear()
thing.data = skin
thin = thing.modifiers.new("thin", "DECIMATE")
thin.ratio = TRIANGLES / full
thin.use_collapse_triangulate = True

shape = bmesh.new()
shape.from_mesh(evaluated())
for vertex in shape.verts:
    vertex.co = [round(c, 5) for c in vertex.co]
shape.verts.index_update()
assert all(e.is_manifold and e.is_contiguous for e in shape.edges), "the skin is not closed"
assert all(f.calc_area() > 1e-9 for f in shape.faces), "a triangle has no area"
volume = shape.calc_volume(signed=True)
assert volume > 0, "the triangles face inward"
print(f"{len(shape.verts)} vertices, {len(shape.faces)} triangles, {volume * 1000:.3f} litres")
with open(target, "w") as file:
    file.write("# Head and neck for the check against a path tracer. Metres; x ahead, y own left, z up. See README.md.\n")
    for vertex in shape.verts:
        file.write("v " + " ".join(f"{c:.5f}".replace("-0.00000", "0.00000") for c in vertex.co) + "\n")
    for face in shape.faces:
        file.write("f " + " ".join(str(v.index + 1) for v in face.verts) + "\n")

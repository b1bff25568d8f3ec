"""The points of a head that a scene's camera sees, traced here, apart from Cycles.

Left out are pixels whose point would be ill defined: next to one that misses the head, or that lies STEP_M nearer or
farther (an outline of nose, ear or lid); seen more obliquely than FACING; within RIM_M of an edge of the triangle.
"""

import math

from cycles_scene import frame, head_mesh, placed
from mathutils import Vector
from mathutils.bvhtree import BVHTree

STEP_M = 0.025
FACING = 0.25
RIM_M = 0.0001


def sub(a, b):
    return [a[k] - b[k] for k in range(3)]


def dot(a, b):
    return sum(a[k] * b[k] for k in range(3))


def cross(a, b):
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def unit(a):
    length = math.sqrt(dot(a, a))
    return [x / length for x in a]


def visible(scene):
    """Per point: column, row, triangle, position, normal of the triangle."""
    mesh, triangles = head_mesh()
    corners = placed(scene["heads"][0], mesh)
    tree = BVHTree.FromPolygons([Vector(c) for c in corners], triangles, all_triangles=True)
    camera = scene["camera"]
    hits = [[hit(camera, tree, corners, triangles, i, j) for i in range(camera["across"])] for j in range(camera["down"])]
    return [
        (i, j, *hits[j][i][:3])
        for j in range(1, camera["down"] - 1)
        for i in range(1, camera["across"] - 1)
        if hits[j][i] and sound(hits, i, j)
    ]


def hit(camera, tree, corners, triangles, i, j):
    """Triangle, point, normal, depth, cosine to the camera and distance from the triangle's rim; None past the head."""
    right, up, forward = frame(camera)
    x = camera["width"] * (0.5 - (i + 0.5) / camera["across"])  # `right` is the camera's own left as it looks ahead
    y = camera["height"] * (0.5 - (j + 0.5) / camera["down"])
    start = [camera["centre"][k] + x * right[k] + y * up[k] for k in range(3)]
    ahead = unit(sub(camera["aimAt"], camera["centre"]))
    _, _, triangle, _ = tree.ray_cast(Vector(start), forward)
    if triangle is None:
        return None
    a, b, c = (corners[v] for v in triangles[triangle])
    normal = unit(cross(sub(b, a), sub(c, a)))
    depth = dot(sub(a, start), normal) / dot(ahead, normal)
    point = [start[k] + depth * ahead[k] for k in range(3)]
    rim = min(dot(cross(normal, unit(sub(q, p))), sub(point, p)) for p, q in ((a, b), (b, c), (c, a)))
    return triangle, point, normal, depth, -dot(normal, ahead), rim


def sound(hits, i, j):
    _, _, _, depth, cosine, rim = hits[j][i]
    if cosine < FACING or rim < RIM_M:
        return False
    near = [hits[j + v][i + u] for v in (-1, 0, 1) for u in (-1, 0, 1)]
    return all(n and abs(n[3] - depth) < STEP_M for n in near)

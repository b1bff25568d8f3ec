"""Builds a scene of scenes.json in Cycles and reads irradiance at the points that its camera sees.

Metres, z up. An emission of 1 lm from a disc leaves as 1 / (pi r^2) lm/m2, radiance that over pi. A surface of
reflectance rho that is lit with irradiance E sends out E rho / pi, and that is what a pixel holds: E = pi L / rho.
"""

import json
import math
import os
import tempfile
import time

import bpy
from mathutils import Matrix, Vector

HERE = os.path.dirname(os.path.abspath(__file__))
RIM = 256  # corners of a disc's outline; its radius is raised so that the area is the disc's own
BOUNCES = 64  # 0.8^64 is 6e-7: nothing is cut off
PIXEL_WIDTH = 0.01  # the narrowest filter there is: a pixel is the point at its centre
THREADS = 2
MOVED = 10


def scenes():
    with open(os.path.join(HERE, "scenes.json")) as file:
        return json.load(file)


def head_mesh():
    """Corners (metres, head axes) and triangles of head.obj."""
    corners, triangles = [], []
    with open(os.path.join(HERE, "head.obj")) as file:
        for line in file:
            kind, *rest = line.split()
            if kind == "v":
                corners.append(tuple(float(x) for x in rest))
            elif kind == "f":
                triangles.append(tuple(int(x) - 1 for x in rest))
    return corners, triangles


def placed(head, corners):
    """Head axes to the world: rotation is 3 x 3 by rows."""
    r, o = head["rotation"], head["offset"]
    return [tuple(sum(r[3 * i + k] * c[k] for k in range(3)) + o[i] for i in range(3)) for c in corners]


def frame(thing):
    """Right, up and forward of a thing that stands at `centre` and faces `aimAt`; up is as near to z as it can be."""
    forward = (Vector(thing["aimAt"]) - Vector(thing["centre"])).normalized()
    pole = Vector((0, 0, 1)) if abs(forward.z) < 0.999 else Vector((0, 1, 0))
    right = pole.cross(forward).normalized()
    return right, forward.cross(right), forward


def build(scene):
    """The scene, with a camera that sees the first head alone (the rest takes part in all but the first ray)."""
    bpy.ops.wm.read_factory_settings(use_empty=True)
    settings(scene["camera"])
    corners, triangles = head_mesh()
    for i, head in enumerate(scene["heads"]):
        add(placed(head, corners), triangles, diffuse(head["reflectance"]), seen=i == 0)
    for panel in scene["panels"]:
        surface = diffuse(panel["reflectance"], panel["transmittance"])
        add(rectangle(panel), [(0, 1, 2, 3)], surface, seen=not scene["heads"])
    for light in scene["lights"]:
        add(*disc(light), emitter(light["emission"] / (math.pi * light["radius"]) ** 2))
    if scene["room"]:
        room(scene["room"])
    place_camera(scene["camera"])


def settings(camera):
    scene = bpy.context.scene
    scene.world = bpy.data.worlds.new("black")
    scene.world.color = (0, 0, 0)
    render, cycles = scene.render, scene.cycles
    render.engine = "CYCLES"
    render.resolution_x, render.resolution_y = camera["across"], camera["down"]
    render.resolution_percentage = 100
    render.threads_mode, render.threads = "FIXED", THREADS
    render.image_settings.file_format = "OPEN_EXR"
    render.image_settings.color_depth = "32"
    render.image_settings.color_mode = "RGB"
    scene.view_settings.view_transform = "Raw"
    cycles.device = "CPU"
    cycles.pixel_filter_type, cycles.filter_width = "BLACKMAN_HARRIS", PIXEL_WIDTH
    cycles.use_adaptive_sampling = cycles.use_denoising = False
    cycles.sample_clamp_direct = cycles.sample_clamp_indirect = 0
    cycles.light_sampling_threshold = 0
    cycles.use_fast_gi = False
    set_bounces(BOUNCES)


def set_bounces(count):
    cycles = bpy.context.scene.cycles
    cycles.max_bounces = cycles.diffuse_bounces = cycles.transmission_bounces = count


def add(corners, faces, material, seen=False):
    mesh = bpy.data.meshes.new("thing")
    mesh.from_pydata(corners, [], faces)
    mesh.materials.append(material)
    thing = bpy.data.objects.new("thing", mesh)
    thing.visible_camera = seen
    bpy.context.scene.collection.objects.link(thing)


def shader():
    material = bpy.data.materials.new("surface")
    material.use_nodes = True
    nodes, links = material.node_tree.nodes, material.node_tree.links
    nodes.clear()
    return material, nodes, links, nodes.new("ShaderNodeOutputMaterial").inputs["Surface"]


def grey(nodes, kind, share):
    node = nodes.new(kind)
    node.inputs["Color"].default_value = (share, share, share, 1)
    return node


def diffuse(reflectance, transmittance=0):
    """Lambertian on both sides; what is neither sent back nor let through is absorbed."""
    material, nodes, links, out = shader()
    back = grey(nodes, "ShaderNodeBsdfDiffuse", reflectance)
    if transmittance == 0:
        links.new(back.outputs[0], out)
        return material
    both = nodes.new("ShaderNodeAddShader")
    links.new(back.outputs[0], both.inputs[0])
    links.new(grey(nodes, "ShaderNodeBsdfTranslucent", transmittance).outputs[0], both.inputs[1])
    links.new(both.outputs[0], out)
    return material


def emitter(radiance):
    """Sends out from its front alone; its back is black, and neither side reflects."""
    material, nodes, links, out = shader()
    front = grey(nodes, "ShaderNodeEmission", 1)
    front.inputs["Strength"].default_value = radiance
    side = nodes.new("ShaderNodeMixShader")
    links.new(nodes.new("ShaderNodeNewGeometry").outputs["Backfacing"], side.inputs[0])
    links.new(front.outputs[0], side.inputs[1])
    links.new(grey(nodes, "ShaderNodeBsdfDiffuse", 0).outputs[0], side.inputs[2])
    links.new(side.outputs[0], out)
    return material


def rectangle(panel):
    right, up, _ = frame(panel)
    across, along = 0.5 * panel["width"] * right, 0.5 * panel["height"] * up
    centre = Vector(panel["centre"])
    return [centre + i * across + j * along for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]


def disc(light):
    right, up, _ = frame(light)
    centre = Vector(light["centre"])
    radius = light["radius"] * math.sqrt(2 * math.pi / (RIM * math.sin(2 * math.pi / RIM)))
    rim = []
    for i in range(RIM):
        a = 2 * math.pi * i / RIM
        rim.append(centre + radius * (math.cos(a) * right + math.sin(a) * up))
    return [centre, *rim], [(0, 1 + i, 1 + (i + 1) % RIM) for i in range(RIM)]


def room(box):
    x, y, z = box["size"]
    corners = [(i * x, j * y, k * z) for k in (0, 1) for j in (0, 1) for i in (0, 1)]
    add(corners, [(0, 1, 3, 2)], diffuse(box["floor"]))
    add(corners, [(4, 6, 7, 5)], diffuse(box["ceiling"]))
    add(corners, [(0, 4, 5, 1), (1, 5, 7, 3), (3, 7, 6, 2), (2, 6, 4, 0)], diffuse(box["walls"]))


def place_camera(camera):
    lens = bpy.data.cameras.new("camera")
    lens.type = "ORTHO"
    lens.ortho_scale = max(camera["width"], camera["height"])
    lens.clip_start, lens.clip_end = 0.001, 100
    eye = bpy.data.objects.new("camera", lens)
    right, up, forward = frame(camera)
    # a Blender camera looks along its own -z, with x to its right: the mirror of `right`, which faces the camera
    eye.matrix_world = Matrix((-right, up, -forward)).transposed().to_4x4()
    eye.matrix_world.translation = Vector(camera["centre"])
    bpy.context.scene.collection.objects.link(eye)
    bpy.context.scene.camera = eye


def render(samples, seed):
    """One picture: rows from the top, three channels a pixel; and the seconds that the render call took."""
    scene = bpy.context.scene
    scene.cycles.samples, scene.cycles.seed = samples, seed
    with tempfile.TemporaryDirectory() as folder:
        scene.render.filepath = os.path.join(folder, "picture.exr")
        start = time.perf_counter()
        bpy.ops.render.render(write_still=True)
        seconds = time.perf_counter() - start
        image = bpy.data.images.load(scene.render.filepath)
        image.colorspace_settings.name = "Raw"
        width, height = image.size
        flat = list(image.pixels)
        bpy.data.images.remove(image)
    rows = [[flat[4 * (j * width + i) : 4 * (j * width + i) + 3] for i in range(width)] for j in range(height)]
    return rows[::-1], seconds


def positions():
    """The place that Cycles itself sees in each pixel: everything shines with its own position (moved to be positive)."""
    material, nodes, links, out = shader()
    moved = nodes.new("ShaderNodeVectorMath")
    moved.inputs[1].default_value = (MOVED, MOVED, MOVED)
    shine = nodes.new("ShaderNodeEmission")
    links.new(nodes.new("ShaderNodeNewGeometry").outputs["Position"], moved.inputs[0])
    links.new(moved.outputs[0], shine.inputs["Color"])
    links.new(shine.outputs[0], out)
    layer = bpy.context.view_layer
    layer.material_override = material
    picture, _ = render(1, 0)
    layer.material_override = None
    return [[None if sum(p) == 0 else [x - MOVED for x in p] for p in row] for row in picture]

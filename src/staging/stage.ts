/** plan + figure -> engine buffers: the one crossing. */
import { type Rgb, type Scene, SceneBuilder, Tracer } from "../engine/index.ts";
import { MATERIAL } from "../figure/index.ts";
import { labRgb, toneRgb } from "../photometry/index.ts";
import {
  axesOf,
  directionOf,
  type Panel,
  type Plan,
  type Reflectance,
  type SkinReflectance,
} from "../plan/index.ts";
import { backdropMesh } from "./backdrop.ts";
import { emitterOf, type StagedLight, stageLight } from "./lights.ts";
import { PERSON_PARTS, type PersonPart, patchedPart, type StagedPerson, stagePerson } from "./people.ts";

/** What a mesh of the scene is a part of. */
export type Owner = { kind: "backdrop" } | { kind: PersonPart; person: number };

export interface Stage {
  readonly plan: Plan;
  readonly scene: Scene;
  readonly tracer: Tracer;
  readonly people: readonly StagedPerson[];
  readonly lights: readonly StagedLight[];
  /** per mesh of the scene, in order */
  readonly owners: readonly Owner[];
  /** per mesh of the scene: reflectance of each of its materials */
  readonly looks: readonly (readonly Rgb[])[];
  /** lx.s of the uniform ambient light during the shutter, as a flat receptor reads it */
  readonly ambient: number;
}

/** Widest patch of wall and of panel, metres: coarse enough to drag, fine enough for 2 % in a 4 m cube. */
const WALL_CELL = 1;
const PANEL_CELL = 0.45;

/** Sets a plan up. `without` leaves one person away (a light map, the light at the bridge of a nose); `people` are those
 * of the plan, staged before. */
export function stage(
  plan: Plan,
  without = -1,
  people: readonly StagedPerson[] = plan.people.map((person) => stagePerson(person, plan)),
): Stage {
  const builder = new SceneBuilder();
  const room = plan.room;
  if (room) {
    const r = room.reflectance;
    // the order of WALL
    const stops = room.calibration?.bounceStops ?? 0;
    const walls = [r.near, r.far, r.left, r.right, r.floor, r.ceiling].map((wall) => asMeasured(wall, stops));
    builder.addRoom([room.width, room.depth, room.height], walls, room.bounce, WALL_CELL);
  }
  const owners: Owner[] = [];
  const looks: (readonly Rgb[])[] = [];
  if (plan.backdrop) {
    const look = [rgbOf(plan.backdrop.reflectance)];
    builder.addMesh(backdropMesh(plan.backdrop), IDENTITY, new Float64Array(3), look);
    owners.push({ kind: "backdrop" });
    looks.push(look);
  }
  for (const panel of plan.panels) addPanel(builder, panel);
  people.forEach((p, person) => {
    if (person === without) return;
    const look = materialsOf(plan, person);
    for (const kind of PERSON_PARTS) {
      const mesh = patchedPart(p, kind);
      if (!mesh) continue;
      if (kind === "body") builder.addMesh(mesh, p.bodyRotation, p.bodyOffset, look);
      else builder.addMesh(mesh, p.headRotation, p.headOffset, look);
      owners.push({ kind, person });
      looks.push(look);
    }
  });
  for (const light of plan.lights) builder.addEmitter(emitterOf(light, plan));
  const scene = builder.build();
  return {
    plan,
    scene,
    tracer: new Tracer(scene),
    people,
    lights: plan.lights.map((light) => stageLight(light, plan)),
    owners,
    looks,
    ambient: plan.ambient.lux * plan.camera.shutter,
  };
}

/** First patch of a person and how many: people come last in a scene, one after the other. */
export function patchesOf({ people, scene }: Stage, person: number): [number, number] {
  const counts = people.map((who) =>
    PERSON_PARTS.reduce((sum, part) => sum + (patchedPart(who, part)?.patchCount ?? 0), 0),
  );
  const from = counts.slice(person).reduce((a, b) => a + b, 0);
  return [scene.patches.count - from, counts[person]];
}

const IDENTITY = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);

export function rgbOf(reflectance: Reflectance): Rgb {
  return typeof reflectance === "number" ? [reflectance, reflectance, reflectance] : reflectance;
}

/** A wall that sends so many stops more back than is written: r / (1 - r) times 2^stops, so that it never sends back more
 * than arrives.
 * Source  light that goes round in a closed even room: E r / (1 - r), integrating sphere */
function asMeasured(reflectance: Reflectance, stops: number): Rgb {
  const [r, g, b] = rgbOf(reflectance);
  if (stops === 0) return [r, g, b];
  const back = (x: number) => (2 ** stops * x) / (1 - x + 2 ** stops * x);
  return [back(r), back(g), back(b)];
}

/** Linear rgb reflectance of skin, however it was told: measured, by class, or as a patch. */
export function skinRgb(reflectance: SkinReflectance): Rgb {
  if (typeof reflectance === "number" || Array.isArray(reflectance)) return rgbOf(reflectance);
  return "tone" in reflectance ? toneRgb(reflectance.tone) : labRgb(reflectance.lab);
}

function addPanel(builder: SceneBuilder, panel: Panel) {
  const { bearing_deg, tilt_deg } = directionOf(panel.direction, panel.position);
  const axes = axesOf(bearing_deg, tilt_deg, panel.roll);
  builder.addPanel(
    {
      centre: Float64Array.from(panel.position),
      right: Float64Array.from(axes.right),
      up: Float64Array.from(axes.up),
      forward: Float64Array.from(axes.forward),
    },
    panel.width,
    panel.height,
    rgbOf(panel.reflectance),
    panel.transmittance,
    PANEL_CELL,
  );
}

/** Reflectances by material. Skin, hair and clothing come from the plan; the others are typical values: the white of an
 * eye 0.6, a dark iris, a black pupil, a dark frame; lips are the skin with less green and blue, save where skin is
 * told as one number and all is grey (common practice, no source). */
function materialsOf(plan: Plan, person: number): Rgb[] {
  const p = plan.people[person];
  const skin = skinRgb(p.skin.reflectance);
  const list: Rgb[] = [];
  list[MATERIAL.skin] = skin;
  list[MATERIAL.clothing] = rgbOf(p.clothing.reflectance);
  list[MATERIAL.hair] = rgbOf(p.hair.reflectance);
  list[MATERIAL.sclera] = [0.6, 0.6, 0.6];
  list[MATERIAL.iris] = [0.07, 0.07, 0.07];
  list[MATERIAL.pupil] = [0.01, 0.01, 0.01];
  list[MATERIAL.lip] =
    typeof p.skin.reflectance === "number" ? skin : [skin[0] * 0.9, skin[1] * 0.72, skin[2] * 0.75];
  list[MATERIAL.spectacleFrame] = [0.05, 0.05, 0.05];
  return list;
}

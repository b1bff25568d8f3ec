import { describe, expect, test } from "vitest";
import { HIT } from "../engine/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { stage } from "../staging/index.ts";
import { alongHead, toWorld } from "./head-axes.ts";
import { Memory, readPlan } from "./index.ts";
import { lightUp } from "./lighting.ts";
import { noseShadow } from "./nose-shadow.ts";

const DEGREE = Math.PI / 180;

/** One light so far from the bridge of the nose, degrees round to own left and up; the head straight. */
function planAt(azimuth: number, elevation: number, distance: number, width = 0.1): Plan {
  const sitter = { name: "sitter", position: [0, 0], stature: 1.7, facing: 180 };
  const bare = checkPlan({ format: "tapemark/plan", version: 1, people: [sitter], lights: [] });
  if (!bare.ok) throw new Error(JSON.stringify(bare.problems));
  const [person] = stage(bare.plan).people;
  const bridge = person.shape.head.landmarks.noseBridge;
  const [a, e] = [azimuth * DEGREE, elevation * DEGREE];
  const way = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
  const position = toWorld(
    person,
    [0, 1, 2].map((k) => bridge[k] + distance * way[k]),
  );
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [sitter],
    lights: [
      {
        name: "key",
        position,
        direction: { at: toWorld(person, bridge) },
        face: { shape: "disc", width },
        output: { lumenSeconds: 1000 },
      },
    ],
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const shadowAt = (azimuth: number, elevation: number, distance = 1.5) =>
  noseShadow(lightUp(planAt(azimuth, elevation, distance), "coarse", new Memory()), 0, 0);

/** The farthest shadowed place of a grid of a millimetre: skin that is turned to the light and from which the nose hides
 * its middle. By other rays than the code's: from the skin to the light, not along the nose. */
function farthestOnGrid(azimuth: number, elevation: number, distance = 1.5): number {
  const staged = stage(planAt(azimuth, elevation, distance));
  const [person] = staged.people;
  const { noseTip, noseBridge } = person.shape.head.landmarks;
  const [a, e] = [azimuth * DEGREE, elevation * DEGREE];
  const way = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
  const centre = way.map((x, k) => noseBridge[k] + distance * x);
  const thrown = [1, 2].map((k) => noseTip[k] - centre[k]);
  const size = Math.hypot(thrown[0], thrown[1]);
  const headMesh = staged.owners.findIndex((o) => o.kind === "head");
  const mesh = staged.scene.meshes[headMesh];
  const t = staged.tracer;
  const cast = (from: number[], along: number[], reach: number) => {
    const [o, d] = [toWorld(person, from), alongHead(person, along)];
    return (
      t.closest(o[0], o[1], o[2], d[0], d[1], d[2], reach, false) &&
      t.kind === HIT.mesh &&
      t.index === headMesh
    );
  };
  let best = -1;
  for (let left = -70; left <= 70; left++)
    for (let up = -75; up <= 40; up++) {
      const from = [noseTip[0] + 0.05, noseTip[1] + left / 1000, noseTip[2] + up / 1000];
      if (!cast(from, [-1, 0, 0], 0.2)) continue;
      const skin = [from[0] - t.t, from[1], from[2]];
      const normal = [0, 0, 0];
      for (let k = 0; k < 3; k++) {
        const v = 3 * mesh.triangles[3 * t.triangle + k];
        const w = k === 0 ? 1 - t.u - t.v : k === 1 ? t.u : t.v;
        for (let c = 0; c < 3; c++) normal[c] += w * mesh.normals[v + c];
      }
      const to = centre.map((x, k) => x - skin[k]);
      const length = Math.hypot(to[0], to[1], to[2]);
      const facing = (normal[0] * to[0] + normal[1] * to[1] + normal[2] * to[2]) / length;
      if (facing < 0.05) continue;
      const off = skin.map((x, k) => x + 1e-4 * normal[k]);
      if (
        !cast(
          off,
          to.map((x) => x / length),
          length,
        )
      )
        continue;
      const by = off.map((x, k) => x + (t.t * to[k]) / length);
      const isNose = Math.abs(by[1]) < 0.022 && by[2] < noseBridge[2] && by[2] > noseTip[2] - 0.02;
      if (!isNose || t.t < 0.005) continue;
      best = Math.max(best, (left * thrown[0] + up * thrown[1]) / size);
    }
  return best;
}

/** The outline's points lie up to 2 mm apart, the grid's 1 mm: together. */
const AGREE_MM = 3;

describe("the tip of the nose's shadow", () => {
  test.each([30, 45, 60])("[AP71] a light straight ahead and %i° up throws it down the middle", (up) => {
    const shadow = shadowAt(0, up);
    expect(Math.abs(shadow?.leftMillimetres ?? Number.NaN)).toBeLessThan(0.5);
    expect(shadow?.upMillimetres).toBeLessThan(-8);
  });

  test("[AP71] the higher the light, the farther down; the farther round, the farther aside", () => {
    const ups = [30, 45, 60].map((up) => shadowAt(0, up)?.upMillimetres ?? Number.NaN);
    expect(ups[0] - ups[1]).toBeGreaterThan(3);
    expect(ups[1] - ups[2]).toBeGreaterThan(3);
    const asides = [20, 30, 40].map((round) => shadowAt(round, 35)?.leftMillimetres ?? Number.NaN);
    expect(asides[0] - asides[1]).toBeGreaterThan(3);
    expect(asides[1] - asides[2]).toBeGreaterThan(3);
  });

  test.each([
    [25, 25],
    [40, 35],
  ])("[AP71] lights that mirror each other, %i° round and %i° up, throw mirrored shadows", (round, up) => {
    const [left, right] = [shadowAt(round, up), shadowAt(-round, up)];
    expect(left?.leftMillimetres).toBeLessThan(0);
    // the two halves' meshes are alike to less than rays tell
    expect(Math.abs((left?.leftMillimetres ?? 0) + (right?.leftMillimetres ?? 1))).toBeLessThan(0.5);
    expect(Math.abs((left?.upMillimetres ?? 0) - (right?.upMillimetres ?? 1))).toBeLessThan(0.5);
  });

  test.each([
    [0, 30, 1.5],
    [0, 45, 1.5],
    [0, 60, 1.5],
    [20, 30, 1.5],
    [30, 30, 0.7],
    [-30, 45, 3],
    [40, 35, 1.5],
    [35, 10, 1.5],
  ])(
    "[AP71] %i° round, %i° up, %f m: as far as the farthest shadowed point of a traced grid",
    (round, up, away) => {
      const shadow = shadowAt(round, up, away);
      if (shadow === null) throw new Error("no shadow");
      // along the way it is thrown, which for the tip is all but its distance from the nose
      const [a, e] = [round * DEGREE, up * DEGREE];
      const plan = planAt(round, up, away);
      const [person] = stage(plan).people;
      const { noseTip, noseBridge } = person.shape.head.landmarks;
      const l = noseBridge[1] + away * Math.cos(e) * Math.sin(a) - noseTip[1];
      const u = noseBridge[2] + away * Math.sin(e) - noseTip[2];
      const far = -(shadow.leftMillimetres * l + shadow.upMillimetres * u) / Math.hypot(l, u);
      expect(Math.abs(far - farthestOnGrid(round, up, away))).toBeLessThan(AGREE_MM);
    },
  );

  test.each([
    [0, 0, "flat light leaves it on the nose"],
    [50, 40, "Rembrandt's runs on into the dark side"],
    [90, 0, "light from the side loses it in the dark half"],
    [150, 20, "light from behind throws none"],
  ])("[AP71] %i° round, %i° up: none, for %s", (round, up) => {
    expect(shadowAt(round, up)).toBeNull();
  });

  test("[AP71] the reading tells it for the light that gives the face most, coarse and fine alike", () => {
    const plan = planAt(35, 35, 1.5, 0.9);
    const [coarse, fine] = (["coarse", "fine"] as const).map(
      (quality) => readPlan(plan, quality, new Memory()).people[0].face.noseShadow,
    );
    expect(coarse).toEqual(shadowAt(35, 35));
    expect(fine).toEqual(coarse);
    const dark = { ...plan, lights: plan.lights.map((light) => ({ ...light, on: false })) };
    expect(readPlan(dark, "coarse", new Memory()).people[0].face.noseShadow).toBeNull();
  });
});

import { describe, expect, it } from "vitest";
import { MATERIAL } from "../figure/index.ts";
import { labRgb, toneRgb } from "../photometry/index.ts";
import { checkPlan } from "../plan/index.ts";
import { partMesh, type Stage, skinRgb, stage } from "./index.ts";

function staged(...people: object[]): Stage {
  const document = {
    format: "tapemark/plan",
    version: 1,
    people: people.map((fields, i) => ({ position: [1 + i, 4], ...fields })),
    camera: { position: [1.5, 1, 1.5] },
  };
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return stage(checked.plan);
}

const DRESSED = { hair: { length: "shoulder", reflectance: [0.2, 0.12, 0.06] }, glasses: {} };

describe("[ST4] what a person consists of", () => {
  const bare = staged({}, {});
  const dressed = staged({}, DRESSED, { hair: { length: "short" } });

  it("[ST4] bare heads: a head and a body each", () =>
    expect(bare.owners).toEqual([
      { kind: "head", person: 0 },
      { kind: "body", person: 0 },
      { kind: "head", person: 1 },
      { kind: "body", person: 1 },
    ]));
  it("[ST4] hair and glasses follow where there are any, each with its own mesh, in the owners' order", () => {
    expect(dressed.owners.map((o) => ("person" in o ? `${o.kind} ${o.person}` : o.kind))).toEqual([
      "head 0",
      "body 0",
      "head 1",
      "body 1",
      "hair 1",
      "glasses 1",
      "head 2",
      "body 2",
      "hair 2",
    ]);
    expect(dressed.scene.meshes.length).toBe(dressed.owners.length);
    expect(dressed.looks.length).toBe(dressed.owners.length);
    dressed.owners.forEach((owner, i) => {
      if (owner.kind === "backdrop") throw new Error("no backdrop was asked for");
      const mesh = partMesh(dressed.people[owner.person], owner.kind);
      expect(dressed.scene.meshes[i].positions).toBe(mesh?.positions);
    });
  });
  it("[ST4] hair has the plan's reflectance, a frame is dark, and every material of a mesh has one", () => {
    expect(dressed.looks[4][MATERIAL.hair]).toEqual([0.2, 0.12, 0.06]);
    expect(dressed.looks[8][MATERIAL.hair]).toEqual([0.05, 0.05, 0.05]);
    expect(dressed.looks[5][MATERIAL.spectacleFrame]).toEqual([0.05, 0.05, 0.05]);
    for (const material of Object.values(MATERIAL)) expect(dressed.looks[0][material].length).toBe(3);
  });
  it("[ST4] hair and frame hang from the head that they belong to", () => {
    const { scene } = staged({ ...DRESSED, head: { turn: 40, tip: -10 } });
    for (const i of [2, 3]) {
      expect(scene.meshes[i].rotation).toEqual(scene.meshes[0].rotation);
      expect(scene.meshes[i].offset).toEqual(scene.meshes[0].offset);
    }
  });
  it("[ST4] ends of long hair lie on the same shoulders, however the head turns", () => {
    const lowest = (turn: number) => {
      const { people } = staged({ ...DRESSED, head: { turn } });
      const { hairMesh, headRotation: m, headOffset } = people[0];
      if (!hairMesh) throw new Error("no hair");
      const { positions: p } = hairMesh;
      const out: number[][] = [];
      for (let v = 0; v < p.length; v += 3)
        // 145 mm under the ears and lower: under the collar's plane all round
        if (p[v + 2] < -0.145)
          out.push(
            [0, 1, 2].map(
              (i) => headOffset[i] + m[3 * i] * p[v] + m[3 * i + 1] * p[v + 1] + m[3 * i + 2] * p[v + 2],
            ),
          );
      return out;
    };
    const [ahead, aside] = [lowest(0), lowest(35)];
    expect(ahead.length).toBeGreaterThan(200);
    expect(aside.length).toBe(ahead.length);
    ahead.forEach((p, i) => {
      p.forEach((c, k) => {
        expect(aside[i][k]).toBeCloseTo(c, 9);
      });
    });
  });
  it("[ST4] somebody taken away takes hair and glasses along", () => {
    const { plan } = dressed;
    expect(stage(plan, 1).owners.some((o) => "person" in o && o.person === 1)).toBe(false);
  });
  it("[ST4] head size and eye height go into the shape", () => {
    const { people } = staged({ headSize: 95 }, { headSize: 5 });
    expect(people[0].shape.head.scale).toBeGreaterThan(1.05);
    expect(people[1].shape.head.scale).toBeLessThan(0.95);
  });
});

describe("[ST5] skin's reflectance", () => {
  it("[ST5] a number is grey, three are themselves, a class and a patch are looked up", () => {
    expect(skinRgb(0.36)).toEqual([0.36, 0.36, 0.36]);
    expect(skinRgb([0.5, 0.3, 0.2])).toEqual([0.5, 0.3, 0.2]);
    expect(skinRgb({ tone: "tan" })).toEqual(toneRgb("tan"));
    expect(skinRgb({ lab: [55, 12, 18] })).toEqual(labRgb([55, 12, 18]));
  });
  it("[ST5] reaches the scene, and lips are redder than the skin they are made from", () => {
    const { looks } = staged({ skin: { reflectance: { tone: "brown" } } });
    const [skin, lip] = [looks[0][MATERIAL.skin], looks[0][MATERIAL.lip]];
    expect(skin).toEqual(toneRgb("brown"));
    expect(lip[0] / lip[1]).toBeGreaterThan(skin[0] / skin[1]);
  });
});

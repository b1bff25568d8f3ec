/** What may join a main light: a second light at usual places, or a panel beside the face. Each is worked out once. */
import { luminanceAt } from "../photometry/index.ts";
import { bearingVector, type Light, type Panel, type Vec3 } from "../plan/index.ts";
import { touchedBy, wallBefore } from "./obstacles.ts";
import { backgroundOf } from "./search-background.ts";
import type { Head, Search } from "./search-brief.ts";
import type { Second } from "./search-join.ts";
import type { FaceModel } from "./search-model.ts";
import { bridgeOf, Clearances, placedAt, worldWay } from "./search-place.ts";

const DEGREE = Math.PI / 180;

/** Round the head on either side, up, and off: near the lens, on the shadow side, from the side. */
const FILL_AROUND = [0, 25, 55, 90] as const;
const FILL_UP = [10, 35] as const;
const FILL_FAR_M = [1.3, 2.2, 3.5] as const;

/** Second lights where they may stand. */
export function secondLights(search: Search, model: FaceModel, head: Head, front: Light): Second[] {
  const background = search.want.backgroundStops === null ? null : backgroundOf(model.plan, search.person);
  const clear = new Clearances(model.plan);
  const out: Second[] = [];
  for (const around of FILL_AROUND)
    for (const sign of around === 0 ? [1] : [1, -1])
      for (const up of FILL_UP)
        for (const distance_m of FILL_FAR_M) {
          const spot = { azimuth_deg: sign * around, elevation_deg: up, distance_m, past_m: 0 };
          const light = placedAt(model.staged, front, spot);
          if (clear.obstacle(light, head.stand) !== null) continue;
          const row = model.newRow();
          model.writeLight(light, row);
          if (row.left > 0 || row.right > 0)
            out.push({ kind: "light", head, light, row, shine: background?.shine(light) ?? 0 });
        }
  return out;
}

/** Off the paper or wall behind the head, beside it, and up: metres. */
const BEHIND_OFF_M = [0.6, 1, 1.6] as const;
const BEHIND_ASIDE_M = [-1.6, -0.9, 0.9, 1.6] as const;
const BEHIND_UP_M = [0.7, 1.4, 2.2] as const;

/** Lights turned to what is behind the head. */
export function backgroundLights(search: Search, model: FaceModel, head: Head, front: Light): Second[] {
  const background = backgroundOf(model.plan, search.person);
  const count = background.places.length;
  if (count === 0) return [];
  const mean = (pick: (place: (typeof background.places)[number]) => Vec3): Vec3 =>
    [0, 1, 2].map((k) => background.places.reduce((sum, place) => sum + pick(place)[k], 0) / count) as Vec3;
  const middle = mean(({ at }) => at);
  const normal = mean(({ normal: n }) => n);
  const flat = Math.hypot(normal[0], normal[1]);
  if (!(flat > 0)) return [];
  const [nx, ny] = [normal[0] / flat, normal[1] / flat];
  const at = middle.map(centimetre) as Vec3;
  const clear = new Clearances(model.plan);
  const out: Second[] = [];
  for (const off of BEHIND_OFF_M)
    for (const aside of BEHIND_ASIDE_M)
      for (const up of BEHIND_UP_M) {
        const position: Vec3 = [
          centimetre(middle[0] + off * nx - aside * ny),
          centimetre(middle[1] + off * ny + aside * nx),
          up,
        ];
        const light = { ...front, position, direction: { at } };
        if (clear.obstacle(light, head.stand) !== null) continue;
        const shine = background.shine(light);
        if (!(shine > 0)) continue;
        const row = model.newRow();
        model.writeLight(light, row);
        out.push({ kind: "background", head, light, row, shine });
      }
  return out;
}

const PANEL_AROUND = [50, 75, 100] as const;
const OVER_FACE_M = 0.2;
const PANEL_FAR_M = [0.45, 0.6, 0.8, 1.1, 1.5] as const;

/** A panel on its edge beside the face, turned to it. */
export function panelsBeside(model: FaceModel, panel: Panel): Second[] {
  const clear = new Clearances(model.plan);
  const face = bridgeOf(model.staged);
  // a board that reaches over the face stands on the floor; a smaller one is held with its middle there
  const up_m = panel.height > face[2] + OVER_FACE_M ? panel.height / 2 : face[2];
  const out: Second[] = [];
  for (const around of PANEL_AROUND)
    for (const sign of [1, -1])
      for (const far of PANEL_FAR_M) {
        const way = worldWay(model.staged, sign * around, 0);
        const flat = Math.hypot(way[0], way[1]);
        if (!(flat > 0)) continue;
        const position: Vec3 = [
          centimetre(face[0] + (far * way[0]) / flat),
          centimetre(face[1] + (far * way[1]) / flat),
          centimetre(up_m),
        ];
        const bearing = Math.round(Math.atan2(-way[0], -way[1]) / DEGREE);
        const placed = { ...panel, position, direction: { bearing, tilt: 0 }, roll: 0 };
        if (!panelStands(model, placed, clear)) continue;
        const row = model.newRow();
        model.writePanel(placed, grey(panel.reflectance), row);
        out.push({ kind: "panel", panel: placed, facing: bearingVector(bearing, 0), side: sign, row });
      }
  return out;
}

const centimetre = (x: number) => Math.round(100 * x) / 100;

function grey(reflectance: Panel["reflectance"]): number {
  return typeof reflectance === "number" ? reflectance : luminanceAt(reflectance);
}

function panelStands({ plan }: FaceModel, panel: Panel, clear: Clearances): boolean {
  if (clear.isInFrame(panel)) return false;
  const bearing = "bearing" in panel.direction ? panel.direction.bearing : 0;
  const [s, c] = [Math.sin(bearing * DEGREE), Math.cos(bearing * DEGREE)];
  for (const a of [-0.5, -0.25, 0, 0.25, 0.5])
    for (const b of [-0.5, -0.25, 0, 0.25, 0.5]) {
      const p: Vec3 = [
        panel.position[0] + a * panel.width * c,
        panel.position[1] - a * panel.width * s,
        panel.position[2] + b * panel.height,
      ];
      if (wallBefore(plan, p) !== null) return false;
    }
  return touchedBy(plan, panel) === null;
}

/** Why a wish is not met: the limit that stopped it, with the best that it leaves. */
import type { Light, Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import type { Search } from "./search-brief.ts";
import { type Judged, meteredFNumber, type Seen } from "./search-judge.ts";
import type { FaceModel } from "./search-model.ts";
import { Clearances, type Obstacle, placedAt, spotOf } from "./search-place.ts";

export function whyNot(
  wish: Judged,
  search: Search,
  model: FaceModel,
  plan: Plan,
  seen: Seen,
): string | null {
  const main = plan.lights.find((light) => light.name === seen.strongest);
  if (main === undefined) return null;
  if (wish === "fNumber") return dialWhy(search, main, seen);
  if (wish === "pattern" || wish === "catchlight") return heightWhy(search, model, main);
  return null;
}

/** At the end of its dial. */
function dialWhy({ heads, want }: Search, main: Light, seen: Seen): string | null {
  const head = heads.find(({ name }) => name === main.name);
  const got = meteredFNumber(seen);
  if (head === undefined || want.fNumber === null) return null;
  const { from, to } = want.fNumber;
  if (from !== null && got < from) return `power: full power gives ${formatFStops(got)} at most from there`;
  if (to !== null && got > to) return `power: the least power gives ${formatFStops(got)} from there`;
  return null;
}

/** How steeply the light may stand where it stands, if that is less than steep. */
function heightWhy({ heads }: Search, model: FaceModel, main: Light): string | null {
  const head = heads.find(({ name }) => name === main.name);
  if (head === undefined) return null;
  const clear = new Clearances(model.plan);
  const spot = spotOf(model.staged, main);
  let best: number | null = null;
  let stopped: Obstacle | null = null;
  for (let elevation_deg = 0; elevation_deg <= STEEP_DEG; elevation_deg++) {
    const obstacle = clear.obstacle(placedAt(model.staged, main, { ...spot, elevation_deg }), head.stand);
    if (obstacle === null) best = elevation_deg;
    else if (best !== null) {
      stopped = obstacle;
      break;
    }
  }
  if (stopped === null || best === null || !(stopped in TOLD)) return null;
  return `${TOLD[stopped]}: the best elevation possible is ${best}° at ${spot.distance_m.toFixed(1)} m`;
}

/** Steeper than any pattern asks for. */
const STEEP_DEG = 75;
const TOLD: Readonly<Partial<Record<Obstacle, string>>> = {
  ceiling: "ceiling",
  stand: "stand",
  wall: "wall",
  frame: "frame",
};

/** A set-up traced with everything in it, its powers and lens set to what the face then gets. */
import type { Light, Plan } from "../plan/index.ts";
import { strongestLight } from "../reading/face.ts";
import { faceShares } from "../reading/face-light.ts";
import { fullTrier, type Memory, type Trier, type TryReading } from "../reading/index.ts";
import { lightUp } from "../reading/lighting.ts";
import { shadowEdgeMillimetres } from "../reading/shadow-edge.ts";
import type { Head, Search } from "./search-brief.ts";
import { costOf, meteredFNumber, type Seen } from "./search-judge.ts";
import type { FaceModel } from "./search-model.ts";
import { dialled, exposureWanted, onDial } from "./search-power.ts";

export interface Traced {
  readonly plan: Plan;
  readonly seen: Seen;
  readonly cost: number;
}

export class Tracing {
  private readonly full: Trier;

  constructor(
    readonly search: Search,
    readonly model: FaceModel,
    private readonly effort: "coarse" | "fine",
    private readonly memory: Memory,
  ) {
    this.full = fullTrier(search.person, effort, memory);
  }

  /** Neither powers nor lens trace anything again. */
  of(as: Plan): Traced {
    const { search, model, full } = this;
    let plan = as;
    let reading = full.read(plan);
    const stops = Math.log2(reading.litCheek / exposureWanted(search));
    const turned = Number.isFinite(stops) ? turnedDown(search, model, plan, stops) : plan;
    if (turned !== plan) {
      plan = turned;
      reading = full.read(plan);
    }
    const lens = lensFor(meteredFNumber({ reading, iso: plan.camera.iso, strongest: null }));
    if (lens !== plan.camera.fNumber) {
      plan = { ...plan, camera: { ...plan.camera, fNumber: lens } };
      reading = full.read(plan);
    }
    const seen = this.seen(plan, reading);
    return { plan, seen, cost: costOf(search.want, seen) };
  }

  /** With the strongest light, and the edge of the nose's shadow, which a coarse reading leaves out. */
  private seen(plan: Plan, reading: TryReading): Seen {
    const { search, effort, memory } = this;
    const { person } = search;
    const lighting = lightUp(plan, effort, memory);
    const main = strongestLight(lighting, faceShares(lighting, person).direct);
    const isAsked = search.want.shadowEdgeMillimetres !== null && main >= 0 && effort === "coarse";
    const edge = isAsked
      ? shadowEdgeMillimetres(lighting, person, main, reading.litSide === "right" ? -1 : 1)
      : reading.shadowEdgeMillimetres;
    return {
      reading: { ...reading, shadowEdgeMillimetres: edge },
      iso: plan.camera.iso,
      strongest: plan.lights[main]?.name ?? null,
    };
  }
}

/** Every light that was placed turned down by as much, in steps of its dial. */
function turnedDown(search: Search, model: FaceModel, plan: Plan, stops: number): Plan {
  let isChanged = false;
  const lights = plan.lights.map((light) => {
    const head = headOf(search, light);
    if (head === null || isPinnedHere(model, light)) return light;
    const full = fullOf(head, light);
    const down = Math.log2(model.lumensOf(full) / model.lumensOf(light));
    const next = onDial(down + stops, head.dial);
    if (Math.abs(next - down) < 1e-6) return light;
    isChanged = true;
    return dialled(full, next);
  });
  return isChanged ? { ...plan, lights } : plan;
}

export function isPinnedHere({ plan }: FaceModel, light: Light): boolean {
  return plan.lights.some((other) => other.name === light.name);
}

export function headOf({ heads }: Search, light: Light): Head | null {
  return heads.find((head) => head.name === light.name) ?? null;
}

/** The same light where it stands, at full power. */
export function fullOf(head: Head, light: Light): Light {
  const key = JSON.stringify([light.face, light.beam]);
  const front = head.fronts.find((f) => JSON.stringify([f.face, f.beam]) === key) ?? head.fronts[0];
  return { ...front, position: light.position, direction: light.direction };
}

const TENTHS = 20;
/** Engraved stop plus tenths, as the lens is set. */
function lensFor(fNumber: number): number {
  const f = Math.max(0.7, Math.min(64, fNumber));
  return Number((2 ** (Math.round(TENTHS * Math.log2(f)) / TENTHS)).toFixed(4));
}

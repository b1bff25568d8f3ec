/** A brief made from what was read: the same look, to be searched for. */
import { type Brief, emptyBrief, type Gear, type Plan, type Span } from "../plan/index.ts";
import { checkedPlan } from "./replan-fit.ts";
import { cheekFNumber, faceOf, KEPT_STOPS, type ReadPlan } from "./replan-kept.ts";

/** Degrees either way within which light comes from the same place: a third of an hour of the catchlight's clock. */
const DIRECTION_DEG = 10;
/** Of the shadow's edge, either way. */
const EDGE_SHARE = 0.3;

/** The plan as it is searched in: camera and people stay, the wishes are the numbers that were read of `look`. */
export function searchFor(plan: Plan, look: ReadPlan, person: number, gear: Gear | null): Plan {
  const brief = plan.brief ?? emptyBrief();
  return checkedPlan({
    ...plan,
    // what is measured of a light is measured of that head; the search takes heads as they are written
    camera: { ...plan.camera, pinned: true },
    people: plan.people.map((own) => ({ ...own, pinned: true })),
    brief: { ...brief, person, want: wantOf(look, person, brief), gear },
  });
}

function wantOf(look: ReadPlan, person: number, { want }: Brief): Brief["want"] {
  const face = faceOf(look, person);
  const { azimuth, elevation } = face.light;
  const edge = face.shadowEdgeMillimetres;
  const fNumber = cheekFNumber(look.plan, face);
  // half of what is kept: the dial's steps take the rest
  const lens = 2 ** (KEPT_STOPS.litCheek / 2);
  return {
    ...emptyBrief().want,
    headroomStops: Math.min(want.headroomStops, look.reading.camera.headroomStops ?? want.headroomStops),
    pattern: face.pattern === "dark" ? null : face.pattern,
    litSide: face.litSide === "even" ? null : face.litSide,
    ratioStops: about(face.ratioStops, KEPT_STOPS.ratio, 0, 10),
    shadowEdgeMillimetres: about(edge, EDGE_SHARE * (edge ?? 0), 0, 60),
    backgroundStops: about(look.reading.camera.backgroundStops, KEPT_STOPS.background, -12, 8),
    fNumber: fNumber >= 0.7 && fNumber <= 64 ? { from: fNumber / lens, to: fNumber * lens } : null,
    azimuth: about(azimuth, DIRECTION_DEG, -180, 180),
    elevation: about(elevation, DIRECTION_DEG, -90, 90),
  };
}

function about(value: number | null, by: number, least: number, most: number): Span | null {
  if (value === null) return null;
  return { from: Math.max(least, value - by), to: Math.min(most, value + by) };
}

/** The set-up that was found, with what was fixed for the search only as it was: pins, aperture, what was asked for. */
export function foundPlan(found: Plan, from: Plan, gear: Gear | null): Plan {
  const brief = gear === null ? from.brief : { ...(from.brief ?? emptyBrief()), gear };
  return checkedPlan({
    ...found,
    camera: { ...found.camera, fNumber: from.camera.fNumber, pinned: from.camera.pinned },
    people: found.people.map((own, i) => ({ ...own, pinned: from.people[i]?.pinned ?? own.pinned })),
    brief,
  });
}

/** What a hold zone is held to, and what of it is not as asked somewhere. */
import type { Brief, Plan } from "../plan/index.ts";
import type { MovedCheeks, MovedReading, PlanReading } from "../reading/index.ts";
import type { Judged } from "./hold-search.ts";
import type { HoldLimit, HoldZone } from "./types.ts";

/** As the brief has them when it says nothing: thirds in the six decimals of a file. */
export const HOLD_TOLERANCES: Brief["hold"] = {
  exposureStops: 0.333333,
  ratioStops: 0.333333,
  headroomStops: 0,
};

/** What is asked of a place: the plan's own light, as closely as its brief says. The pattern is the plan's own: one that
 * the brief wants is the same where it is met, and cannot be held where it is not. A ratio that is none is not asked,
 * and headroom only where it is there at the mark. */
export function askedOf(plan: Plan, reading: PlanReading, person: number): HoldZone["asked"] {
  const { exposureStops, ratioStops, headroomStops } = plan.brief?.hold ?? HOLD_TOLERANCES;
  const { face } = reading.people[person];
  const room = reading.camera.headroomStops;
  return {
    pattern: face.pattern,
    exposureStops,
    ratioStops: face.ratioStops === null ? null : ratioStops,
    headroomStops: room === null || room < headroomStops ? null : headroomStops,
  };
}

/** Judges the moved face against that at the mark. Cheeks that are past their limits say enough: the rest of the face is
 * not looked at there. */
export function judge(
  asked: HoldZone["asked"],
  atMark: MovedReading,
  roomAtMark: number | null,
): (there: MovedCheeks) => Judged {
  return (there) => {
    // the dark at the mark is nothing that could be held
    if (asked.pattern === "dark") return { limit: { by: "pattern", pattern: "dark" }, excess: {} };
    const cheeks = judgeCheeks(asked, atMark, there);
    return cheeks.limit === null
      ? judgeWhole(asked, atMark, roomAtMark, there.whole(), cheeks.excess)
      : cheeks;
  };
}

function judgeCheeks(asked: HoldZone["asked"], atMark: MovedReading, there: MovedCheeks): Judged {
  if (there.litCheek === 0) return { limit: { by: "pattern", pattern: "dark" }, excess: {} };
  const brighter = Math.log2(there.litCheek / atMark.litCheek);
  const exposure = Math.abs(brighter) - asked.exposureStops;
  const { ratioStops } = asked;
  if (ratioStops === null || atMark.ratioStops === null)
    return { limit: past("exposure", exposure, brighter, asked.exposureStops), excess: { exposure } };
  const more = (there.ratioStops ?? Number.POSITIVE_INFINITY) - atMark.ratioStops;
  const ratio = Math.abs(more) - ratioStops;
  return {
    limit:
      past("exposure", exposure, brighter, asked.exposureStops) ?? past("ratio", ratio, more, ratioStops),
    excess: { exposure, ratio },
  };
}

function past(by: "exposure" | "ratio", excess: number, change: number, stops: number): HoldLimit | null {
  return excess > 0 ? { by, stops: Math.sign(change) * stops } : null;
}

function judgeWhole(
  asked: HoldZone["asked"],
  atMark: MovedReading,
  roomAtMark: number | null,
  there: MovedReading,
  excess: Judged["excess"],
): Judged {
  if (there.pattern !== asked.pattern) return { limit: { by: "pattern", pattern: there.pattern }, excess };
  if (asked.headroomStops === null || roomAtMark === null) return { limit: null, excess };
  const headroom = asked.headroomStops - roomAtMark + Math.log2(there.brightest / atMark.brightest);
  return {
    limit: headroom > 0 ? { by: "headroom", stops: asked.headroomStops } : null,
    excess: { ...excess, headroom },
  };
}

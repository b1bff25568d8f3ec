/** From readings made on set to what lights and room really give. */
import { METER_CONSTANT } from "../photometry/index.ts";
import { knownBefore, type Plan, UNMEASURED_BOUNCE } from "../plan/index.ts";
import { gradient, type Observation, predict, type Unknowns } from "./calibrate-model.ts";
import { nextReading, SURE, SURE_BOUNCE } from "./calibrate-next.ts";
import { type Evidence, gatherEvidence, type HeadOf, STRAIGHT } from "./calibrate-observe.ts";
import { type Row, type Solved, solve } from "./calibrate-solve.ts";
import { beamBounds, exponentAt } from "./calibrate-trace.ts";
import type { CalibratedLight, CalibrateOptions, Calibration, CheckedReading } from "./calibrate-types.ts";

/** A guess, before anything is known of a head (the product's rule 5), and of the light on its axis at the same energy where
 * readings tell how it spreads (common practice, no source). */
const GUESS = 1;
const BEAM_GUESS = 0.5;
/** What was known before and is at least so sure may be contradicted by readings. */
const FIRM = 0.5;
/** No head is further off than this, no room sends back so much more or less. */
const MOST_STOPS = 10;
const MOST_BOUNCE = 3;
/** Beam stops read on the axis and aside must differ by so much for a reading to tell one from the other. */
const ASIDE = 0.4;
/** A light has a hand in a reading from this share on. */
const A_HAND = 0.1;

/** What is learnt from the plan's readings and from test frames.
 * Errors  Stopped where `keepGoing` returns false; never NaN */
export function calibrate(plan: Plan, options: CalibrateOptions = {}): Calibration {
  const { frames = [], quality = "fine", memory, keepGoing = () => true } = options;
  const evidence = gatherEvidence(plan, frames, quality, memory, (done) => keepGoing(MOSTLY * done));
  const fitted = fitEvidence(plan, evidence);
  const last = (done: number) => keepGoing(MOSTLY + (1 - MOSTLY) * done);
  const next = nextReading(plan, { ...evidence, ...fitted, ...fitted.solved }, last);
  return { ...told(plan, evidence, fitted), next };
}

/** Share of the work that is tracing what was read. */
const MOSTLY = 0.8;

export interface Fitted {
  readonly unknowns: Unknowns;
  readonly solved: Solved;
  /** per thing observed its row, null where the plan cannot tell */
  readonly rowOf: readonly (number | null)[];
  /** per head the row of what was known firmly before, null where nothing was */
  readonly firmRow: readonly (number | null)[];
}

/** Weighs what was observed; traces nothing. */
export function fitEvidence(plan: Plan, { heads, observed }: Pick<Evidence, "heads" | "observed">): Fitted {
  const unknowns = unknownsOf(plan, heads, observed);
  const start = new Array<number>(unknowns.count).fill(0);
  const least = start.map(() => -MOST_STOPS);
  const most = start.map(() => MOST_STOPS);
  const rows: Row[] = [];
  const firmRow = heads.map(({ light, index }, h) => {
    const known = knownBefore(plan.lights[index] ?? light);
    const at = unknowns.stops[h];
    start[at] = known.stops;
    const isFirm = known.uncertaintyStops < FIRM;
    rows.push(beforehand(unknowns.count, at, known.stops, isFirm ? GUESS : known.uncertaintyStops, false));
    if (unknowns.beam[h] >= 0) {
      [least[unknowns.beam[h]], most[unknowns.beam[h]]] = beamBounds(light);
      rows.push(beforehand(unknowns.count, unknowns.beam[h], 0, BEAM_GUESS, false));
    }
    if (!isFirm) return null;
    return rows.push(beforehand(unknowns.count, at, known.stops, known.uncertaintyStops, true)) - 1;
  });
  if (unknowns.bounce >= 0) {
    least[unknowns.bounce] = -MOST_BOUNCE;
    most[unknowns.bounce] = MOST_BOUNCE;
    rows.push(beforehand(unknowns.count, unknowns.bounce, 0, UNMEASURED_BOUNCE, false));
  }
  const rowOf = observed.map(({ observation }) => {
    return observation && rows.push(rowFor(observation, unknowns)) - 1;
  });
  return { unknowns, solved: solve(rows, { start, least, most }), rowOf, firmRow };
}

function beforehand(
  count: number,
  index: number,
  stops: number,
  uncertaintyStops: number,
  mayBeWrong: boolean,
): Row {
  const slope = new Array<number>(count).fill(0);
  slope[index] = 1;
  return { stops, uncertaintyStops, mayBeWrong, predict: (at) => at[index], gradient: () => slope };
}

function rowFor(seen: Observation, unknowns: Unknowns): Row {
  return {
    stops: seen.stops,
    uncertaintyStops: seen.uncertaintyStops,
    mayBeWrong: true,
    predict: (at) => predict(seen, unknowns, at),
    gradient: (at) => gradient(seen, unknowns, at),
  };
}

function unknownsOf(plan: Plan, heads: readonly HeadOf[], observed: Evidence["observed"]): Unknowns {
  let count = 0;
  const stops = heads.map(() => count++);
  const beam = heads.map((head, h) => (spreadIsRead(head, h, observed) ? count++ : -1));
  const bounce = plan.room?.bounce === true ? count++ : -1;
  return { count, stops, beam, bounce };
}

/** Whether readings of this light alone run from its axis to well aside of it. */
function spreadIsRead({ light }: HeadOf, head: number, observed: Evidence["observed"]): boolean {
  if (beamBounds(light)[0] === beamBounds(light)[1]) return false;
  const slopes = observed.flatMap(({ observation }) => {
    if (observation === null || observation.under !== null) return [];
    const { terms } = observation.over;
    if (terms.length !== 1 || terms[0].head !== head) return [];
    const { aside, axis, bounced, direct } = terms[0];
    return direct > STRAIGHT * (direct + bounced) ? [axis + Math.LN2 * aside] : [];
  });
  return slopes.length > 2 && Math.max(...slopes) - Math.min(...slopes) > ASIDE;
}

function told(plan: Plan, { heads, observed }: Evidence, fitted: Fitted): Omit<Calibration, "next"> {
  const { firmRow, rowOf, solved, unknowns } = fitted;
  const sd = (unknown: number) => Math.sqrt(solved.covariance[unknown][unknown]);
  const isOut = new Set(solved.leftOut.flat());
  const readings = observed.map((each, i) => checkedReading(each, rowOf[i], fitted));
  const used = observed.flatMap(({ observation }, i) =>
    readings[i].state === "used" && observation ? [observation] : [],
  );
  const lights = plan.lights.map((light, index): CalibratedLight => {
    const h = heads.findIndex((head) => head.index === index);
    const [at, beam, firm] = [unknowns.stops[h], unknowns.beam[h], firmRow[h]];
    return {
      name: light.name,
      before: knownBefore(light),
      after: { stops: solved.at[at], uncertaintyStops: sd(at) },
      readings: used.filter((seen) => Math.abs(gradient(seen, unknowns, solved.at)[at]) >= A_HAND).length,
      beam:
        beam < 0
          ? null
          : {
              exponentBefore: light.beam.exponent,
              exponentAfter: exponentAt(light, solved.at[beam]),
              uncertaintyStops: sd(beam),
            },
      isContradicted: firm !== null && isOut.has(firm),
    };
  });
  const { bounce } = unknowns;
  const room =
    bounce < 0
      ? null
      : {
          before: { stops: 0, uncertaintyStops: UNMEASURED_BOUNCE },
          after: { stops: solved.at[bounce], uncertaintyStops: sd(bounce) },
        };
  const squares = used.map((seen) => (seen.stops - predict(seen, unknowns, solved.at)) ** 2);
  return {
    lights,
    room,
    readings,
    rmsStops: used.length === 0 ? null : Math.sqrt(squares.reduce((a, b) => a + b, 0) / used.length),
    unknown: [
      ...lights.filter(({ after }) => after.uncertaintyStops > 2 * SURE).map(({ name }) => name),
      ...(room !== null && room.after.uncertaintyStops > SURE_BOUNCE ? ["bounce"] : []),
    ],
  };
}

function checkedReading(
  { checked, observation, why }: Evidence["observed"][number],
  row: number | null,
  { unknowns, solved }: Fitted,
): CheckedReading {
  if (observation === null || row === null)
    return { ...checked, offBefore: null, offAfter: null, state: "not used", why };
  const nothing = new Array<number>(unknowns.count).fill(0);
  const group = solved.leftOut.find((rows) => rows.includes(row));
  const offAfter = observation.stops - predict(observation, unknowns, solved.at);
  const state = group === undefined ? "used" : group.length === 1 ? "singled out" : "in doubt";
  return {
    ...checked,
    offBefore: observation.stops - predict(observation, unknowns, nothing),
    offAfter,
    state,
    why: state === "singled out" && checked.kind === "reading" ? likelyCause(offAfter) : "",
  };
}

/** Dome and flat receptors of one frontal light: log2(340 / 250). */
const RECEPTORS_STOPS = Math.log2(METER_CONSTANT.dome / METER_CONSTANT.flat);
const NEAR = 0.15;

/** What it is mostly, to look at first (common practice, no source). */
function likelyCause(off: number): string {
  const size = Math.abs(off);
  if (Math.abs(size - RECEPTORS_STOPS) < NEAR)
    return "Dome and flat differ by as much: which of them was it? Read it again";
  if (size > 1 - NEAR && Math.abs(size - Math.round(size)) < NEAR)
    return "A whole number of stops: was the meter at another ISO, or the head at another power? Read it again";
  return off > 0
    ? "Did another light flash too? Read it again"
    : "Was something in the way, or did a light misfire? Read it again";
}

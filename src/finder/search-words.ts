/** What a set-up is called, and how far each wish is met, in words. */
import type { Light, Plan, Span } from "../plan/index.ts";
import { clockWords } from "../reading/catchlight-words.ts";
import { cropBoxes, patternName, usedPart } from "../reading/index.ts";
import { formatFStops, formatStops } from "../units/index.ts";
import type { Search } from "./search-brief.ts";
import {
  clockOff,
  JUDGED,
  type Judged,
  marginOf,
  meteredFNumber,
  type Seen,
  spreadOf,
} from "./search-judge.ts";
import type { FaceModel } from "./search-model.ts";
import { Clearances, spotOf } from "./search-place.ts";
import { whyNot } from "./search-why.ts";
import type { SetUpKind, WishMet } from "./types.ts";

export function titleOf(kind: SetUpKind, model: FaceModel, asPlanned: Plan, plan: Plan): string {
  const stays = new Set(model.plan.lights.map((light) => light.name));
  const placed = plan.lights.filter((light) => !stays.has(light.name));
  // of several, the first is the main light
  const [main] = placed;
  return [
    kind,
    ...(main === undefined ? [] : [placeWords(model, main)]),
    ...changes(model, asPlanned, plan),
  ].join(", ");
}

/** What of camera and sitter is not as planned: "camera 30° round", "head turned 20°". */
function changes({ person, staged }: FaceModel, before: Plan, after: Plan): string[] {
  const [x, y] = staged.headOffset;
  const bearing = ({ camera }: Plan) => Math.atan2(camera.position[0] - x, camera.position[1] - y) / DEGREE;
  const round = Math.abs(((bearing(after) - bearing(before) + 540) % 360) - 180);
  const turn = after.people[person].head.turn - before.people[person].head.turn;
  return [
    ...(round >= 1 ? [`camera ${Math.round(round)}° round`] : []),
    ...(Math.abs(turn) >= 1
      ? [`head turned ${Math.round(Math.abs(turn))}° to own ${turn > 0 ? "left" : "right"}`]
      : []),
  ];
}

const DEGREE = Math.PI / 180;

/** "from own left, 1.3 m off" */
function placeWords(model: FaceModel, light: Light): string {
  const { azimuth_deg, distance_m } = spotOf(model.staged, light);
  const side = Math.abs(azimuth_deg) < 8 ? "ahead" : azimuth_deg > 0 ? "own left" : "own right";
  return `from ${side}, ${distance_m.toFixed(1)} m off`;
}

/** Every wish that is not free, then what always holds. */
export function wishesMet(search: Search, model: FaceModel, plan: Plan, seen: Seen): WishMet[] {
  const { want } = search;
  const out: WishMet[] = [];
  for (const wish of JUDGED) {
    const margin = marginOf(wish, want, seen);
    if (margin === null) continue;
    const isMet = margin >= 0;
    const told = tell(wish, search, seen);
    out.push({
      wish,
      isMet,
      asked: told.asked,
      got: told.got,
      margin: told.yesNo ? null : margin,
      marginWords: told.yesNo ? "" : told.margin(Math.abs(margin)),
      why: isMet ? null : whyNot(wish, search, model, plan, seen),
    });
  }
  if (want.crop !== null) out.push(cropMet(plan, search));
  out.push(...standing(search, model, plan));
  return out;
}

interface Told {
  readonly asked: string;
  readonly got: string;
  readonly yesNo?: true;
  readonly margin: (size: number) => string;
}

const stops = (x: number) => `${x.toFixed(1)} ${x < 1.05 ? "stop" : "stops"}`;
const degrees = (x: number) => `${x.toFixed(0)}°`;
const NONE = () => "";

function tell(wish: Judged, { want }: Search, seen: Seen): Told {
  const { reading } = seen;
  switch (wish) {
    case "pattern":
      return {
        asked: patternName(want.pattern ?? "dark"),
        got: patternName(reading.pattern),
        yesNo: true,
        margin: NONE,
      };
    case "litSide":
      return {
        asked: `own ${want.litSide} lit`,
        got: reading.litSide === "even" ? "both cheeks alike" : `own ${reading.litSide} lit`,
        yesNo: true,
        margin: NONE,
      };
    case "side":
      return { asked: want.side ?? "", got: reading.side, yesNo: true, margin: NONE };
    case "ratioStops":
      return {
        asked: spanWords(want.ratioStops, (x) => x.toFixed(1), "stops"),
        got: reading.ratioStops === null ? "no light on the shadow side" : stops(reading.ratioStops),
        margin: stops,
      };
    case "shadowEdgeMillimetres": {
      const edge = reading.shadowEdgeMillimetres;
      const mm = (x: number) => x.toFixed(x < 10 ? 1 : 0);
      return {
        asked: spanWords(want.shadowEdgeMillimetres, mm, "mm"),
        got: edge === null ? "no edge on the cheek" : `${mm(edge)} mm`,
        margin: (doublings) => `${Math.round(100 * (2 ** doublings - 1))} %`,
      };
    }
    case "backgroundStops":
      return {
        asked: spanWords(want.backgroundStops, (x) => formatStops(x), "stops"),
        got:
          reading.backgroundStops === null
            ? "no background"
            : `${formatStops(reading.backgroundStops)} stops`,
        margin: stops,
      };
    case "fNumber":
      return {
        asked: spanWords(want.fNumber, formatFStops, ""),
        got: formatFStops(meteredFNumber(seen)),
        margin: stops,
      };
    case "headroomStops":
      return {
        asked: `at least ${formatStops(want.headroomStops)}`,
        got: reading.headroomStops === null ? "no skin in the frame" : formatStops(reading.headroomStops),
        margin: stops,
      };
    case "catchlight": {
      const own = reading.catchlights.filter((c) => c.light === seen.strongest);
      const clock = want.catchlight?.clock ?? 12;
      const nearest = own.find(
        (c) =>
          Math.abs(
            (clockOff(clock, { ...seen, reading: { ...reading, catchlights: [c] } }) ?? 12) -
              (clockOff(clock, seen) ?? 12),
          ) < 1e-9,
      );
      return {
        asked: `at ${clockWords(clock)}, ${hours(want.catchlight?.within ?? 0)} either way`,
        got: nearest === undefined ? "no light in either eye" : `at ${clockWords(nearest.clock)}`,
        margin: hours,
      };
    }
    case "azimuth": {
      const side = (x: number) => `${Math.abs(x).toFixed(0)}° to own ${x < 0 ? "right" : "left"}`;
      const got = reading.light.azimuth;
      return {
        asked: spanWords(want.azimuth, side, ""),
        got: got === null ? "from nowhere" : side(got),
        margin: degrees,
      };
    }
    case "elevation": {
      const up = (x: number) => `${Math.abs(x).toFixed(0)}° ${x < 0 ? "down" : "up"}`;
      const got = reading.light.elevation;
      return {
        asked: spanWords(want.elevation, up, ""),
        got: got === null ? "from nowhere" : up(got),
        margin: degrees,
      };
    }
    case "spreadStops":
      return {
        asked: `at most ${stops(want.spreadStops ?? 0)} between faces`,
        got: stops(spreadOf(reading.litCheeks)),
        margin: stops,
      };
    case "power":
      return { asked: "", got: "", yesNo: true, margin: NONE };
  }
}

function hours(h: number): string {
  return `${Math.round(60 * h)} min of the clock`;
}

function spanWords(span: Span | null, write: (x: number) => string, unit: string): string {
  const { from, to } = span ?? { from: null, to: null };
  const tail = unit === "" ? "" : ` ${unit}`;
  if (from !== null && to !== null) return `${write(from)} to ${write(to)}${tail}`;
  if (from !== null) return `${write(from)}${tail} or more`;
  return to === null ? "anything" : `${write(to)}${tail} or less`;
}

/** The crop fills what is used of the picture, but for so much. */
const CROP_OFF = 0.05;

function cropMet(plan: Plan, { want, person }: Search): WishMet {
  const crop = want.crop ?? "head";
  const box = cropBoxes(plan, person)[crop];
  const used = usedPart(plan);
  const size = box === null ? 0 : (box.right - box.left) / (used.right - used.left);
  const isMet = box !== null && Math.abs(size - 1) < CROP_OFF;
  return {
    wish: "crop",
    isMet,
    asked: crop,
    got:
      box === null
        ? "not in the picture"
        : isMet
          ? crop
          : `the crop fills ${Math.round(100 * size)} % of the width`,
    margin: null,
    marginWords: "",
    why: isMet ? null : plan.camera.pinned ? "the camera is pinned" : "the room ends behind the camera",
  };
}

/** No front or panel that was placed in the picture, and air round every one that was placed. */
function standing(search: Search, model: FaceModel, plan: Plan): WishMet[] {
  const clear = new Clearances(plan);
  const stays = new Set(model.plan.lights.map((light) => light.name));
  const placed = plan.lights.filter((light) => !stays.has(light.name));
  const found = placed.map((light) => {
    const head = search.heads.find(({ name }) => name === light.name);
    return head === undefined ? null : clear.obstacle(light, head.stand);
  });
  const hung = new Set(model.plan.panels.map((panel) => panel.name));
  const shown = [
    ...placed.filter((_, i) => found[i] === "frame"),
    ...plan.panels.filter((panel) => !hung.has(panel.name) && clear.isInFrame(panel)),
  ].map(({ name }) => name);
  const inFrame = shown.length > 0;
  const other = found.find((obstacle) => obstacle !== null && obstacle !== "frame") ?? null;
  const yesNo = { margin: null, marginWords: "" };
  return [
    {
      ...yesNo,
      wish: "frame",
      isMet: !inFrame,
      asked: "nothing",
      got: inFrame ? shown.join(", ") : "nothing",
      why: inFrame ? `frame: ${shown.join(", ")} in the picture` : null,
    },
    {
      ...yesNo,
      wish: "clearance",
      isMet: other === null,
      asked: "air round every front",
      got: other === null ? "clear" : `${other} in the way`,
      why: other === null ? null : `${other}: too near`,
    },
  ];
}

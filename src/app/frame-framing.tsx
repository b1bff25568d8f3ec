import { useEffect, useMemo, useState } from "preact/hooks";
import type { Edit, Plan } from "../plan/index.ts";
import { CROPS, type Crop, type Framed, type FramedFrom, fitDistance, fitLens } from "../reading/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { rounded } from "./fields.tsx";
import { sortCrops } from "./frame-crops.ts";
import { useStore } from "./hooks.ts";

interface FramingProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
}

interface Ways {
  readonly lens: Framed | null;
  readonly distance: FramedFrom | null;
  /** the lens that does it from where a wall stops the camera */
  readonly fromWall: Framed | null;
}

type Way = "lens" | "distance";

/** The plan is dragged: the two ways are worked out when it has been still this long. */
const STILL_MS = 150;

/** Pick a crop, and either the camera's distance or its lens follows. What each would be is said before it is done. */
export function FrameFraming({ bench, plan, person }: FramingProps) {
  const { units } = useStore(bench.view);
  const [crop, setCrop] = useState<Crop>("head and shoulders");
  const [ways, setWays] = useState<Ways | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const who = plan.people[person];

  useEffect(() => {
    const timer = setTimeout(
      () => setWays(who === undefined ? null : bothWays(plan, person, crop)),
      STILL_MS,
    );
    return () => clearTimeout(timer);
  }, [plan, person, crop, who]);

  const { beyond } = useMemo(() => sortCrops(plan, person), [plan, person]);
  if (who === undefined) return <p class="quiet">Nobody is there to be framed.</p>;
  const take = (way: Way) => {
    const now = bench.session.get().plan;
    const found = bothWays(now, person, crop)[way];
    if (found === null) return;
    setRefused(makeEdit(bench, framingEdit(crop, way, found)));
    bench.say.set(`${crop}: ${wayWords(way, found, units)}`);
  };
  const { lens, distance, fromWall } = ways ?? { lens: null, distance: null, fromWall: null };
  return (
    <fieldset class="framing">
      <legend class="visually-hidden">framing</legend>
      <label>
        <span class="quiet">fill with</span>{" "}
        <select value={crop} onChange={(event) => setCrop(event.currentTarget.value as Crop)}>
          {CROPS.map((each) => (
            <option key={each} value={each} selected={each === crop}>
              {each}
            </option>
          ))}
        </select>
      </label>
      <button type="button" disabled={distance === null} onClick={() => take("distance")}>
        {distance === null ? "move the camera" : `move the camera: ${wayWords("distance", distance, units)}`}
      </button>
      <button type="button" disabled={lens === null} onClick={() => take("lens")}>
        {lens === null ? "change the lens" : `change the lens: ${wayWords("lens", lens, units)}`}
      </button>
      {beyond.length > 0 && <p class="quiet">beyond this frame: {beyond.join(", ")}</p>}
      {distance !== null && distance.stoppedBy !== null && (
        <p class="quiet">
          The {distance.stoppedBy} stops the camera at {formatLength(distance.distance_m, units)}: no room for{" "}
          {crop} with {rounded(plan.camera.focalLength, 0)} mm.
          {fromWall !== null && ` There a ${rounded(fromWall.focalLength, 0)} mm lens fills the frame.`}
        </p>
      )}
      {refused !== null && <p class="alert">{refused}</p>}
    </fieldset>
  );
}

function bothWays(plan: Plan, person: number, crop: Crop): Ways {
  const distance = fitDistance(plan, person, crop);
  const atWall =
    distance !== null && distance.stoppedBy !== null
      ? { ...plan, camera: { ...plan.camera, position: distance.position } }
      : null;
  return {
    lens: fitLens(plan, person, crop),
    distance,
    fromWall: atWall && fitLens(atWall, person, crop),
  };
}

function wayWords(way: Way, found: Framed, units: LengthUnits): string {
  return way === "lens"
    ? `${rounded(found.focalLength, 0)} mm`
    : `${formatLength(found.distance_m, units)} from the mark`;
}

/** One step of undo, whichever follows. */
function framingEdit(crop: Crop, way: Way, found: Framed): Edit {
  const follows =
    way === "lens"
      ? { path: ["camera", "focalLength"], value: found.focalLength }
      : { path: ["camera", "position"], value: found.position };
  return {
    kind: "set",
    label: `${crop} by ${way}`,
    fields: [follows, { path: ["camera", "direction"], value: found.direction }],
  };
}

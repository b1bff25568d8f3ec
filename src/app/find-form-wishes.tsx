import type { Plan } from "../plan/index.ts";
import { patternWord } from "../reading/index.ts";
import { parseNumber } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { clockText, lensesText, parseClock, parseLenses } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { BRIEF, WishChoice, WishRange } from "./find-form-fields.tsx";
import { BriefNumber, type BriefPart } from "./find-part.tsx";
import {
  APERTURE,
  BACKGROUND,
  distanceKind,
  EDGE,
  type Entry,
  FREE,
  parseSpan,
  RATIO,
  ROUND,
  spanText,
} from "./find-spans.ts";
import { PATTERN_LOOKS, PATTERNS, ratioNumbers } from "./find-words.ts";

/** What the light does to the face. */
export function FaceWishes({ brief, put, plan }: BriefPart & { readonly plan: Plan }) {
  const { want } = brief;
  return (
    <fieldset class="group">
      <legend>the light on the face</legend>
      {plan.people.length > 1 && (
        <ChoiceField
          label="whose"
          of={BRIEF}
          value={String(brief.person)}
          choices={plan.people.map(({ name }, i) => [String(i), name] as const)}
          choose={(i) => put(`about ${plan.people[Number(i)]?.name}`, ["person"], Number(i))}
        />
      )}
      <WishChoice
        {...{ put }}
        label="pattern"
        field="pattern"
        value={want.pattern}
        choices={PATTERNS.map((pattern) => [pattern, patternWord(pattern)])}
      />
      {want.pattern !== null && <p class="quiet small">{PATTERN_LOOKS[want.pattern]}</p>}
      <WishChoice
        {...{ put }}
        label="lit side"
        field="litSide"
        value={want.litSide}
        choices={[
          ["left", "own left, picture right"],
          ["right", "own right, picture left"],
        ]}
      />
      <WishChoice
        {...{ put }}
        label="to the lens"
        field="side"
        value={want.side}
        choices={[
          ["broad", "broad: lit side to it"],
          ["short", "short: lit side away"],
        ]}
      />
      <WishRange
        {...{ brief, put }}
        label="ratio"
        field="ratioStops"
        kind={RATIO}
        note={ratioNumbers(want.ratioStops)}
      />
      <WishRange
        {...{ brief, put }}
        label="shadow edge"
        field="shadowEdgeMillimetres"
        kind={EDGE}
        note="of the nose’s shadow"
      />
      <EntryField
        label="catchlight"
        of={BRIEF}
        text={clockText(want.catchlight)}
        parse={parseClock}
        commit={(clock) => put(`catchlight ${clockText(clock)}`, ["want", "catchlight"], clock)}
      />
      <WishRange
        {...{ brief, put }}
        label="light round"
        field="azimuth"
        kind={ROUND}
        note="from the nose, + to own left"
      />
      <WishRange {...{ brief, put }} label="light up" field="elevation" kind={ROUND} note="from level" />
      {plan.people.length > 1 && <Evenness {...{ brief, put }} />}
    </fieldset>
  );
}

/** Of a group: how far the faces may differ. */
function Evenness({ brief, put }: Pick<BriefPart, "brief" | "put">) {
  const spread = brief.want.spreadStops;
  return (
    <EntryField
      label="between faces"
      of={BRIEF}
      text={spread === null ? FREE : `at most ${spread} stop`}
      parse={parseLimit}
      commit={(stops) => put("between faces", ["want", "spreadStops"], stops)}
    />
  );
}

function parseLimit(text: string): Entry<number | null> {
  if (/^(|free)$/i.test(text.trim())) return { ok: true, value: null };
  const parsed = parseNumber(text.replace(/^at most\s*/i, ""), /\s*stops?$/i, "0.5");
  return parsed.ok ? parsed : { ok: false, why: parsed.why };
}

const CROPS = ["head", "head and shoulders", "half", "three-quarter", "full"] as const;

/** What the picture is to be, and what it is taken with. */
export function PictureWishes({ brief, put, units, plan }: BriefPart & { readonly plan: Plan }) {
  const { want } = brief;
  const distance = distanceKind(units);
  const { focalLength } = plan.camera;
  return (
    <fieldset class="group">
      <legend>the picture</legend>
      <WishChoice
        {...{ put }}
        label="crop"
        field="crop"
        value={want.crop}
        choices={CROPS.map((crop) => [crop, crop])}
      />
      <WishRange
        {...{ brief, put }}
        label="background"
        field="backgroundStops"
        kind={BACKGROUND}
        note="against the lit cheek"
      />
      <WishRange {...{ brief, put }} label="aperture" field="fNumber" kind={APERTURE} />
      <BriefNumber
        {...{ put }}
        label="headroom at least"
        of={BRIEF}
        path={["want", "headroomStops"]}
        value={want.headroomStops}
        unit="stops"
        digits={2}
        stepBy={0.1}
      />
      <EntryField
        label="lenses"
        of={BRIEF}
        text={lensesText(brief.lenses)}
        parse={parseLenses}
        commit={(lenses) => put(`lenses ${lensesText(lenses)}`, ["lenses"], lenses)}
        {...(brief.lenses.length === 0 ? { note: `${focalLength} mm` } : {})}
      />
      <EntryField
        label="lens to face"
        of={BRIEF}
        text={spanText(brief.cameraDistance, distance)}
        parse={(text) => parseSpan(text, distance)}
        commit={(span) => put(`lens to face ${spanText(span, distance)}`, ["cameraDistance"], span)}
      />
    </fieldset>
  );
}

import type { Plan } from "../plan/index.ts";
import { lengthsIn } from "../units/index.ts";
import { BRIEF } from "./find-form-fields.tsx";
import { FaceWishes, PictureWishes } from "./find-form-wishes.tsx";
import { GearList } from "./find-gear.tsx";
import { BriefLength, BriefNumber, type BriefPart } from "./find-part.tsx";
import { Fold } from "./fold.tsx";

/** What is wanted and what there is, as a form: what is not asked for is free. */
export function BriefForm({ plan, ...part }: BriefPart & { readonly plan: Plan }) {
  return (
    <form class="brief" aria-label="Brief" onSubmit={(event) => event.preventDefault()}>
      <FaceWishes {...part} plan={plan} />
      <PictureWishes {...part} plan={plan} />
      <GearList {...part} plan={plan} />
      <Limits {...part} />
    </form>
  );
}

/** What is seldom changed: air that is kept, and what the hold zone allows. */
function Limits({ brief, put, units }: BriefPart) {
  const { clear, hold } = brief;
  const cm = (metres: number) => lengthsIn(`${Math.round(metres * 100)} cm`, units);
  const length = (label: string, field: "ceiling" | "walls" | "people") => (
    <BriefLength {...{ put, units, label }} of="air kept" path={["clear", field]} value={clear[field]} />
  );
  const stops = (label: string, field: "exposureStops" | "ratioStops" | "headroomStops") => (
    <BriefNumber
      {...{ put, label }}
      of="hold zone"
      path={["hold", field]}
      value={hold[field]}
      unit="stops"
      digits={2}
      stepBy={0.1}
    />
  );
  return (
    <div class="folds">
      <Fold word="air kept" of={BRIEF} sums={`${cm(clear.people)} round people`}>
        {length("to the ceiling", "ceiling")}
        {length("to walls", "walls")}
        {length("round people", "people")}
      </Fold>
      <Fold word="hold zone" of={BRIEF} sums={`within ${Number(hold.exposureStops.toFixed(2))} stop`}>
        {stops("exposure within", "exposureStops")}
        {stops("ratio within", "ratioStops")}
        {stops("headroom at least", "headroomStops")}
      </Fold>
    </div>
  );
}

import { useEffect, useRef, useState } from "preact/hooks";
import type { Plan, Want } from "../plan/index.ts";
import { patternName } from "../reading/index.ts";
import { lookFrom, type PhotoFace } from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { briefEdit, briefOf } from "./find-brief.ts";
import { clockText } from "./find-entries.ts";
import { BACKGROUND, EDGE, RATIO, ROUND, spanText } from "./find-spans.ts";
import { WISH_WORDS } from "./find-words.ts";

interface BriefProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
  readonly frame: TestFrame;
  readonly face: PhotoFace;
}

/** The light of this picture as something to be had again: ranges for a search, and what no picture tells. */
export function LookAsBrief(props: BriefProps) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section class="look" aria-labelledby="look-title">
      <h2 id="look-title">
        <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          use this light as a brief
        </button>
      </h2>
      {isOpen && <Look {...props} />}
    </section>
  );
}

function Look({ bench, plan, person, frame, face }: BriefProps) {
  const [why, setWhy] = useState<string | null>(null);
  const body = useRef<HTMLDivElement>(null);
  // it opens under the end of a column
  useEffect(() => body.current?.scrollIntoView({ block: "nearest" }), []);
  const look = lookFrom(frame.reading, face);
  const lines = wantLines(look.want);
  const take = () => {
    const { crop, fNumber, headroomStops, spreadStops } = briefOf(plan).want;
    // what a look does not say stays as it was asked
    const want = { ...look.want, crop, fNumber, headroomStops, spreadStops };
    const label = `the light of ${frame.name}`;
    const refused = makeEdit(bench, {
      kind: "several",
      label: `brief: ${label}`,
      edits: [
        briefEdit(plan, label, ["want"], want),
        { kind: "set", label, fields: [{ path: ["brief", "person"], value: person }] },
      ],
    });
    setWhy(refused);
    if (refused === null) bench.view.update({ screen: "find" });
  };
  return (
    <div class="look-body" ref={body}>
      <dl class="look-lines">
        {lines.map(([term, text]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {look.notes.length > 0 && (
        <ul>
          {look.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <h3>What a still cannot show</h3>
      <ul class="quiet">
        {look.unseen.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p>
        <button
          type="button"
          class="begin"
          disabled={lines.length === 0 || plan.people.length === 0}
          onClick={take}
        >
          take it as the brief and go to find
        </button>
      </p>
      {plan.people.length === 0 && (
        <p class="quiet">A brief is about somebody: add a person to the plan first.</p>
      )}
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </div>
  );
}

/** What is asked for, in the words of the find page; what is left open is left out. */
function wantLines(want: Want): (readonly [string, string])[] {
  const span = (term: string, value: Want["ratioStops"], kind: typeof RATIO) =>
    value === null ? [] : [[term, spanText(value, kind)] as const];
  return [
    ...(want.pattern === null ? [] : [[WISH_WORDS.pattern, patternName(want.pattern)] as const]),
    ...(want.litSide === null ? [] : [[WISH_WORDS.litSide, `own ${want.litSide}`] as const]),
    ...span(WISH_WORDS.ratioStops, want.ratioStops, RATIO),
    ...span(WISH_WORDS.azimuth, want.azimuth, ROUND),
    ...span(WISH_WORDS.elevation, want.elevation, ROUND),
    ...span(WISH_WORDS.shadowEdgeMillimetres, want.shadowEdgeMillimetres, EDGE),
    ...span(WISH_WORDS.backgroundStops, want.backgroundStops, BACKGROUND),
    ...(want.catchlight === null ? [] : [[WISH_WORDS.catchlight, clockText(want.catchlight)] as const]),
  ];
}

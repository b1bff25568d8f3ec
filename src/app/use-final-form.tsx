import { cssPixelsOf, type FinalUse, isForWeb, NAMED_USES, ppiOfDensity } from "../deliver/index.ts";
import type { FieldPath, Plan, Print } from "../plan/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import { type Bench, makeEdit, putField } from "./bench.ts";
import { parseNumber } from "./entries.ts";
import { ExposureFields } from "./exposure-fields.tsx";
import { ChoiceField, rounded } from "./fields.tsx";
import { EntryField } from "./find-field.tsx";
import { FramePrint } from "./frame-print.tsx";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";
import { shootDeskOf, shownFrame } from "./shoot-desk.ts";
import { ShelfBodies } from "./use-final-body.tsx";
import {
  askedText,
  awayText,
  cropText,
  fileText,
  levelPixels,
  pageText,
  parseAsked,
  parseAway,
  parseCrop,
  parseFile,
  parsePage,
} from "./use-final-entries.ts";

interface FormProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
  readonly use: FinalUse | null;
}

const OF = "finished picture";
const OWN = "";

/** What the picture is for, and what file it comes from. Everything is a change of the plan, and can be undone. */
export function UseForm({ bench, plan, person, use }: FormProps) {
  const { units } = useStore(bench.view);
  const { print } = plan;
  return (
    <div class="use-form">
      <NamedUse bench={bench} print={print} />
      {print !== null && <UseName bench={bench} print={print} />}
      {print !== null && isForWeb(print.use) ? (
        <WebSize bench={bench} print={print} />
      ) : (
        <FramePrint bench={bench} plan={plan} />
      )}
      {print !== null && <Wishes bench={bench} print={print} units={units} />}
      <h3>The file</h3>
      <ShelfBodies bench={bench} plan={plan} />
      <FilePixels bench={bench} plan={plan} />
      <h3>The camera</h3>
      <ExposureFields bench={bench} camera={plan.camera} />
      <FocusOn bench={bench} plan={plan} person={person} use={use} />
    </div>
  );
}

/** Refusals of a plan, in the units in use. */
function put(bench: Bench, label: string, path: FieldPath, value: unknown, units: LengthUnits) {
  const refusal = putField(bench, label, path, value);
  return refusal === null ? null : lengthsIn(refusal, units);
}

function NamedUse({ bench, print }: { bench: Bench; print: Plan["print"] }) {
  const named = NAMED_USES.find(({ name }) => name === print?.use);
  const choose = (name: string) => {
    const chosen = NAMED_USES.find((each) => each.name === name);
    if (chosen === undefined) return;
    makeEdit(bench, {
      kind: "set",
      label: `for a ${name}`,
      fields: [{ path: ["print"], value: { ...chosen.print, cropWidth: null } }],
    });
  };
  return (
    <ChoiceField
      label="begin with"
      of={OF}
      value={named?.name ?? OWN}
      choices={[
        [OWN, print === null ? "choose a use" : "one of your own"],
        ...NAMED_USES.map(({ name }) => [name, name] as const),
      ]}
      choose={choose}
    />
  );
}

function UseName({ bench, print }: { bench: Bench; print: Print }) {
  return (
    <EntryField
      label="called"
      of={OF}
      text={print.use}
      parse={(text) => ({ ok: true, value: text.trim() })}
      commit={(name) => putField(bench, "what it is for", ["print", "use"], name)}
    />
  );
}

/** A page is told in its own pixels, and a screen in how many of its own it has for each. */
function WebSize({ bench, print }: { bench: Bench; print: Print }) {
  const density = print.asksPpi === null ? 1 : print.asksPpi / ppiOfDensity(1);
  const size = (sides: Pick<Print, "width" | "height">) =>
    makeEdit(bench, {
      kind: "set",
      label: "size on the page",
      fields: [
        { path: ["print", "width"], value: sides.width },
        { path: ["print", "height"], value: sides.height },
      ],
    });
  return (
    <>
      <EntryField
        label="page’s pixels"
        of={OF}
        text={pageText(print)}
        parse={parsePage}
        commit={size}
        note={`a page’s pixel is 1/96 of an inch; ${rounded(cssPixelsOf(print.width) * density, 0)} of the screen’s across`}
      />
      <NumberField
        label="screen’s for each"
        of={OF}
        text={`${rounded(density, 2)}`}
        parse={(text) => parseNumber(text, /\s*[x×]$/i, "2")}
        commit={(each) =>
          putField(bench, "screen’s pixels", ["print", "asksPpi"], rounded(ppiOfDensity(each), 3))
        }
      />
    </>
  );
}

function Wishes({ bench, print, units }: { bench: Bench; print: Print; units: LengthUnits }) {
  return (
    <div class="group">
      <EntryField
        label="seen from"
        of={OF}
        text={awayText(print.viewingDistance, units)}
        parse={(text) => parseAway(text, units)}
        commit={(away) => put(bench, "seen from", ["print", "viewingDistance"], away, units)}
        note="the nearest that people look from"
      />
      {!isForWeb(print.use) && (
        <EntryField
          label="printer asks"
          of={OF}
          text={askedText(print.asksPpi)}
          parse={parseAsked}
          commit={(ppi) => putField(bench, "what the printer asks", ["print", "asksPpi"], ppi)}
        />
      )}
      <EntryField
        label="width used"
        of={OF}
        text={cropText(print.cropWidth)}
        parse={parseCrop}
        commit={(share) => putField(bench, "crop", ["print", "cropWidth"], share)}
        note="of the picture’s width, at these proportions"
      />
    </div>
  );
}

function FilePixels({ bench, plan }: { bench: Bench; plan: Plan }) {
  const frame = shownFrame(useStore(shootDeskOf(bench).store));
  const { pixels, sensor } = plan.camera;
  const save = (to: Plan["camera"]["pixels"]) =>
    putField(bench, "pixels of the file", ["camera", "pixels"], to);
  const image = frame?.reading.image;
  const seen = image && levelPixels([image.width, image.height], sensor);
  const isOther = seen && (pixels?.width !== seen.width || pixels.height !== seen.height);
  return (
    <>
      <EntryField
        label="pixels"
        of="file"
        text={fileText(pixels)}
        parse={(text) => parseFile(text, sensor)}
        commit={save}
      />
      {seen && isOther && (
        <p>
          <button type="button" onClick={() => save(seen)}>
            as {image.name}: {fileText(seen)}
          </button>
        </p>
      )}
    </>
  );
}

/** Whose eye the focus lies in; with one person there is nothing to choose. */
function FocusOn({ bench, plan, person, use }: FormProps) {
  if (plan.people.length < 2)
    return use === null || use.focusOn === null ? null : (
      <p class="quiet">The focus lies in the nearer eye.</p>
    );
  return (
    <ChoiceField
      label="focused on"
      of="lens"
      value={String(person)}
      choices={plan.people.map(({ name }, i) => [String(i), name] as const)}
      choose={(index) => bench.view.update({ person: Number(index) })}
    />
  );
}

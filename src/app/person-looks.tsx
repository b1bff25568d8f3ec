/** What a person looks like to the light: head, hair, glasses, skin. */
import type { Person, SkinReflectance, Tone } from "../plan/index.ts";
import { type Bench, putField } from "./bench.ts";
import { ChoiceField, PlainField } from "./fields.tsx";
import type { PlanObject } from "./objects.ts";

const TONES: readonly Tone[] = ["very light", "light", "intermediate", "tan", "brown", "dark"];
const GLASSES = { lensWidth: 0.05, lensHeight: 0.038, tilt: 8, wrap: 5, curve: 4, coated: true } as const;

export function PersonLooks({
  bench,
  object,
  person,
}: {
  readonly bench: Bench;
  readonly object: PlanObject;
  readonly person: Person;
}) {
  const { name, hair, glasses, skin } = person;
  const put = (what: string, path: readonly string[], value: unknown) =>
    putField(bench, `${name} ${what}`, [...object.path, ...path], value);
  const tone = toneOf(skin.reflectance);
  return (
    <fieldset class="group">
      <legend class="quiet">looks</legend>
      <ChoiceField
        label="hair"
        of={name}
        value={hair.length}
        choices={[
          ["none", "none"],
          ["short", "short"],
          ["shoulder", "to the shoulders"],
        ]}
        choose={(value) => put(`hair ${value}`, ["hair", "length"], value)}
      />
      <ChoiceField
        label="glasses"
        of={name}
        value={glasses === null ? "none" : glasses.coated ? "coated" : "bare"}
        choices={[
          ["none", "none"],
          ["coated", "coated"],
          ["bare", "uncoated"],
        ]}
        choose={(value) =>
          put(
            `glasses ${value}`,
            ["glasses"],
            value === "none" ? null : { ...(glasses ?? GLASSES), coated: value === "coated" },
          )
        }
      />
      <ChoiceField
        label="skin"
        of={name}
        value={tone}
        choices={[
          ...(tone === MEASURED ? [[MEASURED, "as measured"] as const] : []),
          ...TONES.map((t) => [t, t] as const),
        ]}
        choose={(value) => {
          if (value !== MEASURED) put(`skin ${value}`, ["skin", "reflectance"], { tone: value });
        }}
      />
      <PlainField
        bench={bench}
        of={name}
        label="shine"
        path={[...object.path, "skin", "shine"]}
        value={skin.shine}
        unit="× bare"
        digits={1}
        stepBy={0.1}
      />
      <PlainField
        bench={bench}
        of={name}
        label="head size"
        path={[...object.path, "headSize"]}
        value={person.headSize}
        unit="percentile"
        digits={0}
        stepBy={5}
      />
    </fieldset>
  );
}

const MEASURED = "measured";

function toneOf(reflectance: SkinReflectance): Tone | typeof MEASURED {
  return typeof reflectance === "object" && "tone" in reflectance ? reflectance.tone : MEASURED;
}

import { ChoiceField, PlainField } from "./fields.tsx";
import { Fold } from "./fold.tsx";
import { type LightPart, putLight } from "./light-part.ts";
import { colourWords, GELS, gelLoss, gelName, SOURCES, stopsWord } from "./light-words.ts";

const CHANNELS = ["red", "green", "blue"] as const;
const OWN = "own";

/** Colour temperature and filter. */
export function ColourFields({ bench, index, light }: LightPart) {
  const { name, kelvin, gel } = light;
  const path = ["lights", index] as const;
  const source = SOURCES.find(({ value }) => value === Math.round(kelvin));
  const filter = gelName(gel.rgb);
  const loss = gelLoss(light);
  return (
    <Fold word="colour" of={name} sums={colourWords(light)}>
      <ChoiceField
        label="source"
        of={name}
        value={source?.name ?? OWN}
        choices={[
          ...SOURCES.map((each) => [each.name, each.name] as const),
          ...(source === undefined ? [[OWN, "its own"] as const] : []),
        ]}
        choose={(chosen) => {
          const to = SOURCES.find((each) => each.name === chosen);
          if (to !== undefined) putLight(bench, index, `${name} ${to.name}`, { kelvin: to.value });
        }}
      />
      <PlainField
        bench={bench}
        of={name}
        label="temperature"
        path={[...path, "kelvin"]}
        value={kelvin}
        unit="K"
        digits={0}
        stepBy={50}
      />
      <ChoiceField
        label="filter"
        of={name}
        value={filter ?? OWN}
        choices={[
          ...GELS.map((each) => [each.name, each.name] as const),
          ...(filter === null ? [[OWN, "its own"] as const] : []),
        ]}
        choose={(chosen) => {
          const to = GELS.find((each) => each.name === chosen);
          if (to !== undefined)
            putLight(bench, index, `${name} filter ${to.name}`, { gel: { rgb: to.value } });
        }}
      />
      {CHANNELS.map((channel, c) => (
        <PlainField
          key={channel}
          bench={bench}
          of={name}
          label={`passes ${channel}`}
          path={[...path, "gel", "rgb", c]}
          value={gel.rgb[c] as number}
          unit=""
          digits={3}
          stepBy={0.01}
        />
      ))}
      {loss >= 0.05 && (
        <p class="quiet small">
          {Number.isFinite(loss) ? `the filter takes ${stopsWord(loss)}` : "the filter lets nothing through"}
        </p>
      )}
    </Fold>
  );
}

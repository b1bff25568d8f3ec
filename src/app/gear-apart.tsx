/** What two windows changed at once of the shelf or of the gear book, and which of the two is to stand. */
import type { Bench } from "./bench.ts";
import { shelfDeskOf } from "./gear-desk.ts";
import { apartText } from "./gear-words.ts";
import { useStore } from "./hooks.ts";
import type { Gear } from "./use-gear.ts";
import { signedStops } from "./wording.ts";

/** Each thing of the shelf that another window changed too, until somebody says which stands. */
export function ShelfApart({ bench }: { readonly bench: Bench }) {
  const { units } = useStore(bench.view);
  const desk = shelfDeskOf(bench);
  const { apart, shelf } = useStore(desk.store);
  if (shelf === null) return null;
  return (
    <>
      {apart.map((loss) => (
        <Two
          key={`${loss.kind} ${loss.name}`}
          text={`“${loss.name}” was changed in another window too: ${apartText(loss, shelf, units)}`}
          decide={(isTaking) => desk.decide(loss, isTaking)}
        />
      ))}
    </>
  );
}

/** The same of what was learnt of lights and bodies. */
export function BookApart({ gear: { apart, book, decide } }: { readonly gear: Gear }) {
  if (apart === null || book === null) return null;
  const lights = Object.entries(apart.lights).map(([key, theirs]) => {
    const ours = book.lights[key];
    const [name] = key.split(" | ");
    return `${name} ${ours === undefined ? "unknown" : signedStops(ours.stops)} here, ${signedStops(theirs.stops)} there`;
  });
  const bodies = Object.keys(apart.bodies).map((body) => `${body} with another curve there`);
  return (
    <Two
      text={`Another window kept something else of the same gear: ${[...lights, ...bodies].join("; ")}`}
      decide={decide}
    />
  );
}

function Two({ text, decide }: { readonly text: string; readonly decide: (isTaking: boolean) => void }) {
  return (
    <div class="alert" role="alert">
      <p>{text}. This window's stands.</p>
      <p class="row">
        <button type="button" onClick={() => decide(false)}>
          keep mine
        </button>
        <button type="button" onClick={() => decide(true)}>
          take theirs
        </button>
      </p>
    </div>
  );
}

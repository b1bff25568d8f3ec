import type { Ask, Remedy } from "../finder/index.ts";
import { askWords, EASE_WORDS } from "./ask-words.ts";

interface AskRemediesProps {
  readonly ask: Ask;
  readonly remedies: readonly Remedy[];
  /** of a plan as it was before */
  readonly isStale: boolean;
  readonly onTake: (remedy: Remedy) => void;
  /** said where there are none */
  readonly none: string;
}

/** The changes in their order: what to do, what it costs, and a button that does it. */
export function AskRemedies({ ask, remedies, isStale, onTake, none }: AskRemediesProps) {
  if (remedies.length === 0) return isStale ? null : <p>{none}</p>;
  return (
    <ol
      class={isStale ? "asks-remedies stale" : "asks-remedies"}
      aria-label={`So that ${askWords(ask)}, easiest first`}
    >
      {remedies.map((remedy) => (
        <li key={remedy.does}>
          <div>
            <strong>{remedy.does}</strong> <span class="quiet small">{EASE_WORDS[remedy.ease]}</span>
            <p class="quiet">
              {remedy.costs.length === 0 ? "changes nothing else that is told" : remedy.costs.join("; ")}
            </p>
          </div>
          <button type="button" disabled={isStale} onClick={() => onTake(remedy)}>
            take<span class="visually-hidden">: {remedy.does}</span>
          </button>
        </li>
      ))}
    </ol>
  );
}

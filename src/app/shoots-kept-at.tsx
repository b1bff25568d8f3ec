import { useEffect, useState } from "preact/hooks";
import type { KeptLibrary, LibraryState } from "./library-client.ts";
import { bytesText, copyText } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";

/** Where the library lies and when it was last copied. */
export function KeptAt({ library, now }: { library: KeptLibrary; now: () => Date }) {
  const [state, setState] = useState<LibraryState | null>(null);
  const [isCopying, setCopying] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  // a server that is away is said by the list
  const look = () => library.state().then(setState, () => undefined);
  useEffect(() => void look(), [library]);
  if (state === null) return null;

  async function copy() {
    setCopying(true);
    setTrouble(null);
    await library.copy().then(look, (error: unknown) => setTrouble(troubleOf(error)));
    setCopying(false);
  }

  const problem = state.problem && `${state.problem.problem}; ${state.problem.cure}`;
  return (
    <section class="kept-at quiet small" aria-label="Where shoots are kept">
      <p>
        kept in <span class="path">{state.path}</span>, {bytesText(state.bytes)}
      </p>
      <p role="status">{isCopying ? "being copied" : copyText(state.lastCopy, now())}</p>
      <p>
        <button type="button" disabled={isCopying} onClick={() => void copy()}>
          copy it now
        </button>
      </p>
      {(trouble ?? problem) !== null && (
        <p class="alert" role="alert">
          {trouble ?? problem}
        </p>
      )}
    </section>
  );
}

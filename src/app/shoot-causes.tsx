import { useEffect, useRef } from "preact/hooks";
import type { LikelyCause } from "../testframe/index.ts";

interface CausesProps {
  readonly causes: readonly LikelyCause[];
  /** somebody asked for what mends it */
  readonly isLedTo: boolean;
}

/** Why the frame differs, the likeliest first: what would show it, and what mends it. */
export function Causes({ causes, isLedTo }: CausesProps) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (isLedTo) title.current?.focus();
  }, [isLedTo]);
  if (causes.length === 0) return null;
  return (
    <section class="shoot-causes" aria-labelledby="causes-title">
      <h2 id="causes-title" ref={title} tabIndex={-1}>
        What may be behind it, and what mends it
      </h2>
      <ol class="causes">
        {causes.map(({ cause, check, cure, why }) => (
          <li key={cause}>
            <h3>
              {cause} <span class="quiet">{why}</span>
            </h3>
            <dl>
              <dt>check</dt>
              <dd>{check}</dd>
              <dt>cure</dt>
              <dd>{cure}</dd>
            </dl>
          </li>
        ))}
      </ol>
    </section>
  );
}

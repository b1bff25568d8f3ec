import type { PlacedTape } from "./tape-places.ts";
import { Unspoken } from "./unspoken.tsx";

/** Distances as a tape would take them from what is taken hold of: on the Floor to the two nearest walls, along the
 * floor to the mark, and from a light to the face, through the air; on the Side to the floor. */
export function Tapes({ tapes }: { tapes: readonly PlacedTape[] }) {
  return (
    <Unspoken class="tapes">
      {tapes.map(({ key, kind, a, b, text, at, isUpright }) => (
        <g key={key} class={kind}>
          <path d={`M${a.x},${a.y}L${b.x},${b.y}`} />
          <text
            x={at.x}
            y={at.y}
            dy="0.35em"
            transform={isUpright ? `rotate(-90 ${at.x} ${at.y})` : undefined}
          >
            {text}
          </text>
        </g>
      ))}
    </Unspoken>
  );
}

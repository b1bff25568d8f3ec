import { useEffect, useRef, useState } from "preact/hooks";
import type { Effect, Move, MoveKey } from "../finder/index.ts";
import type { FramePicture } from "../workbench/index.ts";
import { placeToward } from "./moves-keys.ts";
import { moveWords } from "./moves-words.ts";

export interface ShownMove {
  readonly move: Move;
  readonly effect: Effect | null;
  readonly picture: FramePicture | null;
  /** belongs to the plan, or the face, as it was before the last change */
  readonly isStale: boolean;
}

interface MovesRingProps {
  readonly shown: readonly ShownMove[];
  readonly shape: number;
  readonly busy: boolean;
  readonly onPoint: (key: MoveKey | null) => void;
  readonly onTake: (key: MoveKey) => void;
}

/** One stop for Tab; arrows walk among the frames by where they stand. */
export function MovesRing({ shown, shape, busy, onPoint, onTake }: MovesRingProps) {
  const ring = useRef<HTMLDivElement>(null);
  const [current, setCurrent] = useState(0);
  const buttons = () => [...(ring.current?.querySelectorAll("button") ?? [])];
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const all = buttons();
    const places = all.map((button) => {
      const { left, top, width } = button.getBoundingClientRect();
      return { x: left + width / 2, y: top };
    });
    const next = placeToward(places, current, event.key);
    if (next === null) return;
    event.preventDefault();
    setCurrent(next);
    all[next]?.focus();
  };
  return (
    <div
      ref={ring}
      class="moves-ring"
      role="toolbar"
      aria-label="Moves"
      aria-busy={busy}
      onKeyDown={onKeyDown}
    >
      {shown.map(({ move, effect, picture, isStale }, index) => (
        <button
          key={move.key}
          type="button"
          class="move"
          style={placeOf(move)}
          tabIndex={index === current ? 0 : -1}
          aria-disabled={move.edit === null}
          data-stale={isStale && move.edit !== null}
          onClick={() => onTake(move.key)}
          onFocus={() => {
            setCurrent(index);
            onPoint(move.key);
          }}
          onBlur={() => onPoint(null)}
          onPointerEnter={() => onPoint(move.key)}
          onPointerLeave={() => onPoint(null)}
        >
          <SmallFrame picture={picture} shape={shape} isEmpty={move.edit === null} />
          <Caption move={move} effect={effect} />
        </button>
      ))}
    </div>
  );
}

/** Beside an upright print: side and rank. Above and below a level one: tier, and how far across. Lines are kept free
 * for the caption, so that nothing shifts when its numbers come: a camera's says more. */
function placeOf({ side, row, nose }: Move): Record<string, number> {
  const isLeft = side === "left";
  const tier = row < 2 ? 0 : 1;
  // cameras stand outermost
  const outer = row % 2 === (tier === 0 ? 1 : 0);
  const across = isLeft ? (outer ? 1 : 2) : outer ? 4 : 3;
  return {
    "--side": isLeft ? 1 : 3,
    "--rank": row + 1,
    "--tier": tier,
    "--across": across,
    "--lines": nose === null ? 3 : 5,
  };
}

function Caption({ move, effect }: Pick<ShownMove, "move" | "effect">) {
  const { does, pattern, change, aside, more } = moveWords(move, effect);
  return (
    <span class="move-caption">
      <span class="does">{does}</span>
      {(pattern !== null || change !== "") && (
        <span>
          {pattern !== null && <strong>{pattern}</strong>} {change}
        </span>
      )}
      {aside !== "" && <span class={move.nose === null ? "visually-hidden" : "quiet"}>{aside}</span>}
      {more !== "" && <span class="visually-hidden">; {more}</span>}
    </span>
  );
}

function SmallFrame({
  picture,
  shape,
  isEmpty,
}: {
  picture: FramePicture | null;
  shape: number;
  isEmpty: boolean;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (picture === null || canvas.current === null || !context) return;
    const { width, height, rgba } = picture;
    canvas.current.width = width;
    canvas.current.height = height;
    context.putImageData(new ImageData(new Uint8ClampedArray(rgba), width, height), 0, 0);
  }, [picture]);
  const style = { aspectRatio: String(shape) };
  return (
    <span class={isEmpty ? "small-frame empty" : "small-frame"}>
      {picture === null ? (
        <span class="no-picture" style={style} />
      ) : (
        <canvas ref={canvas} style={style} width={2} height={2} />
      )}
    </span>
  );
}

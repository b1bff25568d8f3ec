import type { ComponentChildren } from "preact";
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import { useSize } from "./hooks.ts";
import { type InView, keyLeads, rowsInView, scrollFor } from "./shoots-pages.ts";

/** Beyond either end of what is in view: a turn of the wheel shows nothing empty. */
const BEYOND_ROWS = 4;

interface LongListProps {
  readonly label: string;
  readonly class: string;
  readonly total: number;
  /** 1 for a list of rows; more are pictures side by side, read along their rows */
  readonly columns: number;
  readonly rowHeight: number;
  /** the one in hand */
  readonly at: number;
  readonly choose: (index: number) => void;
  /** Enter, or a click where rows lead somewhere */
  readonly open?: (index: number) => void;
  /** any other key; true where it was one of these */
  readonly press?: (key: string, index: number) => boolean;
  /** these are in view, the last counted in */
  readonly see: (first: number, last: number) => void;
  /** where it stood when it was last on screen */
  readonly scrollTop?: number;
  /** it has the keys from the start */
  readonly hasKeys?: boolean;
  readonly scrolled?: (scrollTop: number) => void;
  readonly row: (index: number) => ComponentChildren;
}

/** A list of thousands of which only what is in view is drawn. One Tab stop: the keys walk through it. */
export function LongList(props: LongListProps) {
  const { at, columns, rowHeight, total } = props;
  const id = useId();
  const [list, size] = useSize<HTMLDivElement>();
  const [inView, setInView] = useState<InView>({ first: 0, last: -1 });
  const rows = Math.ceil(total / columns);
  const seen = useRef(props.see);
  seen.current = props.see;

  const look = () => {
    const element = list.current;
    if (element === null) return;
    const at = { scrollTop: element.scrollTop, height: element.clientHeight };
    const next = rowsInView(at, rowHeight, rows, BEYOND_ROWS);
    setInView((old) => (old.first === next.first && old.last === next.last ? old : next));
    const { first, last } = rowsInView(at, rowHeight, rows, 0);
    if (last >= 0) seen.current(first * columns, Math.min(total, (last + 1) * columns) - 1);
  };
  useLayoutEffect(look, [rowHeight, rows, columns, size?.height]);
  useEffect(() => {
    if (list.current === null) return;
    list.current.scrollTop = props.scrollTop ?? 0;
    if (props.hasKeys) list.current.focus({ preventScroll: true });
  }, []);

  function walk(to: number) {
    const element = list.current;
    if (element === null) return;
    props.choose(to);
    element.scrollTop = scrollFor(Math.floor(to / columns), rowHeight, {
      scrollTop: element.scrollTop,
      height: element.clientHeight,
    });
  }

  function onKeyDown(event: KeyboardEvent) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const rowsOnScreen = Math.floor((size?.height ?? 0) / rowHeight);
    const to = keyLeads(event.key, at, { total, columns, rowsOnScreen });
    if (to !== null) walk(to);
    else if (event.key === "Enter" && props.open !== undefined && at < total) props.open(at);
    else if (at >= total || props.press?.(event.key, at) !== true) return;
    event.preventDefault();
  }

  const drawn: number[] = [];
  for (let i = inView.first * columns; i < Math.min(total, (inView.last + 1) * columns); i++) drawn.push(i);
  const isDrawn = at >= (drawn[0] ?? 0) && at <= (drawn.at(-1) ?? -1);
  return (
    <div
      ref={list}
      class={`long-list ${props.class}`}
      role="listbox"
      aria-label={props.label}
      tabIndex={0}
      aria-activedescendant={isDrawn ? `${id}-${at}` : undefined}
      onKeyDown={onKeyDown}
      onScroll={(event) => {
        look();
        props.scrolled?.(event.currentTarget.scrollTop);
      }}
    >
      <div role="presentation" style={{ height: `${rows * rowHeight}px` }}>
        {drawn.map((index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents lint/a11y/useFocusableInteractive: the list has the focus and the keys
          <div
            key={index}
            id={`${id}-${index}`}
            role="option"
            aria-selected={index === at}
            aria-posinset={index + 1}
            aria-setsize={total}
            style={{
              height: `${rowHeight}px`,
              top: `${Math.floor(index / columns) * rowHeight}px`,
              width: `${100 / columns}%`,
              left: `${(100 * (index % columns)) / columns}%`,
            }}
            onClick={() => {
              props.choose(index);
              props.open?.(index);
            }}
          >
            {props.row(index)}
          </div>
        ))}
      </div>
    </div>
  );
}

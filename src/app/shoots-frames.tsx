import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Pick as FramePick, FrameRow, PlanInShoot, Stars } from "../shoots/index.ts";
import type { Bench } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import { useSize, useStore } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { FrameInHand } from "./shoots-frame.tsx";
import { Cover } from "./shoots-list.tsx";
import { LongList } from "./shoots-long-list.tsx";
import { useLibraryNews } from "./shoots-news.ts";
import { PagedRows, rowAt } from "./shoots-pages.ts";
import { clippedText, frameLight, frameTime, starWords } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";
import { count } from "./wording.ts";

interface FramesProps {
  readonly bench: Bench;
  readonly library: KeptLibrary;
  readonly shoot: string;
  /** frames of the shoot as it was last told */
  readonly many: number;
  readonly plans: readonly PlanInShoot[];
}

const CELL_WIDTH = 168;
const CELL_HEIGHT = 212;

/** Test frames in the order they were taken: rated and picked by key or by hand. */
export function ShootFrames({ bench, library, shoot, many, plans }: FramesProps) {
  const paged = useMemo(
    () => new PagedRows<FrameRow>((offset, limit) => library.frames(shoot, offset, limit)),
    [library, shoot],
  );
  const state = useStore(paged.store);
  const [at, setAt] = useState(0);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [selects, setSelects] = useState<readonly number[] | null>(null);
  useEffect(() => void paged.want(0, 0), [paged]);
  useEffect(() => void (state.total !== null && state.total !== many && paged.refresh()), [many]);
  useLibraryNews(bench, () => void paged.refresh(), shoot);
  const total = selects === null ? (state.total ?? 0) : selects.length;
  const inHand = Math.min(at, Math.max(0, total - 1));
  const numberAt = (index: number) => (selects === null ? index : (selects[index] ?? -1));
  const frameAt = (index: number) => paged.row(numberAt(index));
  const frame = frameAt(inHand);

  async function pick(index: number, change: FramePick) {
    const row = frameAt(index);
    if (row === null) return;
    const isIt = ({ id }: FrameRow) => id === row.id;
    const next = { ...row, ...change };
    setTrouble(null);
    paged.put(isIt, next);
    bench.say.set(`${row.name}: ${starWords(next.stars)}${next.isSelect ? ", select" : ""}`);
    try {
      paged.put(isIt, await library.pick(row.id, change));
    } catch (error) {
      paged.put(isIt, row);
      setTrouble(`${row.name} is not marked: ${troubleOf(error)}`);
    }
  }

  /** What is a select now; one that is let go of stays in sight until the choice is made anew. */
  async function onlySelects() {
    const { total: all } = paged.store.get();
    await paged.want(0, (all ?? 1) - 1);
    const known = paged.store.get();
    const numbers = Array.from({ length: known.total ?? 0 }, (_, i) => i);
    setSelects(numbers.filter((number) => rowAt(known, number)?.isSelect === true));
    setAt(0);
  }

  function press(key: string, index: number): boolean {
    const row = frameAt(index);
    if (row === null) return false;
    if (/^[0-5]$/.test(key)) void pick(index, { stars: Number(key) as Stars });
    else if (key === "s" || key === "S") void pick(index, { isSelect: !row.isSelect });
    else return false;
    return true;
  }

  if (state.total === 0 || (state.total === null && many === 0))
    return (
      <section class="whole-frames" aria-labelledby="frames-title">
        <h2 id="frames-title">Test frames</h2>
        <p class="quiet">
          None yet. While a plan of this shoot is on the table, every photograph that comes in on its page
          “test frames” belongs here.
        </p>
      </section>
    );
  return (
    <section class="whole-frames" aria-labelledby="frames-title" aria-busy={state.total === null}>
      <div class="section-head">
        <h2 id="frames-title">{count(state.total ?? many, "test frame")}</h2>
        <fieldset class="row">
          <legend class="visually-hidden">which are shown</legend>
          <Either text="all" on={selects === null} choose={() => setSelects(null)} />
          <Either text="selects" on={selects !== null} choose={() => void onlySelects()} />
        </fieldset>
      </div>
      {(trouble ?? state.trouble) !== null && (
        <p class="alert" role="alert">
          {trouble ?? state.trouble}
        </p>
      )}
      {frame !== null && (
        <FrameInHand frame={frame} plans={plans} pick={(change) => void pick(inHand, change)} />
      )}
      {total === 0 && state.total !== null && <p class="quiet">None of these frames is a select.</p>}
      {total > 0 && (
        <Across>
          {(columns) => (
            <LongList
              key={selects === null ? "all" : "selects"}
              label="Test frames in the order they were taken; 0 to 5 rate, s selects"
              class="frames-grid"
              total={total}
              columns={columns}
              rowHeight={CELL_HEIGHT}
              at={inHand}
              choose={setAt}
              press={press}
              see={(first, last) => {
                if (selects === null) void paged.want(first, last);
              }}
              row={(index) => <Cell frame={frameAt(index)} />}
            />
          )}
        </Across>
      )}
    </section>
  );
}

/** As many side by side as there is room for. */
function Across({ children }: { children: (columns: number) => ComponentChildren }) {
  const [box, size] = useSize<HTMLDivElement>();
  return (
    <div class="frames-box" ref={box}>
      {size !== null && children(Math.max(2, Math.floor(size.width / CELL_WIDTH)))}
    </div>
  );
}

function Cell({ frame }: { frame: FrameRow | null }) {
  return useMemo(() => (frame === null ? <span class="quiet">…</span> : <Frame frame={frame} />), [frame]);
}

function Frame({ frame }: { frame: FrameRow }) {
  const clips = clippedText(frame);
  return (
    <span class="frame-cell" data-select={frame.isSelect}>
      <Cover id={frame.hasThumbnail ? frame.id : null} />
      <span class="frame-name">{frame.name}</span>
      <span>
        <span class="quiet">{frameTime(frame)}</span>{" "}
        {frame.stars > 0 && <span>{starWords(frame.stars)}</span>}
        {frame.isSelect && <strong> select</strong>}
      </span>
      <span class="quiet">{frameLight(frame)}</span>
      {clips !== "" && <span class="alert">{clips}</span>}
    </span>
  );
}

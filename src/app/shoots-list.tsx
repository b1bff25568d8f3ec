import { useEffect, useMemo, useRef } from "preact/hooks";
import type { ShootRow } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { useMedia, useStore } from "./hooks.ts";
import { thumbnailOf } from "./library-client.ts";
import type { Found, FoundShoots } from "./shoots-found.ts";
import { LongList } from "./shoots-long-list.tsx";
import { rowAt } from "./shoots-pages.ts";
import { countsText, dayText, narrowedText, patternText, roomText, titleOf } from "./shoots-words.ts";
import { count } from "./wording.ts";

interface ListProps {
  readonly bench: Bench;
  readonly found: FoundShoots;
  readonly open: (id: string) => void;
}

const ROW = 76;
/** The same in three lines, where a row has no room for columns. */
const NARROW_ROW = 112;

/** Shoots that were found, newest first. */
export function ShootsList({ bench, found, open }: ListProps) {
  const state = useStore(found.store);
  const { units } = useStore(bench.view);
  const isNarrow = useMedia("(max-width: 1023px)");
  useSaidCount(bench, state);
  useEffect(() => {
    found.isLeft = false;
  }, [found]);
  if (state.total === null) return <Waiting found={found} trouble={state.trouble} />;
  if (state.total === 0) return <Nothing found={found} state={state} units={units} />;
  const openAt = (index: number) => {
    const row = rowAt(state, index);
    if (row !== null) open(row.id);
  };
  return (
    <section class="shoots-found" aria-labelledby="found-title">
      <h2 id="found-title" class="quiet">
        {count(state.total, "shoot")}
        {state.trouble !== null && <Trouble found={found} trouble={state.trouble} />}
      </h2>
      <LongList
        key={JSON.stringify(state.foundBy)}
        label="Shoots, newest first"
        class="shoots-list"
        total={state.total}
        columns={1}
        rowHeight={isNarrow ? NARROW_ROW : ROW}
        at={Math.min(state.at, state.total - 1)}
        choose={(at) => found.take(at)}
        open={openAt}
        see={(first, last) => void found.want(first, last)}
        scrollTop={found.scrollTop}
        hasKeys={found.isLeft}
        scrolled={(scrollTop) => {
          found.scrollTop = scrollTop;
        }}
        row={(index) => <Row row={rowAt(state, index)} units={units} />}
      />
    </section>
  );
}

/** Drawn anew only when it is another: scrolling draws the rows that come in, and no others. */
function Row({ row, units }: { row: ShootRow | null; units: LengthUnits }) {
  return useMemo(
    () => (row === null ? <span class="quiet">…</span> : <Shoot row={row} units={units} />),
    [row, units],
  );
}

function Shoot({ row, units }: { row: ShootRow; units: LengthUnits }) {
  const where = [row.client, row.place].filter((text) => text !== "").join(" · ");
  const light = row.patterns.map(patternText).join(", ");
  return (
    <span class="shoots-row">
      <Cover id={row.cover} none="no frame yet" />
      <span class="shoots-what">
        <span class="title">{titleOf(row)}</span>
        {where !== "" && <span class="quiet">{where}</span>}
      </span>
      <span class="shoots-day">{dayText(row.date)}</span>
      <span class="shoots-light">
        {light !== "" && <span>{light}</span>}
        <span class="quiet">{row.lights.join(", ")}</span>
      </span>
      <span class="shoots-counts">
        <span>{countsText(row)}</span>
        <span class="quiet">
          {[...row.rooms.map((room) => roomText(room, units)), ...(row.isPutAway ? ["put away"] : [])].join(
            ", ",
          )}
        </span>
      </span>
    </span>
  );
}

interface CoverProps {
  readonly id: string | null;
  /** what stands in its place where there is none */
  readonly none?: string;
}

/** A small picture; one that cannot be shown leaves its place empty. */
export function Cover({ id, none }: CoverProps) {
  return (
    <span class="cover">
      {id === null && none !== undefined && (
        <span class="cover-none" aria-hidden="true">
          {none}
        </span>
      )}
      {id !== null && (
        <img
          key={id}
          src={thumbnailOf(id)}
          alt=""
          loading="lazy"
          decoding="async"
          onError={(event) => {
            event.currentTarget.hidden = true;
          }}
        />
      )}
    </span>
  );
}

function Waiting({ found, trouble }: { found: FoundShoots; trouble: string | null }) {
  return (
    <section class="shoots-none" aria-busy={trouble === null}>
      {trouble === null ? <p class="quiet">looking…</p> : <Trouble found={found} trouble={trouble} />}
    </section>
  );
}

function Trouble({ found, trouble }: { found: FoundShoots; trouble: string }) {
  return (
    <span class="alert line" role="alert">
      {trouble}{" "}
      <button type="button" onClick={() => void found.refresh()}>
        try again
      </button>
    </span>
  );
}

function Nothing({ found, state, units }: { found: FoundShoots; state: Found; units: LengthUnits }) {
  const { putAway, text, ...others } = state.foundBy;
  const said = [...(text ? [`“${text}”`] : []), narrowedText(others, units)]
    .filter((each) => each !== "")
    .join(", ");
  if (said === "" && putAway) return <p class="shoots-none">No shoot is put away.</p>;
  if (said === "")
    return (
      <div class="shoots-none">
        <p>No shoots yet.</p>
        <p class="quiet">
          A plan that is kept begins one by itself, under its own title. Or begin one with its day, place and
          client, and move plans into it.
        </p>
      </div>
    );
  return (
    <div class="shoots-none">
      <p>
        No shoot {putAway ? "that is put away " : ""}has all of this: {said}.
      </p>
      <p>
        <button type="button" onClick={() => void found.clear()}>
          clear<span class="visually-hidden"> the search, and see every shoot</span>
        </button>
      </p>
    </div>
  );
}

/** How many were found, once for each search. */
function useSaidCount(bench: Bench, { foundBy, total }: Found): void {
  const said = useRef(foundBy);
  useEffect(() => {
    if (total === null || said.current === foundBy) return;
    said.current = foundBy;
    bench.say.set(total === 0 ? "no shoot found" : `${count(total, "shoot")} found`);
  }, [bench, foundBy, total]);
}

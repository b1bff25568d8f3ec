import { useMemo } from "preact/hooks";
import type { Drawing } from "../sheet/index.ts";
import { formatStops } from "../units/index.ts";
import type { PowerLine } from "./contours.ts";
import type { Written } from "./drawing-view.tsx";
import type { Sheet } from "./handling.ts";
import { type Box, nameBox, type PlacedLabel } from "./label-places.ts";
import { placeLineLabels } from "./line-labels.ts";
import type { Cuts } from "./plane-cuts.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

interface LayerNotesProps {
  readonly sheet: Sheet;
  readonly drawing: Drawing;
  readonly cuts: Cuts;
  readonly lines: readonly PowerLine[];
  /** where the other sheet's plane lies on this one */
  readonly otherAt: number;
  readonly projection: Projection;
  readonly written: Written;
  /** what else is written there, under the objects */
  readonly beneath: Box | null;
}

/** What is written on the layers: the lines' numbers and the other plane's name, over everything else so that nothing
 * crosses them, and clear of objects, their names and the tapes. */
export function LayerNotes(props: LayerNotesProps) {
  const { sheet, drawing, cuts, lines, otherAt, projection, written, beneath } = props;
  const taken = useMemo(() => {
    // a backdrop's footprint is as large as the set; where it stands it is one of the cuts
    const things = drawing.labels.filter(({ owner }) => owner !== "backdrop");
    return [
      ...written.taken,
      ...(beneath === null ? [] : [beneath]),
      ...things.map(({ clear }) => paperBox(clear, projection)),
      ...cuts.flatMap((cut) => alongCut(cut, projection)),
    ];
  }, [drawing, cuts, projection, written, beneath?.x0, beneath?.x1, beneath?.y0]);
  const { inside, note } = useMemo(() => {
    const paper = paperBox(drawing.extent, projection);
    const { window } = written;
    const inside = {
      x0: Math.max(paper.x0, window.x0),
      y0: Math.max(paper.y0, window.y0),
      x1: Math.min(paper.x1, window.x1),
      y1: Math.min(paper.y1, window.y1),
    };
    return { inside, note: placeNote(sheet, otherAt, projection, inside, taken) };
  }, [sheet, drawing, otherAt, projection, written, taken]);
  const numbers = useMemo(
    () => placeLineLabels(lines, projection, inside, note === null ? taken : [...taken, nameBox(note)]),
    [lines, projection, inside, taken, note],
  );
  return (
    <Unspoken class="layer-notes">
      {numbers.map(({ stops, x, y }) => (
        <text key={`${stops} ${x} ${y}`} class="power" x={x} y={y} dy="0.35em">
          {formatStops(stops, 0)}
        </text>
      ))}
      {note !== null && (
        <text x={note.x} y={note.y} text-anchor={note.anchor}>
          {note.text}
        </text>
      )}
    </Unspoken>
  );
}

export function paperBox(extent: Drawing["extent"], projection: Projection): Box {
  const a = projection.toScreen(extent.across0, extent.up1);
  const b = projection.toScreen(extent.across1, extent.up0);
  return { x0: a.x, y0: a.y, x1: b.x, y1: b.y };
}

/** Along a slanting sheet small boxes leave more room than one that holds all of it. */
function alongCut([ax, ay, bx, by]: Cuts[number], projection: Projection): Box[] {
  const a = projection.toScreen(ax, ay);
  const b = projection.toScreen(bx, by);
  const parts = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 12));
  return Array.from({ length: parts + 1 }, (_, k) => {
    const x = a.x + (k / parts) * (b.x - a.x);
    const y = a.y + (k / parts) * (b.y - a.y);
    return { x0: x - 2, x1: x + 2, y0: y - 2, y1: y + 2 };
  });
}

/** The other plane's name beside its line, at the first place that is free; none where none is. */
function placeNote(
  sheet: Sheet,
  otherAt: number,
  projection: Projection,
  inside: Box,
  taken: readonly Box[],
): PlacedLabel | null {
  const isFloor = sheet.name === "Floor";
  const text = isFloor ? "Side's layers" : "Floor's layers";
  const line = projection.toScreen(otherAt, otherAt);
  for (let k = 0; k < 24; k++) {
    const note: PlacedLabel = isFloor
      ? {
          owner: "",
          text,
          x: line.x + 6,
          y: inside.y1 - 8 - (k * (inside.y1 - inside.y0)) / 24,
          anchor: "start",
        }
      : {
          owner: "",
          text,
          x: inside.x1 - 6 - (k * (inside.x1 - inside.x0)) / 24,
          y: line.y - 5,
          anchor: "end",
        };
    const box = nameBox(note);
    if (box.x0 < inside.x0 || box.x1 > inside.x1 || box.y0 < inside.y0 || box.y1 > inside.y1) continue;
    if (
      !taken.some((other) => box.x0 < other.x1 && other.x0 < box.x1 && box.y0 < other.y1 && other.y0 < box.y1)
    )
      return note;
  }
  return null;
}

/** The record's pictures: planned beside taken, and what else was kept. */
import { fillRegions, type Maker, type SheetPicture, stacked } from "./beside.ts";
import { LEADING, type Piece, paragraphPiece, TEXT } from "./flow.ts";
import { imageOf } from "./picture.ts";
import type { RecordFrame } from "./record-types.ts";
import { HAIR, QUIET, rectOf } from "./svg.ts";

const HIGHEST = 68;
const GAP = 6;
const ACROSS = 4;
const SMALL_HIGHEST = 34;

/** The planned picture alone, with room beside it for what is said of it; what found no room comes back. */
export function plannedAlone(
  planned: { readonly picture: SheetPicture; readonly exposure: string },
  makers: readonly Maker[],
  width: number,
): { readonly piece: Piece; readonly left: readonly Maker[] } {
  const half = (width - GAP) / 2;
  const left = captioned(planned.picture, half, HIGHEST, [PLANNED, planned.exposure]);
  const across = Math.min(half, (planned.picture.width / planned.picture.height) * HIGHEST) + GAP;
  const told: Maker[] = [
    (w) => paragraphPiece("No photograph is with this record.", w, { fill: QUIET, after: 2 }),
    ...makers,
  ];
  const room = { x: across, y: 0, width: width - across, height: left.height };
  const set: { readonly piece: Piece; readonly x: number; readonly y: number }[] = [];
  const over = fillRegions(told, [room], (piece, x, y) => set.push({ piece, x, y }));
  return {
    piece: {
      height: left.height + 1,
      draw: (x, y) => [...left.draw(x, y), ...set.flatMap((each) => each.piece.draw(x + each.x, y + each.y))],
    },
    left: over,
  };
}

const PLANNED = "planned: the frame as the plan exposes it";

/** Two pictures of one height beside each other, what each is under it. */
export function picturesPiece(
  planned: { readonly picture: SheetPicture; readonly exposure: string },
  pick: RecordFrame,
  width: number,
): Piece {
  const half = (width - GAP) / 2;
  const left = captioned(planned.picture, half, HIGHEST, [PLANNED, planned.exposure]);
  const right = captioned(pick.picture, half, HIGHEST, [
    listed([`taken: ${pick.name}`, pick.when, pick.marks]),
    pick.exposure ?? "the file does not say how it was exposed",
  ]);
  return {
    height: Math.max(left.height, right.height) + 1,
    draw: (x, y) => [...left.draw(x, y), ...right.draw(x + half + GAP, y)],
  };
}

/** So many a row, under each its name and what was read off it. */
export function othersPieces(frames: readonly RecordFrame[], width: number): Piece[] {
  const each = (width - (ACROSS - 1) * GAP) / ACROSS;
  const pieces = frames.map((frame) =>
    captioned(frame.picture, each, SMALL_HIGHEST, [
      listed([frame.name, frame.when]),
      listed([frame.marks, frame.light]),
      ...(frame.exposure === null ? [] : [frame.exposure]),
    ]),
  );
  const rows = Array.from({ length: Math.ceil(pieces.length / ACROSS) }, (_, i) =>
    pieces.slice(i * ACROSS, (i + 1) * ACROSS),
  );
  return rows.map((row) => ({
    height: Math.max(...row.map((piece) => piece.height)) + 2,
    draw: (x, y) => row.flatMap((piece, i) => piece.draw(x + i * (each + GAP), y + 1)),
  }));
}

function captioned(
  picture: SheetPicture | null,
  width: number,
  highest: number,
  lines: readonly string[],
): Piece {
  const scale = picture === null ? 0 : Math.min(width / picture.width, highest / picture.height);
  const size = picture === null ? [highest, highest] : [picture.width * scale, picture.height * scale];
  const [across, tall] = [Math.min(width, size[0]), size[1]];
  const captions = lines
    .filter((line) => line !== "")
    .map((line, i) => paragraphPiece(line, width, { after: 0, ...(i === 0 ? { weight: 600 } : {}) }));
  const said = stacked(captions);
  return {
    height: tall + 1 + said.height,
    draw: (x, y) => [
      ...(picture === null ? noPicture(x, y, across, tall) : imageOf(picture, x, y, across, tall)),
      ...said.draw(x, y + tall + 1),
    ],
  };
}

function noPicture(x: number, y: number, width: number, height: number): string[] {
  return [
    rectOf(x, y, width, height, { stroke: HAIR, width: 0.2 }),
    ...paragraphPiece("no small picture is kept", width - 4, { size: TEXT, fill: QUIET }).draw(
      x + 2,
      y + height / 2 - LEADING,
    ),
  ];
}

function listed(words: readonly string[]): string {
  return words.filter((word) => word !== "").join(", ");
}

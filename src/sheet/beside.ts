/** What stands beside the drawings: the picture, the face, the camera. */

import { lightFromWords, litSideWords, marginWords } from "../reading/index.ts";
import { cameraTable } from "./camera-table.ts";
import { type Piece, paragraphPiece } from "./flow.ts";
import { nameWords } from "./reading-tables.ts";
import type { SetupContext } from "./setup-order.ts";
import { INK, mm, QUIET, rectOf } from "./svg.ts";
import { isCrowd } from "./tables.ts";
import { ratioWords } from "./words.ts";

export interface SheetPicture {
  /** data:image/png;base64,… or the base64 text alone */
  readonly data: string;
  readonly width: number;
  readonly height: number;
}

/** A piece for a column whose width is not known yet. */
export type Maker = (width: number) => Piece;

export interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const PICTURE_HEIGHT = 48;
/** The narrowest column that is worth writing in, and the air between two, mm. */
export const NARROWEST = 46;
export const COLUMN_GAP = 8;
/** Puts makers into regions in order; what is left comes back. Nothing overtakes: reading order is kept. A wide room is two
 * columns, unless more finds room in one, or where two rooms have one right column. */
export function fillRegions(
  makers: readonly Maker[],
  regions: readonly Region[],
  emit: (piece: Piece, x: number, y: number) => void,
): Maker[] {
  const tried = joined(regions).map((columns) => filledIn(makers, columns));
  const best = tried.reduce((a, b) => (b.length > a.length ? b : a), eachFilled(makers, regions));
  for (const { piece, x, y } of best) emit(piece, x, y);
  return makers.slice(best.length);
}

function eachFilled(makers: readonly Maker[], regions: readonly Region[]): Placed[] {
  const placed: Placed[] = [];
  for (const region of regions) {
    const left = makers.slice(placed.length);
    const [one, two] = [[region], split(region)].map((columns) => filledIn(left, columns));
    placed.push(...(one.length > two.length ? one : two));
  }
  return placed;
}

/** Between two widths that are tried, mm. */
const FINER = 2;

/** Of two rooms, one over the other and both wide: a left column in each, and one down the right of both, which is as wide as
 * they or wider. */
function joined(regions: readonly Region[]): Region[][] {
  if (regions.length !== 2) return [];
  const [upper, lower] = regions;
  const least = Math.min(upper.width, lower.width) - COLUMN_GAP;
  const ways: Region[][] = [];
  for (let width = least / 2; least - width >= NARROWEST; width += FINER) {
    const lefts = regions.map((region) => ({ ...region, width: region.width - width - COLUMN_GAP }));
    const x = upper.x + upper.width - width;
    ways.push([...lefts, { x, y: upper.y, width, height: lower.y + lower.height - upper.y }]);
  }
  return ways;
}

interface Placed {
  readonly piece: Piece;
  readonly x: number;
  readonly y: number;
}

function filledIn(makers: readonly Maker[], columns: readonly Region[]): Placed[] {
  const placed: Placed[] = [];
  for (const { x, y, width, height } of columns) {
    let top = y;
    while (placed.length < makers.length) {
      const piece = makers[placed.length](width);
      if (top + piece.height > y + height) break;
      placed.push({ piece, x, y: top });
      top += piece.height;
    }
  }
  return placed;
}

function split(region: Region): Region[] {
  const width = (region.width - COLUMN_GAP) / 2;
  if (width < NARROWEST) return [region];
  return [
    { ...region, width },
    { ...region, x: region.x + width + COLUMN_GAP, width },
  ];
}

export function besideMakers(context: SetupContext, picture: SheetPicture | undefined): Maker[] {
  const { plan, reading } = context;
  const makers: Maker[] = [];
  if (picture !== undefined)
    makers.push((width) => picturePiece(picture, width, "the frame as the plan exposes it"));
  if (!isCrowd(plan)) {
    plan.people.forEach((person, i) => {
      const { face } = reading.people[i];
      const light = lightFromWords(face);
      const margin = marginWords(face);
      makers.push(
        block(
          nameWords(face),
          plan.people.length > 1 ? `${person.name}: ${litSideWords(face)}` : litSideWords(face),
          [
            ratioWords(face),
            ...(light === null ? [] : [`light from ${light}`]),
            ...(margin === null ? [] : [margin]),
          ],
        ),
      );
    });
  }
  makers.push((width) => cameraTable(context, width));
  return makers;
}

function block(title: string, about: string, lines: readonly string[]): Maker {
  return (width) =>
    stacked([
      paragraphPiece(title, width, { size: 4.4, weight: 600, after: 0 }),
      paragraphPiece(about, width, { weight: 600, after: 0 }),
      ...lines.map((line, i) => paragraphPiece(line, width, { after: i === lines.length - 1 ? 3 : 0 })),
    ]);
}

/** One under the other, with some air after the last. */
export function stacked(pieces: readonly Piece[], after = 0): Piece {
  return {
    height: pieces.reduce((sum, p) => sum + p.height, after),
    draw: (x, y) => {
      let top = y;
      return pieces.flatMap((piece) => {
        const parts = piece.draw(x, top);
        top += piece.height;
        return parts;
      });
    },
  };
}

function picturePiece(picture: SheetPicture, width: number, words: string): Piece {
  const scale = Math.min(width / picture.width, PICTURE_HEIGHT / picture.height);
  const [w, h] = [picture.width * scale, picture.height * scale];
  const href = picture.data.startsWith("data:") ? picture.data : `data:image/png;base64,${picture.data}`;
  const below = paragraphPiece(words, width, { size: 2.8, fill: QUIET, after: 2.5 });
  return {
    height: h + 0.8 + below.height,
    draw: (x, y) => [
      `<image x="${mm(x)}" y="${mm(y)}" width="${mm(w)}" height="${mm(h)}" xlink:href="${href}"/>`,
      rectOf(x, y, w, h, { stroke: INK, width: 0.2 }),
      ...below.draw(x, y + h + 0.8),
    ],
  };
}

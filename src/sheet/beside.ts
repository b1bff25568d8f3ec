/** What stands beside the drawings: the picture, the face, the exposure, the camera. */

import { lightFromWords, litSideWords, marginWords, patternName } from "../reading/index.ts";
import { formatDegrees, formatLength } from "../units/index.ts";
import { type Piece, paragraphPiece } from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { INK, mm, QUIET, rectOf } from "./svg.ts";
import { backgroundWords, exposureWords, headroomWords, meterWords, ratioWords } from "./words.ts";

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

const PICTURE_HEIGHT = 62;
/** More faces than this are read in a table. */
export const FACES_BESIDE = 2;

/** Puts makers into regions in order; what is left comes back. Nothing overtakes: reading order is kept. */
export function fillRegions(
  makers: readonly Maker[],
  regions: readonly Region[],
  emit: (parts: readonly string[]) => void,
): Maker[] {
  let next = 0;
  for (const region of regions) {
    let y = region.y;
    while (next < makers.length) {
      const piece = makers[next](region.width);
      if (y + piece.height > region.y + region.height) break;
      emit(piece.draw(region.x, y));
      y += piece.height;
      next++;
    }
  }
  return makers.slice(next);
}

export function besideMakers(context: SetupContext, picture: SheetPicture | undefined): Maker[] {
  const { plan, reading } = context;
  const makers: Maker[] = [];
  if (picture !== undefined)
    makers.push((width) => picturePiece(picture, width, "the frame as the plan exposes it"));
  if (plan.people.length <= FACES_BESIDE) {
    plan.people.forEach((person, i) => {
      const { face } = reading.people[i];
      const light = lightFromWords(face);
      const margin = marginWords(face);
      makers.push(
        block(
          patternName(face.pattern),
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
  const { meter, places } = context;
  if (meter !== null) {
    const shown = reading.meters[meter];
    makers.push(block(shown.fStops, `at ${shown.name}, all on`, [meterWords(plan, meter, places.noses)]));
  }
  const background = backgroundWords(reading.camera);
  makers.push(
    block("Camera", exposureWords(plan.camera), [
      ...cameraLines(context),
      headroomWords(reading.camera),
      ...(background === null ? [] : [background]),
    ]),
  );
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

function stacked(pieces: readonly Piece[]): Piece {
  return {
    height: pieces.reduce((sum, p) => sum + p.height, 0),
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

function cameraLines({ plan, places, units }: SetupContext): string[] {
  const { orientation, sensor, whiteBalance } = plan.camera;
  const { nose, height_m, tilt_deg } = places.camera;
  const whose = plan.people.length > 1 && nose !== null ? ` of ${nose.person}` : "";
  const toNose = nose === null ? "" : `, ${formatLength(nose.distance_m, units)} to the nose${whose}`;
  const tilt = Math.round(tilt_deg);
  const way = tilt === 0 ? "level" : `${formatDegrees(Math.abs(tilt))} ${tilt > 0 ? "up" : "down"}`;
  return [
    `lens ${formatLength(height_m, units)} high${toNose}`,
    `${orientation}, ${way}, sensor ${sensor.width} × ${sensor.height} mm, ${whiteBalance} K`,
  ];
}

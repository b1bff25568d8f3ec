/** The sheet's table of where everything stands, and the notes under it. */
import type { Plan } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { type Cell, type Piece, rowPiece, type Section, TEXT, tableHead } from "./flow.ts";
import type { Place } from "./place.ts";
import type { SetupContext } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { textWidth } from "./text.ts";
import {
  aimWords,
  aloneReading,
  bearingWords,
  colourWords,
  faceWords,
  headWords,
  markName,
  markWords,
  meterWords,
  noseWords,
  panelWords,
  poseWords,
  powerWords,
  rollWords,
  sweepWords,
  wallsWords,
} from "./words.ts";

/** Widths in proportion. */
export const shares = (parts: readonly number[], width: number) => {
  const sum = parts.reduce((a, b) => a + b, 0);
  return parts.map((p) => (p / sum) * width);
};

/** A longer name is shortened, and told in full under the table. */
export const NAME_LINES = 2;

/** More people than this have a table of their own, marks and faces together. */
const BESIDE = 2;

export function isCrowd({ people }: Plan): boolean {
  return people.length > BESIDE;
}

export function placementWidths(width: number): number[] {
  return shares([30.6, 29.2, 14.2, 21.3, 28.3, 25.2, 39.2], width);
}

export function placementTable(context: SetupContext, width: number): Section {
  const { plan, places, units } = context;
  const widths = placementWidths(width);
  const floor = plan.room === null ? "from the mark" : "on the floor";
  const heading = tableHead(
    "Where everything stands",
    ["", floor, "height", "to the nose", "from the nose", "aim", "power, and alone"],
    widths,
  );
  const row = (name: string, about: string, place: Place, power: Cell, aim?: Cell): Piece =>
    rowPiece(
      [
        [
          { text: name, weight: 600, most: NAME_LINES },
          ...(about === "" ? [] : [{ text: about, fill: QUIET, most: 5 }]),
        ],
        floorCell(place, units),
        [{ text: formatLength(place.height_m, units), weight: 600 }],
        awayCell(place, units, plan),
        fromNoseCell(place, plan, widths[4]),
        aim ?? aimCell(place),
        power,
      ],
      widths,
    );
  const rows: Piece[] = [];
  const alone = isCrowd(plan) ? [] : places.people;
  alone.forEach((place, i) => {
    const person = plan.people[i];
    rows.push(
      rowPiece(
        [
          [
            { text: place.name, weight: 600, most: NAME_LINES },
            { text: `mark, ${poseWords(person, units)}`, fill: QUIET },
          ],
          place.mark === null && place.walls === null
            ? [{ text: "the tape's zero", weight: 600 }]
            : floorCell(place, units),
          [
            { text: formatLength(place.noseHeight_m, units), weight: 600 },
            { text: "nose", fill: QUIET },
          ],
          [],
          [],
          [{ text: bearingWords(place.bearing_deg) }],
          headWords(person).map((text) => ({ text })),
        ],
        widths,
      ),
    );
  });
  for (const mark of places.marks)
    rows.push(
      rowPiece(
        [
          [
            { text: mark.name, weight: 600, most: NAME_LINES },
            { text: "tape on the floor", fill: QUIET },
          ],
          floorCell(mark, units),
          [],
          awayCell({ ...mark, nose: null }, units, plan),
          ...[[], [], []],
        ],
        widths,
      ),
    );
  rows.push(row("camera", "to the lens", places.camera, []));
  places.lights.forEach((place, i) => {
    const light = plan.lights[i];
    const colour = colourWords(light, plan.camera.whiteBalance);
    const about = faceWords(light.face, units) + (colour === null ? "" : `, ${colour}`);
    rows.push(row(light.name, about, place, powerCell(context, i)));
  });
  places.panels.forEach((place, i) => {
    rows.push(row(plan.panels[i].name, panelWords(plan.panels[i], units).replace(/^panel /, ""), place, []));
  });
  if (places.backdrop !== null && plan.backdrop !== null) {
    const { backdrop } = places;
    const aim = [{ text: bearingWords(backdrop.bearing_deg) }];
    rows.push(
      rowPiece(
        [
          [
            { text: backdrop.name, weight: 600 },
            { text: `${formatLength(plan.backdrop.width, units)} wide`, fill: QUIET },
          ],
          floorCell(backdrop, units),
          [
            { text: formatLength(backdrop.height_m, units), weight: 600 },
            { text: "top", fill: QUIET },
          ],
          awayCell({ ...backdrop, nose: null }, units, plan),
          [],
          aim,
          [{ text: sweepWords(plan.backdrop, units) }],
        ],
        widths,
      ),
    );
  }
  return { heading, rows };
}

/** From two walls; in open space from the nearest mark, along the set's own axes. */
export function floorCell({ walls, mark }: Place, units: LengthUnits): Cell {
  if (walls !== null) return wallsWords(walls, units).map((text) => ({ text, weight: 600 as const }));
  if (mark === null) return [];
  return markWords(mark, units).map((text) => ({ text, weight: 600 as const }));
}

/** In space to the nose, and straight over the floor to the mark. */
function awayCell({ nose, mark, walls }: Place, units: LengthUnits, plan: Plan): Cell {
  const toNose: Cell = nose === null ? [] : [{ text: formatLength(nose.distance_m, units), weight: 600 }];
  if (mark === null || (walls !== null && mark.person === null)) return toNose;
  // whose nose it is stands beside it
  const name = mark.person === nose?.person ? "mark" : markName(mark, plan);
  const tape = formatLength(mark.distance_m, units);
  // a long name is cut, never the length after it
  return [
    ...toNose,
    ...(name === "mark" ? [{ text: `mark ${tape}` }] : [{ text: name, most: NAME_LINES }, { text: tape }]),
  ];
}

/** A name that is wider than this share of its column has lines of its own. */
const SHORT_NAME = 0.8;

/** Among several with the name before it: "viola: 31° to own left, 20° up". */
function fromNoseCell({ nose }: Place, plan: Plan, width: number): Cell {
  const words = noseWords(nose);
  if (nose === null || plan.people.length < 2) return [{ text: words }];
  const isShort = textWidth(nose.person, TEXT) < SHORT_NAME * width;
  return isShort
    ? [{ text: `${nose.person}: ${words}` }]
    : [{ text: `${nose.person}:`, most: NAME_LINES }, { text: words }];
}

function aimCell(place: Place): Cell {
  const roll = rollWords(place.roll_deg);
  return [{ text: aimWords(place.bearing_deg, place.tilt_deg) }, ...(roll === null ? [] : [{ text: roll }])];
}

function powerCell({ plan, reading, units, meter }: SetupContext, i: number): Cell {
  const light = plan.lights[i];
  if (!light.on)
    return [
      { text: "off", weight: 600 },
      { text: powerWords(light, units), fill: QUIET },
    ];
  const receptor = meter === null ? "spot" : plan.meters[meter].receptor;
  if (meter === null || receptor === "spot") return [{ text: powerWords(light, units), weight: 600 }];
  const alone = aloneReading(plan, reading.meters[meter], receptor, light.name);
  return [{ text: powerWords(light, units), weight: 600 }, { text: `alone ${alone}` }];
}

/** Under the table: what its words mean. */
export function tableNotes({ plan, places, meter }: SetupContext): string[] {
  const notes = [
    "Bearing: 0° straight into the set, 90° to the right. Lights, panels: from the centre of the front, to the tip of the nose, to the floor.",
  ];
  if (plan.room === null && plan.people.length > 0)
    notes.push(
      "No room is given: left, right and into the set are as seen from the camera side, from the nearest mark on the floor.",
    );
  if (meter !== null) {
    const ambient = plan.ambient.lux > 0 ? " The ambient light is left out." : "";
    notes.push(
      `Alone: that light and what the room returns of it, at meter ${plan.meters[meter].name} (${meterWords(plan, meter, places.noses)}), ISO ${plan.camera.iso}.${ambient}`,
    );
  } else if (plan.lights.length > 0)
    notes.push("The plan has no flat or dome meter, so no light is given a reading by itself.");
  return notes;
}

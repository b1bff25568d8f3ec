/** Everything that is set on the camera, one under the other. */
import { formatLength } from "../units/index.ts";
import { LEADING, type Piece, paragraphPiece, TEXT } from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { textWidth } from "./text.ts";
import { backgroundWords, exposureWords, headroomWords, tidy } from "./words.ts";

type Line = readonly [label: string, value: string];

/** Where it stands is in the table of everything that stands. */
export function cameraLines({ plan, reading, units }: SetupContext): Line[] {
  const { camera, print } = plan;
  const { sensor, pixels } = camera;
  const background = backgroundWords(reading.camera);
  const lines: (Line | null)[] = [
    ["set to", exposureWords(camera)],
    ["white at", `${tidy(camera.whiteBalance)} K`],
    ["held", `${camera.orientation}, sensor ${tidy(sensor.width)} × ${tidy(sensor.height)} mm`],
    pixels === null ? null : ["file", `${pixels.width} × ${pixels.height} pixels`],
    print === null
      ? null
      : [
          "for",
          `${print.use === "" ? "print" : print.use}, ${formatLength(print.width, units)} × ${formatLength(print.height, units)}`,
        ],
    ["skin", headroomWords(reading.camera).replace(/^skin /, "")],
    background === null ? null : ["behind", background.replace(/^background /, "")],
  ];
  return lines.filter((line) => line !== null);
}

/** A heading and its lines; what is long goes on under itself. */
export function cameraTable(context: SetupContext, width: number): Piece {
  const lines = cameraLines(context);
  const indent = Math.min(0.4 * width, Math.max(...lines.map(([label]) => textWidth(label, TEXT)))) + 2.5;
  const heading = paragraphPiece("Camera", width, { size: 4.4, weight: 600, after: 0 });
  const rows = lines.map(([label, value]) => ({
    label: paragraphPiece(label, indent - 1.5, { fill: QUIET, after: 0 }),
    value: paragraphPiece(value, width - indent, { after: 0 }),
  }));
  const heightOf = ({ label, value }: (typeof rows)[number]) => Math.max(label.height, value.height);
  return {
    height: heading.height + rows.reduce((sum, row) => sum + heightOf(row), 0) + 0.7 * LEADING,
    draw: (x, y) => {
      let top = y + heading.height;
      return [
        ...heading.draw(x, y),
        ...rows.flatMap((row) => {
          const parts = [...row.label.draw(x, top), ...row.value.draw(x + indent, top)];
          top += heightOf(row);
          return parts;
        }),
      ];
    },
  };
}

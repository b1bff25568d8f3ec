/** Lights in the eyes of a variation. */
import { viewfinder } from "./camera-rays.ts";
import { lightsAtEye } from "./catchlight-trace.ts";
import { catchlightsIn, EYES } from "./catchlights.ts";
import { corneaOf } from "./cornea.ts";
import type { Lighting } from "./lighting.ts";
import type { TryReading } from "./try-reading.ts";
import type { TryBase } from "./try-stage.ts";

/** As a whole reading looks at eyes: places of no weight here. */
const WIDTH = 1000;

/** As finely as the whole readings that it stands beside. */
export function triedEyes(
  { quality }: TryBase["lighting"],
  tried: Lighting,
  person: number,
): TryReading["catchlights"] {
  const lighting = { ...tried, quality };
  const { stage, memory } = lighting;
  const view = viewfinder(stage.plan.camera, WIDTH);
  const staged = stage.people[person];
  const { leftEye, rightEye } = staged.shape.head;
  return EYES.flatMap((eye) => {
    const cornea = corneaOf(staged, eye === "left" ? leftEye : rightEye, view);
    const seen = memory.recall(`${eye} eye ${person}`, lighting.lightKey + JSON.stringify(view), () =>
      lightsAtEye(lighting, cornea, memory, `${eye} opening ${person}`),
    );
    return catchlightsIn(lighting, person, eye, cornea, seen, view)
      .filter(({ visible }) => visible)
      .map(({ light, clock }) => ({ eye, light, clock }));
  });
}

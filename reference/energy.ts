/** Where the light of a lamp ends: in surfaces, or in what takes all (lights' plates, the inside of bodies). */
import { behindPlates, gatherPatches, TILES, viewFactors } from "../src/engine/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { Memory } from "../src/reading/index.ts";
import { directOnPatches, lightUp, WORK } from "../src/reading/lighting.ts";

export interface Balance {
  /** light that left the lamp and reached a surface straight */
  readonly direct: number;
  /** light that surfaces took in, of one lumen-second that left */
  readonly absorbed: number;
  /** light that surfaces sent into what takes all */
  readonly lost: number;
}

export function balanceOf(plan: Plan, light: number): Balance {
  const memory = new Memory();
  const lighting = lightUp(plan, "fine", memory);
  const { patches } = lighting.stage.scene;
  const direct = directOnPatches(memory, lighting, lighting.stage, "fine", light);
  const { arriving, bounced, through } = lighting.exitance[light];
  // what patches see of each other, as it was solved with
  const gather = gatherPatches(lighting.stage.tracer, WORK.fine.raysPerPatchPoint);
  const visible = behindPlates(gather, lighting.stage.scene.emitters);
  const views = viewFactors(gather, visible, patches);
  const out = { direct: 0, absorbed: 0, lost: 0 };
  for (let p = 0; p < patches.count; p++) {
    let straight = 0;
    let sent = 0;
    for (let t = TILES * p; t < TILES * (p + 1); t++) {
      straight += direct[t] / TILES;
      sent += (bounced[3 * t] + through[t]) / TILES;
    }
    const kept = 1 - patches.bounceReflectance[3 * p] - patches.transmittance[p];
    let row = 0;
    for (let k = views.offset[p]; k < views.offset[p + 1]; k++) row += views.factor[k];
    out.direct += patches.area[p] * straight;
    out.absorbed += patches.area[p] * kept * (straight + arriving[3 * p]);
    out.lost += patches.area[p] * sent * (1 - row);
  }
  return out;
}

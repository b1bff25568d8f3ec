/** Everything that is read off one face. */

import { readBridge } from "./bridge.ts";
import { viewfinder } from "./camera-rays.ts";
import { readCatchlights } from "./catchlights.ts";
import { faceExposure, faceShares } from "./face-light.ts";
import type { Lighting } from "./lighting.ts";
import { nearestPattern } from "./margins.ts";
import { readPattern } from "./pattern.ts";
import { shadowEdgeMillimetres } from "./shadow-edge.ts";
import type { FaceReading } from "./types.ts";

/** A nose within this of the lens is square to it (plan format). */
const SQUARE_DEGREES = 10;

export function readFace(lighting: Lighting, person: number): FaceReading {
  const { stage } = lighting;
  const staged = stage.people[person];
  const shares = faceShares(lighting, person);
  const exposure = faceExposure(lighting, shares);
  const bridge = readBridge(stage.plan, lighting, person);
  const found = readPattern(shares.samples, exposure, staged.shape.head.landmarks, bridge.arriving);
  const main = strongestLight(lighting, shares.direct);
  const litSign = found.litSide === "right" ? -1 : 1;
  const fine = lighting.quality === "fine";
  return {
    ...found,
    side: sideSeen(lighting, person, found.litSide),
    light: { azimuth: bridge.azimuth, elevation: bridge.elevation },
    vectorScalarRatio: bridge.vectorScalarRatio,
    shadowEdgeMillimetres: fine && main >= 0 ? shadowEdgeMillimetres(lighting, person, main, litSign) : null,
    // a border is searched for only when the plan stands still
    nearest: fine ? nearestPattern(lighting, person, shares, bridge.arriving, found.pattern) : null,
    catchlights: readCatchlights(lighting, person, viewfinder(stage.plan.camera, 1000)),
  };
}

/** The light that gives the face most directly; -1 where none does. */
function strongestLight(lighting: Lighting, direct: readonly Float64Array[]): number {
  let best = -1;
  let most = 0;
  direct.forEach((d, l) => {
    if (!lighting.stage.lights[l].on) return;
    let sum = 0;
    for (const x of d) sum += x;
    sum *= lighting.stage.lights[l].lumenSeconds;
    if (sum > most) {
      most = sum;
      best = l;
    }
  });
  return best;
}

/** Broad: the lit side is turned to the camera; short: turned away (Navy manual, published-checks section 9). */
function sideSeen(lighting: Lighting, person: number, litSide: FaceReading["litSide"]): FaceReading["side"] {
  const { stage } = lighting;
  const staged = stage.people[person];
  const r = staged.headRotation;
  const d = [0, 1, 2].map((k) => stage.plan.camera.position[k] - staged.headOffset[k]);
  const ahead = r[0] * d[0] + r[3] * d[1] + r[6] * d[2];
  const left = r[1] * d[0] + r[4] * d[1] + r[7] * d[2];
  // how far round to the own left the camera stands, as seen from the nose
  const round = (Math.atan2(left, ahead) * 180) / Math.PI;
  if (Math.abs(round) <= SQUARE_DEGREES || litSide === "even") return "square";
  return round > 0 === (litSide === "left") ? "broad" : "short";
}

/** What each light gives to the two cheeks, by the same samples as ratio and lit side are read from. */
import type { FaceShares } from "./face-light.ts";
import { type FaceMarks, faceParts, meanOver } from "./face-parts.ts";
import type { Lighting } from "./lighting.ts";
import type { Share } from "./types.ts";

export interface CheekShares {
  readonly left: Record<string, Share>;
  readonly right: Record<string, Share>;
}

/** Units  lx.s, means over the person's own left and own right cheek; lights that are on, and "ambient" */
export function cheekShares({ stage }: Lighting, shares: FaceShares, marks: FaceMarks): CheekShares {
  const parts = faceParts(shares.samples, marks);
  const out: CheekShares = { left: {}, right: {} };
  const bounced = new Float64Array(shares.samples.count);
  stage.lights.forEach(({ name, on, lumenSeconds, meterWeights: [r, g, b] }, l) => {
    if (!on) return;
    const all = shares.bounced[l];
    for (let s = 0; s < bounced.length; s++)
      bounced[s] = r * all[3 * s] + g * all[3 * s + 1] + b * all[3 * s + 2];
    const mean = (cheek: Uint16Array): Share => ({
      direct: lumenSeconds * (r + g + b) * meanOver(shares.samples, shares.direct[l], cheek),
      bounced: lumenSeconds * meanOver(shares.samples, bounced, cheek),
    });
    out.left[name] = mean(parts.leftCheek);
    out.right[name] = mean(parts.rightCheek);
  });
  if (stage.ambient > 0) {
    out.left.ambient = { direct: stage.ambient, bounced: 0 };
    out.right.ambient = { direct: stage.ambient, bounced: 0 };
  }
  return out;
}

/** Named regions of the face by place on the mask, centimetres: x own left, y up, z ahead. */
import { REGION, type Region } from "./types.ts";

export function regionOf(x: number, y: number, z: number): Region {
  const aside = Math.abs(x);
  if (aside < 1.9 && y < 2.2 && y > -2.3 && z > 4.6 - 0.25 * y) return REGION.nose;
  if (((aside - 3.16) / 2.0) ** 2 + ((y - 2.9) / 1.5) ** 2 < 1)
    return x > 0 ? REGION.leftSocket : REGION.rightSocket;
  // the fleshy front of the cheek, between socket, nose, mouth and jaw
  if (((aside - 4.3) / 1.5) ** 2 + ((y + 0.9) / 1.7) ** 2 < 1)
    return x > 0 ? REGION.leftCheek : REGION.rightCheek;
  if (y > 5.0 && aside < 4.6) return REGION.forehead;
  if (aside < 2.2 && y <= -2.2 && y > -3.6) return REGION.upperLip;
  if (aside < 2.4 && y < -6.0) return REGION.chin;
  return REGION.none;
}

/** Which camera took it, as the gear book knows it. */
import type { PhotoExif, ResponseCurve } from "./types.ts";

/** The camera that took a photograph, where its curve was measured. */
export interface KnownBody {
  readonly body: string;
  readonly curve: ResponseCurve;
}

/** Make, model and serial number as far as the file has them; null where it does not name a model. */
export function bodyOf({ make, model, serial }: PhotoExif): string | null {
  if (model === null) return null;
  // some makers write their name into the model too
  const isNamed = make !== null && !model.toLowerCase().startsWith(make.toLowerCase());
  return [isNamed ? make : null, model, serial].filter((part) => part !== null).join(" ");
}

export function knownBody(
  exif: PhotoExif,
  bodies: Readonly<Record<string, ResponseCurve>>,
): KnownBody | null {
  const body = bodyOf(exif);
  return body !== null && Object.hasOwn(bodies, body) ? { body, curve: bodies[body] } : null;
}

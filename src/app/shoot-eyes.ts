/** What speaks for one frame among others: sharpness at the eyes, lids, smear. Never a reason to throw one away. */
import type { PhotoFace } from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import { faceOf } from "./shoot-words.ts";

/** Two edges are told apart when one is wider by a fifth: the same frame read twice differs by less. */
const SHARPER = 1.2;
/** Lids count as open from here on, as shut up to there; between them half open. */
const OPEN = 0.6;
const SHUT = 0.2;

const pixels = (edge: number) => `${edge.toFixed(1)} px`;

/** "sharper at the eyes than IMG_0003.JPG: 2.1 px against 3.4 px"; beside the sharpest of the others of its size. */
export function sharpnessWords(
  frame: TestFrame,
  face: PhotoFace,
  frames: readonly TestFrame[],
  faces: Readonly<Record<string, number>>,
): string {
  const own = face.eyes.edgePixels;
  if (own === null) return "how sharp the eyes are cannot be told";
  const others = frames.flatMap((other) => {
    const { width, height, name } = other.reading.image;
    const isLike =
      other.id !== frame.id && width === frame.reading.image.width && height === frame.reading.image.height;
    const edge = isLike ? (faceOf(other, faces)?.eyes.edgePixels ?? null) : null;
    return edge === null ? [] : [{ name, edge }];
  });
  const best = others.reduce((a, b) => (b.edge < a.edge ? b : a), {
    name: "",
    edge: Number.POSITIVE_INFINITY,
  });
  if (best.name === "") return `the sharper eye's edges are ${pixels(own)} wide`;
  if (own * SHARPER <= best.edge)
    return `sharper at the eyes than ${best.name}, the next best: ${pixels(own)} against ${pixels(best.edge)}`;
  if (own >= best.edge * SHARPER)
    return `softer at the eyes than ${best.name}: ${pixels(own)} against ${pixels(best.edge)}`;
  return `as sharp at the eyes as ${best.name}: ${pixels(own)} against ${pixels(best.edge)}`;
}

/** All three; one line where none can be told. */
export function eyeLines(
  frame: TestFrame,
  face: PhotoFace,
  frames: readonly TestFrame[],
  faces: Readonly<Record<string, number>>,
): string[] {
  const { edgePixels, motion, open } = face.eyes;
  if (edgePixels === null && motion === null && open.left === null && open.right === null)
    return ["too little of the eyes is seen to tell sharpness, lids or smear"];
  return [sharpnessWords(frame, face, frames, faces), lidsWords(face.eyes), motionWords(face.eyes)];
}

export function lidsWords({ open }: PhotoFace["eyes"]): string {
  const word = (share: number | null) =>
    share === null ? null : share >= OPEN ? "open" : share <= SHUT ? "shut" : "half open";
  const [left, right] = [word(open.left), word(open.right)];
  if (left === null && right === null) return "lids cannot be told";
  if (left === right) return left === "open" ? "both eyes open" : `both eyes ${left}`;
  return [left && `own left eye ${left}`, right && `own right eye ${right}`]
    .filter((part) => part !== null)
    .join(", ");
}

/** Under a pixel nothing is seen. */
const LEAST_SMEAR = 1;

export function motionWords({ motion }: PhotoFace["eyes"]): string {
  if (motion === null) return "smear cannot be told";
  if (motion.pixels < LEAST_SMEAR) return "no smear";
  const turned = ((motion.direction % 180) + 180) % 180;
  const way =
    turned < 22.5 || turned > 157.5
      ? "level"
      : Math.abs(turned - 90) < 22.5
        ? "upright"
        : `at ${Math.round(turned)}°`;
  return `smeared by ${pixels(motion.pixels)}, ${way}`;
}

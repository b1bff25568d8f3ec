import type { PhotoFace } from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import { LightArrow } from "./shoot-arrow.tsx";
import { BRIDGE } from "./shoot-planned.ts";
import { signedStops } from "./wording.ts";

interface OverlayProps {
  readonly frame: TestFrame;
  readonly face: PhotoFace;
  /** its number among the frame's faces */
  readonly index: number;
  readonly choose: (index: number) => void;
}

/** Over a photograph, in its own pixels: every face that was found, and of the one that is read where its light comes from
 * and how far its cheeks lie under clipping. */
export function FrameOverlay({ frame, face, index, choose }: OverlayProps) {
  const { faces, image } = frame.reading;
  const { left, top, width, height } = face.box;
  const x = left + width / 2;
  const y = top + BRIDGE * height;
  return (
    <div class="guides shoot-guides">
      <svg viewBox={`0 0 ${image.width} ${image.height}`} aria-hidden="true">
        {faces.map((each, i) => (
          <HeightLine key={`${each.box.left} ${each.box.top}`} box={each.box} isRead={i === index} />
        ))}
        {face.second !== null && (
          <LightArrow {...{ x, y }} size={height} from={face.second.fromCamera} isSecond />
        )}
        {face.lightFromCamera !== null && (
          <LightArrow {...{ x, y }} size={height} from={face.lightFromCamera} />
        )}
      </svg>
      <CheekNumbers face={face} image={image} />
      {faces.length > 1 &&
        faces.map((each, i) => (
          <button
            key={`${each.box.left} ${each.box.top}`}
            type="button"
            class="face-choice"
            aria-pressed={i === index}
            style={{
              left: `${(100 * each.box.left) / image.width}%`,
              top: `${(100 * (each.box.top + each.box.height)) / image.height}%`,
            }}
            onClick={() => choose(i)}
          >
            {i + 1}
            <span class="visually-hidden"> of {faces.length} faces</span>
          </button>
        ))}
    </div>
  );
}

/** How high a face that was found is, as a dimension beside it. */
function HeightLine({ box, isRead }: { box: PhotoFace["box"]; isRead: boolean }) {
  const tick = 0.08 * box.width;
  const end = `m${-tick},0h${2 * tick}`;
  const d = `M${box.left},${box.top}v${box.height}${end}M${box.left},${box.top}${end}`;
  return (
    <>
      <path class="casing" d={d} />
      <path class={isRead ? "guide" : "guide other"} d={d} />
    </>
  );
}

/** Beside the face at the height of the cheeks; which side of the picture a cheek is on follows the person, who faces us. */
function CheekNumbers({ face, image }: { face: PhotoFace; image: TestFrame["reading"]["image"] }) {
  const { box, litCheekStops, litSide, ratioStops } = face;
  if (litCheekStops === null || ratioStops === null || litSide === null) return null;
  const down = `${(100 * (box.top + 0.62 * box.height)) / image.height}%`;
  const isLitRight = litSide !== "right";
  const lit = signedStops(-Math.abs(litCheekStops));
  const shadow = signedStops(-Math.abs(litCheekStops) - Math.abs(ratioStops));
  const [toLeft, toRight] = isLitRight ? [shadow, lit] : [lit, shadow];
  return (
    <div aria-hidden="true">
      <span class="cheek" style={{ right: `${100 - (100 * box.left) / image.width}%`, top: down }}>
        {toLeft}
      </span>
      <span class="cheek" style={{ left: `${(100 * (box.left + box.width)) / image.width}%`, top: down }}>
        {toRight}
      </span>
    </div>
  );
}

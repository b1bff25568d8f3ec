import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Apparent } from "../deliver/index.ts";
import type { Plan } from "../plan/index.ts";
import { type PictureRegion, WHOLE_PICTURE } from "../reading/index.ts";
import type { FramePicture, Quality } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";

/** Something to be painted, and how many of its own pixels the part has across. */
export interface Source {
  readonly image: CanvasImageSource;
  readonly from: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

interface PartProps {
  readonly source: Source | null;
  readonly part: Apparent;
  readonly density: number;
  /** width of the smear, in the page's pixels; 0 where the picture has its own already */
  readonly smear_px: number;
  readonly label: string;
}

/** A disc of a diameter blurs as much, by its second moment, as a bell whose sigma is a quarter of it. */
const SIGMA_OF_DISC = 0.25;

/** The part, as large as it looks: enlarged softly where the file has fewer pixels than the screen, as a printer does it. */
export function PartView({ source, part, density, smear_px, label }: PartProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [width, height] = [part.width_px, part.height_px].map((px) => Math.max(1, Math.round(px * density)));
  useLayoutEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context || !canvas.current || width === undefined || height === undefined) return;
    canvas.current.width = width;
    canvas.current.height = height;
    if (source === null) return;
    const { x, y, width: across, height: down } = source.from;
    context.imageSmoothingEnabled = true;
    context.imageSmoothingQuality = "high";
    const sigma = smear_px * density * SIGMA_OF_DISC;
    if (sigma > 0.1) context.filter = `blur(${sigma.toFixed(2)}px)`;
    context.drawImage(source.image, x, y, across, down, 0, 0, width, height);
  }, [source, width, height, smear_px, density]);
  return (
    <canvas
      ref={canvas}
      class="true-size"
      role="img"
      aria-label={label}
      style={{ width: `${part.width_px}px`, height: `${part.height_px}px` }}
    />
  );
}

/** The plan is typed at: the part is worked out when it has been still this long. */
const STILL_MS = 150;
/** A third of the size is there in a third of the time. */
const LEVELS: readonly { readonly quality: Quality; readonly share: number }[] = [
  { quality: "coarse", share: 0.34 },
  { quality: "fine", share: 1 },
];
/** As many as take a second or so to work out. */
const MOST_PIXELS_ACROSS = 900;

/** A part of the planned picture, with as many pixels as file and screen both have of it. Until it is worked out the same part
 * of the small picture of the whole stands in its place. */
export function usePlannedPart(
  bench: Bench,
  asked: Plan,
  part: Apparent,
  density: number,
  isWanted: boolean,
): { readonly source: Source | null; readonly isWorking: boolean } {
  const seen = useMemo(() => seenOf(asked), [asked]);
  // the same object as long as nothing of the picture changes: a finished size that is typed asks for nothing anew
  const plan = useMemo(() => asked, [seen]);
  const [found, setFound] = useState<{ of: string; plan: Plan; picture: FramePicture } | null>(null);
  const [isWorking, setWorking] = useState(false);
  const { frame, frameOf } = useStore(bench.results.store);
  const { left, top, right, bottom } = part.region;
  const screen = part.width_px * density;
  const width = Math.max(16, Math.round(Math.min(screen, part.filePixels ?? screen, MOST_PIXELS_ACROSS)));
  const of = [left, top, right, bottom].join();
  useEffect(() => {
    if (!isWanted) return;
    const stop = new AbortController();
    const region: PictureRegion = { left, top, right, bottom };
    const work = async () => {
      for (const { quality, share } of LEVELS) {
        const request = { width: Math.max(8, Math.round(width * share)), quality, region };
        const picture = await bench.trials.frame(plan, request, { signal: stop.signal });
        setFound({ of, plan, picture });
      }
      setWorking(false);
    };
    setWorking(true);
    const timer = setTimeout(() => {
      work().catch((error: unknown) => {
        if (stop.signal.aborted) return;
        setWorking(false);
        bench.say.set(`The picture could not be worked out: ${String(error)}`);
      });
    }, STILL_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [bench, plan, of, width, isWanted]);
  const isFound = found !== null && found.of === of && found.plan === plan;
  const own = useSourceOf(isFound ? found.picture : null, WHOLE_PICTURE);
  const isAlike = useMemo(() => frameOf !== null && seenOf(frameOf) === seen, [frameOf, seen]);
  const small = useSourceOf(isAlike ? frame : null, part.region);
  return { source: own ?? small, isWorking };
}

/** All of a plan that its picture comes from. */
function seenOf(plan: Plan): string {
  const camera = { ...plan.camera, pixels: null };
  return JSON.stringify({ ...plan, camera, title: "", print: null, meters: [], readings: [], brief: null });
}

/** A region of a picture that was worked out. */
function useSourceOf(picture: FramePicture | null, region: PictureRegion): Source | null {
  const image = useMemo(() => {
    if (picture === null) return null;
    const { height, rgba, width } = picture;
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    canvas.getContext("2d")?.putImageData(new ImageData(new Uint8ClampedArray(rgba), width, height), 0, 0);
    return canvas;
  }, [picture]);
  const { left, top, right, bottom } = region;
  return useMemo(
    () => image && { image, from: partOf(image.width, image.height, { left, top, right, bottom }) },
    [image, left, top, right, bottom],
  );
}

function partOf(width: number, height: number, { left, top, right, bottom }: PictureRegion): Source["from"] {
  return { x: left * width, y: top * height, width: (right - left) * width, height: (bottom - top) * height };
}

/** A part of a photograph, of its own pixels; null until it is there, or where the browser cannot show it. */
export function usePhotoPart(
  address: string | null,
  region: PictureRegion,
): { readonly source: Source | null; readonly isMissing: boolean } {
  const [image, setImage] = useState<HTMLImageElement | null>(null);
  const [isMissing, setMissing] = useState(false);
  useEffect(() => {
    setImage(null);
    setMissing(false);
    if (address === null) return;
    let isHere = true;
    const loaded = new Image();
    loaded.onload = () => isHere && setImage(loaded);
    loaded.onerror = () => isHere && setMissing(true);
    loaded.src = address;
    return () => {
      isHere = false;
    };
  }, [address]);
  const { left, top, right, bottom } = region;
  const source = useMemo(() => {
    if (image === null) return null;
    return { image, from: partOf(image.naturalWidth, image.naturalHeight, { left, top, right, bottom }) };
  }, [image, left, top, right, bottom]);
  return { source, isMissing };
}

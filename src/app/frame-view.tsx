import { useEffect, useRef } from "preact/hooks";
import type { FramePicture } from "../workbench/index.ts";

interface FrameViewProps {
  readonly picture: FramePicture | null;
  readonly aspect: number;
  readonly showClipped: boolean;
  readonly label: string;
}

/** Clipped pixels are painted over in this colour: nothing in a lit face is so blue-violet. */
const CLIP = [74, 60, 255] as const;

/** The picture itself, pixel for pixel as it was computed; coarse and fine fill the same box. */
export function FrameView({ picture, aspect, showClipped, label }: FrameViewProps) {
  const canvas = useRef<HTMLCanvasElement>(null);

  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (picture === null || !canvas.current || !context) return;
    const { width, height, rgba, clipped } = picture;
    if (canvas.current.width !== width) canvas.current.width = width;
    if (canvas.current.height !== height) canvas.current.height = height;
    const pixels = new Uint8ClampedArray(rgba);
    if (showClipped) {
      for (let pixel = 0; pixel < clipped.length; pixel++) {
        if (clipped[pixel] === 0) continue;
        pixels.set(CLIP, pixel * 4);
        pixels[pixel * 4 + 3] = 255;
      }
    }
    context.putImageData(new ImageData(pixels, width, height), 0, 0);
  }, [picture, showClipped]);

  return (
    <canvas
      ref={canvas}
      class="picture"
      role="img"
      aria-label={label}
      width={2}
      height={2}
      style={{ aspectRatio: String(aspect) }}
    />
  );
}

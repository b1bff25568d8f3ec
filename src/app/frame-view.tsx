import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { FramePicture } from "../workbench/index.ts";
import type { FrameLook } from "./frame-look.ts";
import { paint } from "./frame-paint.ts";
import { useSize } from "./hooks.ts";

interface FrameViewProps {
  readonly picture: FramePicture | null;
  readonly aspect: number;
  readonly look: FrameLook;
  readonly label: string;
  /** guides, laid over the picture in shares of it */
  readonly children?: ComponentChildren;
}

/** The picture itself, pixel for pixel as it was computed; coarse and fine fill the same box. */
export function FrameView({ picture, aspect, look, label, children }: FrameViewProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [box, size] = useSize<HTMLDivElement>();

  // with the words beside it, not a frame later
  useLayoutEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (picture === null || !canvas.current || !context) return;
    // patterns are as fine on the screen while the picture is coarse
    const finer = Math.max(1, Math.round(((size?.width ?? 0) * devicePixelRatio) / picture.width));
    const { width, height, pixels } = paint(picture, look, finer);
    if (canvas.current.width !== width) canvas.current.width = width;
    if (canvas.current.height !== height) canvas.current.height = height;
    context.putImageData(new ImageData(pixels, width, height), 0, 0);
  }, [picture, look, size]);

  return (
    <div ref={box} class="picture-box">
      <canvas
        ref={canvas}
        class="picture"
        role="img"
        aria-label={label}
        width={2}
        height={2}
        style={{ aspectRatio: String(aspect) }}
      />
      {children}
    </div>
  );
}

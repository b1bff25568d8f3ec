import { useEffect, useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { eyesPart } from "../reading/index.ts";
import type { FramePicture, Quality } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";

export interface EyesView {
  /** null until the first one is there */
  readonly picture: FramePicture | null;
  /** the eyes are outside the picture */
  readonly isOutside: boolean;
}

/** The plan is dragged: the eyes are worked out when it has been still this long. */
const STILL_MS = 150;
/** A third of the size is there in a third of the time. */
const LEVELS: readonly { readonly quality: Quality; readonly share: number }[] = [
  { quality: "coarse", share: 0.34 },
  { quality: "fine", share: 1 },
];

/** The part of the picture round the eyes, worked out anew as large as the print, only while it is looked at. */
export function useEyes(
  bench: Bench,
  plan: Plan,
  person: number,
  isOpen: boolean,
  width_px: number,
): EyesView {
  const region = useMemo(() => (isOpen ? eyesPart(plan, person) : null), [plan, person, isOpen]);
  const [picture, setPicture] = useState<FramePicture | null>(null);

  useEffect(() => {
    if (!isOpen) setPicture(null);
    if (region === null || width_px === 0) return;
    const stop = new AbortController();
    const work = async () => {
      for (const { quality, share } of LEVELS) {
        const request = { width: Math.round(width_px * share), quality, region };
        setPicture(await bench.trials.frame(plan, request, { signal: stop.signal }));
      }
    };
    const timer = setTimeout(() => {
      work().catch((error: unknown) => {
        if (!stop.signal.aborted) bench.say.set(`The eyes could not be worked out: ${String(error)}`);
      });
    }, STILL_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [bench, plan, region, isOpen, width_px]);

  return { picture, isOutside: isOpen && region === null };
}

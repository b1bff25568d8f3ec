/** How the picture is looked at: overlays and treatment. It changes no reading. */
export interface FrameLook {
  readonly clipping: boolean;
  /** tones as stops from the middle level, in colour */
  readonly zones: boolean;
  readonly mono: Mono;
  readonly thirds: boolean;
  readonly crops: boolean;
  readonly finalUse: boolean;
}

/** Black and white by luminance. */
export interface Mono {
  readonly on: boolean;
  /** -1 to 1: how many times two a stop at the middle level is stretched */
  readonly contrast: number;
  /** stops by which the deepest shadows are raised, 0 to `MOST_LIFT` */
  readonly shadowLift: number;
}

/** More would turn shadows over: the curve stays rising up to 2 / ln 2 = 2.885 stops. */
export const MOST_LIFT = 2;

export const PLAIN_LOOK: FrameLook = {
  clipping: false,
  zones: false,
  mono: { on: false, contrast: 0, shadowLift: 0 },
  thirds: false,
  crops: false,
  finalUse: false,
};

/** A look as it was kept; what is not understood is as it is at first. */
export function readLook(text: string | null): FrameLook {
  let kept: unknown = null;
  try {
    kept = JSON.parse(text ?? "null");
  } catch {
    return PLAIN_LOOK;
  }
  const of = (from: unknown, key: string): unknown =>
    typeof from === "object" && from !== null ? (from as Record<string, unknown>)[key] : undefined;
  const number = (value: unknown, least: number, most: number) =>
    typeof value === "number" && value >= least && value <= most ? value : 0;
  const mono = of(kept, "mono");
  return {
    clipping: of(kept, "clipping") === true,
    zones: of(kept, "zones") === true,
    mono: {
      on: of(mono, "on") === true,
      contrast: number(of(mono, "contrast"), -1, 1),
      shadowLift: number(of(mono, "shadowLift"), 0, MOST_LIFT),
    },
    thirds: of(kept, "thirds") === true,
    crops: of(kept, "crops") === true,
    finalUse: of(kept, "finalUse") === true,
  };
}

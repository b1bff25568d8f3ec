/** How the picture is looked at: overlays and treatment. It changes no reading. */
export interface FrameLook {
  readonly clipping: boolean;
  /** tones as stops from the middle level, in colour */
  readonly zones: boolean;
  readonly mono: { readonly on: boolean; readonly contrast: number; readonly shadowLift: number };
  readonly thirds: boolean;
  readonly crops: boolean;
  readonly finalUse: boolean;
}

export const PLAIN_LOOK: FrameLook = {
  clipping: false,
  zones: false,
  mono: { on: false, contrast: 0, shadowLift: 0 },
  thirds: false,
  crops: false,
  finalUse: false,
};

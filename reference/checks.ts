/** The form of a published check: the same rows feed the tests and docs/accuracy.md. */
export interface Check {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly published: number;
  readonly ours: () => number;
  /** relative where `published` is not 0, else absolute */
  readonly tolerance: number;
  readonly why: string;
}

export function difference(check: Check, ours: number): number {
  return check.published === 0 ? Math.abs(ours) : Math.abs(ours / check.published - 1);
}

/** Printed to six figures. */
export const PRINTED = { tolerance: 1e-5, why: "printed to six figures" } as const;

/** The form of a published check: the same rows feed the tests and docs/accuracy.md. A file `*.checks.ts` here that
 * exports `checks` is found by both. */
export interface Check {
  /** unique among all files; begins with the section of the published list */
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly published: number;
  readonly ours: () => number | Promise<number>;
  /** relative to `published`, or a plain difference where `absolute` is set or `published` is 0 */
  readonly tolerance: number;
  readonly absolute?: true;
  readonly why: string;
}

export function isAbsolute(check: Check): boolean {
  return check.absolute === true || check.published === 0;
}

export function difference(check: Check, ours: number): number {
  return isAbsolute(check) ? Math.abs(ours - check.published) : Math.abs(ours / check.published - 1);
}

/** Printed to six figures. */
export const PRINTED = { tolerance: 1e-5, why: "printed to six figures" } as const;

export function printed(
  id: string,
  what: string,
  source: string,
  published: number,
  ours: Check["ours"],
): Check {
  return { id, what, source, published, ours, ...PRINTED };
}

export const RADIANS = Math.PI / 180;

import { describe, expect, it } from "vitest";
import { type Check, difference } from "./checks.ts";

const files = import.meta.glob<{ checks: Check[] }>("./*.checks.ts", { eager: true });

for (const [file, { checks }] of Object.entries(files)) {
  describe(`[RF1] ${file.slice(2).replace(".checks.ts", "")}`, () => {
    it.each(checks.map((c) => [c.id, c] as const))("%s", (_, check) => {
      const ours = check.ours();
      expect(
        difference(check, ours),
        `${check.what}: published ${check.published}, ours ${ours}`,
      ).toBeLessThanOrEqual(check.tolerance);
    });
  });
}

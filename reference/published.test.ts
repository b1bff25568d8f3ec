import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Check, difference } from "./checks.ts";

for (const file of readdirSync("reference").filter((name) => name.endsWith(".checks.ts"))) {
  const { checks } = (await import(`./${file}`)) as { checks: Check[] };
  describe(`[RF1] ${file.replace(".checks.ts", "")}`, () => {
    for (const check of checks) {
      it(check.id, () => {
        const ours = check.ours();
        const message = `${check.what}: published ${check.published}, ours ${ours}`;
        expect(difference(check, ours), message).toBeLessThanOrEqual(check.tolerance);
      });
    }
  });
}

import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Check, difference } from "./checks.ts";

const ids: string[] = [];
const files = readdirSync("reference").filter((name) => name.endsWith(".checks.ts"));
for (const name of files.map((file) => file.replace(".checks.ts", ""))) {
  const { checks } = (await import(`./${name}.checks.ts`)) as { checks: Check[] };
  ids.push(...checks.map((check) => check.id));
  describe(`[RF1] ${name}`, () => {
    it("has something to check", () => expect(checks.length).toBeGreaterThan(0));
    for (const check of checks) {
      it(check.id, async () => {
        const ours = await check.ours();
        const message = `${check.what}: published ${check.published}, ours ${ours}`;
        expect(difference(check, ours), message).toBeLessThanOrEqual(check.tolerance);
      });
    }
  });
}

it("[RF2] no two published checks share a name", () => expect([...new Set(ids)]).toEqual(ids));

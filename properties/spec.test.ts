import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

function tests(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? tests(path) : /\.(test|e2e)\.tsx?$/.test(name) ? [path] : [];
  });
}

it("[AR2] every rule that a test quotes stands in docs/spec, once", () => {
  const rules = new Set<string>();
  const twice: string[] = [];
  for (const name of readdirSync("docs/spec"))
    for (const m of readFileSync(join("docs/spec", name), "utf8").matchAll(/\*\*([A-Z]{2}\d+[a-z]?)\*\*/g))
      if (rules.has(m[1])) twice.push(`${name}: ${m[1]}`);
      else rules.add(m[1]);
  const missing: string[] = [];
  for (const file of ["src", "reference", "properties", "e2e"].flatMap(tests))
    for (const m of readFileSync(file, "utf8").matchAll(/"\[([A-Z]{2}\d+[a-z]?)\]/g))
      if (!rules.has(m[1])) missing.push(`${file}: ${m[1]}`);
  expect(rules.size).toBeGreaterThan(30);
  expect({ missing, twice }).toEqual({ missing: [], twice: [] });
});

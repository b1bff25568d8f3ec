/** One light before one sitter, as tests of the shelf need it. */
import { type Plan, parsePlan } from "../../plan/index.ts";

export const NOSE_AT = [0, 0] as const;

export function oneLight(light: object = {}, parts: object = {}): Plan {
  const document = {
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [0.8, -1, 2],
        direction: { at: [0, -0.1, 1.6] },
        face: { shape: "disc", width: 0.9 },
        output: { wattSeconds: 400, efficiency: 0.5, stopsDown: 3 },
        dial: { range: 6, step: 0.1 },
        ...light,
      },
    ],
    people: [{ name: "cellist", position: NOSE_AT }],
    camera: { position: [0, -1.6, 1.6], direction: { at: [0, 0, 1.6] } },
    ...parts,
  };
  const parsed = parsePlan(JSON.stringify(document));
  if (!parsed.ok) throw new Error(parsed.problems.map(({ path, what }) => `${path}: ${what}`).join("; "));
  return parsed.plan;
}

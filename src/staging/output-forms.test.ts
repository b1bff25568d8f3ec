import { describe, expect, it } from "vitest";
import {
  checkPlan,
  type Output,
  type OutputForm,
  outputAs,
  type Plan,
  parsePlan,
  scaledOutput,
  serialisePlan,
} from "../plan/index.ts";
import { luminousEnergyOf } from "./index.ts";

const FORMS: OutputForm[] = ["wattSeconds", "lumenSeconds", "meter", "guideNumber"];
const OUTPUTS: object[] = [
  { wattSeconds: 400, stopsDown: 2.2 },
  { lumenSeconds: 1600 },
  { meter: { fNumber: 11, iso: 200, distance: 1.7, receptor: "dome" } },
  { guideNumber: 40, stopsDown: 1.3 },
];
const FACES: object[] = [
  { shape: "polygon", sides: 8, width: 1.5 },
  { shape: "point" },
  { shape: "rectangle", width: 0.3, height: 1.2 },
];

function plan(output: object, face: object, exponent = 3): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        position: [1, 1, 2],
        direction: { at: [1, 3, 1.5] },
        face,
        beam: { exponent, edgeDrop: 0.6 },
        output,
      },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

describe("[AP51] forms of output turn into one another and the light stays the same", () => {
  for (const face of FACES)
    for (const output of OUTPUTS)
      it.each(FORMS)(`${JSON.stringify(output)} of ${JSON.stringify(face)} as %s and back`, (form) => {
        const before = plan(output, face);
        const [light] = before.lights;
        const energyOf = (o: Output) => luminousEnergyOf({ ...light, output: o }, before);
        const energy = energyOf(light.output);
        const other = outputAs(form, light.output, energyOf, 1.7) as Output;
        expect(energyOf(other) / energy).toBeCloseTo(1, 9);
        const from = FORMS.find((f) => f in light.output) as OutputForm;
        const back = outputAs(from, other, energyOf, 1.7) as Output;
        expect(energyOf(back) / energy).toBeCloseTo(1, 9);
        // written and read again: six decimals
        const changed = { ...before, lights: [{ ...light, output: other }] };
        const read = parsePlan(serialisePlan(changed));
        if (!read.ok) throw new Error(read.problems[0].what);
        expect(Math.abs(luminousEnergyOf(read.plan.lights[0], read.plan) / energy - 1)).toBeLessThan(1e-6);
      });

  it("a dial stays where it was between watt-seconds and guide number", () => {
    const p = plan({ wattSeconds: 400, stopsDown: 2.2 }, FACES[0]);
    const energyOf = (o: Output) => luminousEnergyOf({ ...p.lights[0], output: o }, p);
    const number = outputAs("guideNumber", p.lights[0].output, energyOf, 2) as Output;
    expect(number).toMatchObject({ stopsDown: 2.2 });
    const back = outputAs("wattSeconds", number, energyOf, 2);
    expect(back).toMatchObject({ stopsDown: 2.2, efficiency: 0.55 });
    expect((back as { wattSeconds: number }).wattSeconds).toBeCloseTo(400, 9);
  });
  it("as watt-seconds it becomes a head of a usual size, turned down", () => {
    const p = plan({ lumenSeconds: 1600 }, FACES[0]);
    const energyOf = (o: Output) => luminousEnergyOf({ ...p.lights[0], output: o }, p);
    const head = outputAs("wattSeconds", { lumenSeconds: 1600 }, energyOf, 2);
    // 1600 lm.s / (35 x 0.55) = 83.1 Ws
    expect(head).toMatchObject({ wattSeconds: 100 });
    expect(outputAs("meter", { lumenSeconds: 0 }, energyOf, 2)).toBeNull();
    expect(outputAs("guideNumber", { lumenSeconds: 0 }, energyOf, 2)).toBeNull();
    expect(outputAs("wattSeconds", { lumenSeconds: 0 }, energyOf, 2)).toMatchObject({ wattSeconds: 0 });
  });
});

describe("[AP51] a factor of energy", () => {
  it.each(OUTPUTS)("of %o", (output) => {
    const p = plan(output, FACES[0]);
    const [light] = p.lights;
    const energyOf = (o: Output) => luminousEnergyOf({ ...light, output: o }, p);
    expect(energyOf(scaledOutput(light.output, 1.37)) / energyOf(light.output)).toBeCloseTo(1.37, 9);
  });
});

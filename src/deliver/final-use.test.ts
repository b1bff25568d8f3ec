import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { finalUse } from "./final-use.ts";
import type { FinalUse, Smear } from "./types.ts";
import { cssPixelsOf, NAMED_USES } from "./uses.ts";
import { notesOf, smearWords, useFacts, useTitle } from "./words.ts";

const LIGHT = {
  name: "key",
  position: [1, -1, 2],
  direction: { at: [0, 0, 1.6] },
  face: { shape: "disc", width: 0.9 },
  output: { lumenSeconds: 1000 },
};
const flash = (seconds: number, measured = "t0.5") => ({
  ...LIGHT,
  head: { duration: { seconds, measured } },
});

function plan(change: object = {}, camera: object = {}, head: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [flash(0.001)],
    people: [{ name: "cellist", position: [0, 0], head }],
    camera: {
      position: [0, -2.5, 1.6],
      direction: { at: [0, 0, 1.6] },
      focalLength: 100,
      pixels: { width: 8256, height: 5504 },
      ...camera,
    },
    print: { width: 1.2, height: 1.8, viewingDistance: 1.5 },
    ...change,
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

function use(of: Plan): FinalUse {
  const found = finalUse(of, 0);
  if (found === null) throw new Error("no print");
  return found;
}

function smear(of: FinalUse, what: RegExp): Smear {
  const found = of.smears.find((each) => what.test(each.what));
  if (found === undefined) throw new Error(`nothing like ${what} among ${of.smears.map((s) => s.what)}`);
  return found;
}

const PRINT = { width: 1.2, height: 1.8, viewingDistance: 1.5 };
const ARC = Math.tan(Math.PI / 10800);

describe("[US5] pixels of the file", () => {
  it("stand upright with the camera, and only those that are used count", () => {
    const { pixels, ppi } = use(plan());
    expect(pixels).toEqual({ width: 5504, height: 8256 });
    expect(ppi).toBeCloseTo(5504 / (1.2 / 0.0254), 9);
    const lying = use(plan({ print: { ...PRINT, width: 1.8, height: 0.9 } }, { orientation: "landscape" }));
    expect(lying.pixels?.width).toBeCloseTo(8256, 9);
    expect(lying.pixels?.height).toBeCloseTo(4128, 9);
  });
  it("where they are not known, that is said and nothing is made up", () => {
    const found = use(plan({}, { pixels: null }));
    expect(found.ppi).toBeNull();
    expect(found.smears.map(({ kind }) => kind)).not.toContain("pixel");
    expect(found.smears.every(({ filePixels }) => filePixels === null)).toBe(true);
    expect(notesOf(found, "metric").join(" ")).toMatch(/pixels are not known/);
  });
});

describe("[US6] from where it is seen", () => {
  it("as the plan says, else its diagonal, and that is said", () => {
    expect(use(plan()).away_m).toBe(1.5);
    const found = use(plan({ print: { width: 3, height: 4 } }));
    expect(found.away_m).toBeCloseTo(5, 12);
    expect(
      useFacts(found, "metric")
        .map(({ rest }) => rest)
        .join(" "),
    ).toMatch(/no distance is given/);
  });
});

describe("[US7] each smear against the eye", () => {
  // turned a little, so that the other eye is smeared too
  const found = use(plan({}, {}, { turn: 8 }));
  it("its width, how often the eye's, and both ways out hold together", () => {
    expect(found.smears.length).toBeGreaterThan(5);
    for (const one of found.smears) {
      expect(one.mm).toBeCloseTo(one.sensor_mm * (1200 / 24), 9);
      expect(one.timesEye).toBeCloseTo(one.mm / (1500 * ARC), 9);
      // from there, and at that size, the eye just does not tell it
      expect(one.mm / 1000 / one.unseenFrom_m).toBeCloseTo(ARC, 12);
      const { width_m, height_m } = one.largest ?? { width_m: Number.NaN, height_m: Number.NaN };
      const at = use(plan({ print: { ...PRINT, width: width_m, height: height_m } }, {}, { turn: 8 }));
      expect(smear(at, new RegExp(`^${one.what}$`)).timesEye).toBeCloseTo(1, 3);
    }
  });
  it("a pixel of the file is one pixel wide", () => {
    expect(smear(found, /a pixel/).filePixels).toBeCloseTo(1, 12);
    expect(smear(found, /a pixel/).mm).toBeCloseTo(1200 / 5504, 12);
  });
  it("focus: nothing of the other eye where the head is straight, more of the ears than of the nose", () => {
    expect(smear(use(plan()), /farther eye/).mm).toBeLessThan(0.02);
    expect(smear(found, /nearer ear/).mm).toBeGreaterThan(smear(found, /nose/).mm);
    const turned = use(plan({}, {}, { turn: 45 }));
    expect(turned.smears.some(({ what }) => /farther ear/.test(what))).toBe(false);
    expect(smear(turned, /farther eye/).mm).toBeGreaterThan(0.2);
  });
  it("nobody before the lens: neither focus nor motion", () => {
    const nobody = use(plan({ people: [] }));
    expect(nobody.smears.map(({ kind }) => kind)).toEqual(["pixel", "diffraction"]);
    expect(nobody.focusOn).toBeNull();
  });
});

describe("[US8] how long light falls on who moves", () => {
  const path = (of: Plan, what: RegExp) => smear(use(of), what).sensor_mm;
  const moved = (seconds: number) => {
    const focus = Number(1000 * 2.5) - 100;
    return (1000 * 0.1 * seconds * 100) / focus;
  };
  it("a flash, over a tenth of its peak", () => {
    // the eyes are nearer than the mark: a tenth of the path at most
    const tenth = path(plan({ lights: [flash(0.001, "t0.1")] }), /flash of “key”/);
    expect(tenth / moved(0.001)).toBeGreaterThan(1);
    expect(tenth / moved(0.001)).toBeLessThan(1.1);
    expect(path(plan(), /flash of “key”/) / tenth).toBeCloseTo(Math.log(10) / Math.log(2), 9);
  });
  it("never longer than the shutter is open, which is all there is where nothing else is known", () => {
    const slow = plan({ lights: [flash(0.5)] });
    const unknown = plan({ lights: [LIGHT] });
    const open = path(unknown, /shutter is open/);
    expect(path(slow, /flash of “key”/)).toBeCloseTo(open, 12);
    expect(notesOf(use(unknown), "metric").join(" ")).toMatch(/“key” lasts is not known/);
  });
  it("the shutter's time beside the flash where the room is lit", () => {
    expect(path(plan({ ambient: { lux: 200 } }), /stays on/)).toBeGreaterThan(path(plan(), /flash of/));
  });
  it("a light that is off smears nothing", () => {
    const off = plan({ lights: [flash(0.0001), { ...flash(0.1), name: "rim", on: false }] });
    expect(use(off).smears.filter(({ kind }) => kind === "motion")).toHaveLength(1);
  });
});

describe("[US9] cures", () => {
  it("the aperture that is named cures it, and costs the light that is said", () => {
    const near = plan(
      { print: { ...PRINT, width: 0.4, height: 0.6, viewingDistance: 0.8 } },
      { fNumber: 2.8 },
    );
    const nose = smear(use(near), /nose/);
    expect(nose.timesEye).toBeGreaterThan(1);
    if (nose.cure?.kind !== "aperture") throw new Error("no aperture");
    expect(nose.cure.stops).toBeCloseTo(2 * Math.log2(nose.timesEye), 9);
    const cured = { ...near, camera: { ...near.camera, fNumber: nose.cure.fNumber } };
    expect(smear(use(cured), /nose/).timesEye).toBeCloseTo(1, 9);
    expect(smear(use(cured), /diffraction/).timesEye).toBeLessThanOrEqual(1);
  });
  it("no aperture where diffraction would be seen instead", () => {
    const large = plan();
    const ear = smear(use(large), /nearer ear/);
    // from f/8 a lens would go there
    expect(ear.timesEye).toBeGreaterThan(1);
    expect(8 * ear.timesEye).toBeLessThan(32);
    const closed = smear(use(plan({}, { fNumber: 8 * ear.timesEye })), /diffraction/);
    expect(closed.timesEye).toBeGreaterThan(1);
    expect(ear.cure).toBeNull();
    expect(smearWords(use(large), ear, "metric").remedy).toMatch(/^print no larger than /);
  });
  it("the time that is named cures motion; diffraction opens", () => {
    const soft = plan({ lights: [flash(0.004)] }, { fNumber: 32 });
    const motion = smear(use(soft), /flash of/);
    if (motion.cure?.kind !== "time") throw new Error("no time");
    const cured = plan({ lights: [flash(motion.cure.seconds, "t0.1")] }, { fNumber: 32 });
    expect(smear(use(cured), /flash of/).timesEye).toBeCloseTo(1, 9);
    expect(smearWords(use(soft), motion, "metric").remedy).toMatch(
      /^a flash of 1\/\d+ s or shorter, or print /,
    );
    const lit = use(plan({ ambient: { lux: 200 } }, { shutter: 1 / 15 }));
    expect(smearWords(lit, smear(lit, /stays on/), "metric").remedy).toMatch(/^the shutter of 1\/\d+ s/);
    const wide = smear(use(plan({}, { fNumber: 45 })), /diffraction/);
    if (wide.cure?.kind !== "aperture") throw new Error("no aperture");
    expect(wide.cure.stops).toBeLessThan(0);
    expect(smear(use(plan({}, { fNumber: wide.cure.fNumber })), /diffraction/).timesEye).toBeCloseTo(1, 9);
  });
});

describe("[US10] what the printer asks", () => {
  const asked = (asksPpi: number) => use(plan({ print: { ...PRINT, asksPpi } }));
  it("less than there is: enough, made smaller; the largest print that has it", () => {
    const found = asked(100);
    expect(found.asked?.enlarge).toBeCloseTo((1.2 / 0.0254) * (100 / 5504), 9);
    expect(found.asked?.largest?.width_m).toBeCloseTo((5504 / 100) * 0.0254, 9);
    const fact = useFacts(found, "metric").find(({ term }) => term === "asked");
    expect(fact?.isShort).toBe(false);
  });
  it("more than there is: short, with what to do, and what enlarging does not do", () => {
    const facts = useFacts(asked(300), "metric");
    const fact = facts.find(({ term }) => term === "asked");
    expect(fact?.isShort).toBe(true);
    expect(fact?.rest).toMatch(/print no larger than 0\.47 × 0\.70 m/);
    expect(facts.find(({ term }) => term === "resampling")?.rest).toMatch(/no detail/);
  });
  it("exactly as many go pixel for pixel", () => {
    const exact = use(plan({ print: { ...PRINT, width: (5504 / 100) * 0.0254, height: 2, asksPpi: 100 } }));
    expect(useFacts(exact, "metric").find(({ term }) => term === "resampling")?.strong).toBe("none");
  });
});

describe("[US11] in words", () => {
  it("state and margin in the units in use, millimetres in both", () => {
    const found = use(plan());
    const pixel = smear(found, /a pixel/);
    expect(smearWords(found, pixel, "metric")).toMatchObject({
      size: "0.22 mm",
      state: "not seen from 1.50 m, but from nearer than 0.75 m",
      remedy: null,
    });
    expect(smearWords(found, pixel, "feet").state).toBe("not seen from 4′ 11″, but from nearer than 2′ 5½″");
  });
  it("how sharp the sharpest place is, and what most of it comes of", () => {
    const fact = (of: FinalUse) => useFacts(of, "metric").find(({ term }) => term === "in focus");
    expect(fact(use(plan()))?.rest).toMatch(/most of it is motion in the flash of “key”$/);
    const still = use(plan({ lights: [flash(0.00001)] }, { fNumber: 45 }));
    expect(fact(still)).toMatchObject({
      isShort: true,
      rest: expect.stringMatching(/most of it is diffraction$/),
    });
    expect(fact(use(plan({ people: [] })))).toBeUndefined();
  });
  it("a web page is told in its own pixels", () => {
    const web = NAMED_USES.find(({ name }) => name === "web banner");
    const found = use(plan({ print: web?.print }));
    expect(useTitle(found, "metric")).toBe("web banner, 1600 × 600 of the page’s pixels, seen from 0.71 m");
    expect(found.asked?.pixels).toEqual({ width: 3200, height: 1200 });
  });
  it("of a group, whose eyes are told by name", () => {
    const people = [
      { name: "Ada", position: [-0.3, 0] },
      { name: "Bo", position: [0.3, 0.8] },
    ];
    const found = use(plan({ people }));
    expect(found.smears.map(({ what }) => what)).toContain("focus at Bo’s nearer eye");
    expect(smear(found, /Bo’s nearer eye/).mm).toBeGreaterThan(smear(found, /Ada’s nearer ear/).mm);
  });
});

describe("[US12] named uses", () => {
  it.each(NAMED_USES.map((each) => [each.name, each] as const))("%s fits the plan file", (_, { print }) => {
    const found = use(plan({ print }));
    expect(found.use).toBe(print.use);
    expect(found.isAwayGiven).toBe(true);
  });
  it("a web page's pixel is a ninety-sixth of an inch", () =>
    expect(cssPixelsOf(0.0254)).toBeCloseTo(96, 12));
});

describe("[US15] larger, and farther", () => {
  it("the same from twice as far at twice the size; never sharper when only larger", () => {
    const one = use(plan());
    const two = use(plan({ print: { width: 2.4, height: 3.6, viewingDistance: 3 } }));
    const larger = use(plan({ print: { ...PRINT, width: 1.4, height: 2.1 } }));
    one.smears.forEach((each, i) => {
      expect(two.smears[i]?.timesEye).toBeCloseTo(each.timesEye, 9);
      if (each.mm > 0) expect(larger.smears[i]?.timesEye).toBeGreaterThan(each.timesEye);
    });
  });
});

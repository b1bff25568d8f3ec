import { describe, expect, it } from "vitest";
import { readingOf } from "../files/testing/plain-reader.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { textsOf } from "../sheet/testing/read-page.ts";
import type { FrameComparison, PhotoFace, PhotoReading } from "../testframe/index.ts";
import {
  type Computer,
  createComputer,
  type Finder,
  type Looker,
  makeContact,
  makeRecord,
  type Progress,
} from "./index.ts";
import { comparedLines } from "./record-compared.ts";

function planOf(fields: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, ...fields });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

/** In open space a light that is set by meter reads at that distance on its axis what was set, by definition. */
const key = {
  name: "key",
  position: [1, -1, 1.6],
  direction: { at: [0, 0, 1.6] },
  face: { shape: "point" },
  output: { meter: { fNumber: 8, iso: 100, distance: 1, receptor: "flat" } },
};
const camera = { position: [0, -3, 1.6], direction: { at: [0, 0, 1.6] }, focalLength: 85, fNumber: 8 };
const cellist = { name: "cellist", position: [0, 0.1] };

/** The real one, less fine: what is told is held here, not to how many digits. */
function coarse(): Computer & Finder {
  const computer = createComputer();
  return {
    ...computer,
    read: (plan, _, work) => computer.read(plan, "coarse", work),
    frame: (plan, request, work) => computer.frame(plan, { ...request, quality: "coarse", width: 24 }, work),
  };
}

const withExif = (exif: object): PhotoReading => {
  const photo = readingOf("1.jpg", null);
  return { ...photo, image: { ...photo.image, exif: { ...photo.image.exif, ...exif } } };
};
const never: Pick<Finder, "compare"> = { compare: () => Promise.reject(new Error("there is no face")) };

describe("[RC4] what the camera was set to", () => {
  const plan = planOf({ camera: { ...camera, shutter: 1 / 64, iso: 100 } });
  const told = (exif: object) => comparedLines(never as Finder, plan, withExif(exif), "metric", undefined);
  it("is as planned by engraved numbers", async () => {
    const lines = await told({ fNumber: 8, shutter: 1 / 60, iso: 100, focalLength: 85.4 });
    expect(lines).toMatchObject([{ what: "set to", part: "camera", difference: "as planned" }]);
  });
  it("or each that is not, with by how much", async () => {
    const lines = await told({ fNumber: 8 * 2 ** 0.25, shutter: 1 / 125, iso: 400, focalLength: 70 });
    const by = Object.fromEntries(lines.map(({ what, difference }) => [what, difference]));
    expect(by.aperture).toMatch(/0\.5 stop/);
    expect(by.shutter).toMatch(/1\.0 stop/);
    expect(by.ISO).toMatch(/2\.0 stops/);
    expect(by.lens).toMatch(/15 mm shorter/);
  });
  it("and nothing is told of a file that does not say", async () => expect(await told({})).toEqual([]));
});

describe("[RC8] faces beside the plan", () => {
  const comparison: FrameComparison["lines"] = [
    {
      what: "ratio",
      planned: "2.1 stops",
      seen: "1.5 stops",
      difference: "0.6 stop flatter",
      amount: -0.6,
      state: "differs",
    },
    { what: "pattern", planned: "loop", seen: "loop", difference: "", amount: null, state: "as planned" },
  ];
  const finder = { compare: async () => ({ lines: comparison }) } as unknown as Finder;
  const box = (left: number) => ({ box: { left, top: 5, width: 10, height: 12 } }) as unknown as PhotoFace;
  const group = (n: number) =>
    planOf({
      camera,
      people: Array.from({ length: n }, (_, i) => ({ name: `player ${i}`, position: [i - n / 2, 0.1] })),
    });
  const photo = (n: number) => ({
    ...readingOf("1.jpg", null),
    faces: Array.from({ length: n }, (_, i) => box(2 + 12 * i)),
  });
  it("one: everything, without a name", async () => {
    const lines = await comparedLines(finder, group(1), photo(1), "metric", undefined);
    expect(lines.map(({ whose, part, difference }) => [whose, part, difference])).toEqual([
      ["", "power", "0.6 stop flatter"],
      ["", "direction", "as planned"],
    ]);
  });
  it("many: of each what differs, with whose it is", async () => {
    const lines = await comparedLines(finder, group(4), photo(4), "metric", undefined);
    expect(lines.map(({ whose, what }) => [whose, what])).toEqual(
      [0, 1, 2, 3].map((i) => [`player ${i}`, "ratio"]),
    );
  });
});

describe("[RC5] a reading beside what the plan says of it", () => {
  const at = (metres: number) => [1 - metres / Math.SQRT2, metres / Math.SQRT2 - 1, 1.6];
  const reading = (name: string, metres: number, stops: number, more: object = {}) => ({
    ...{ name, light: "key", position: at(metres), direction: { at: key.position } },
    ...{ receptor: "flat", iso: 100, fNumber: 8 * 2 ** (stops / 2), ...more },
  });
  const words = async (fields: object) => {
    const on = { planned: null, shoot: null, photos: [] };
    const options = { paper: "a4", units: "metric" } as const;
    const pages = await makeRecord(coarse(), planOf({ camera, ...fields }), on, options);
    return pages.flatMap((page) => textsOf(page).map(({ text }) => text));
  };
  it("by definition at the distance at which it was set, and by the inverse square farther away", async () => {
    const readings = [reading("near", 1, 0.5), reading("far", 2, -2)];
    const texts = await words({ lights: [key], readings });
    const rowOf = (name: string) => texts.slice(texts.indexOf(name)).slice(0, 9).join(" | ");
    expect(rowOf("near")).toMatch(/f\/8 \+ 0\.0 \| f\/8 \+ 0\.5 \| \+0\.5\sstop/);
    expect(rowOf("far")).toMatch(/f\/4 \+ 0\.0 \| f\/4 \+ 0\.0 \| as planned/);
  });
  it("by the lights as they stood then", async () => {
    const stood = [{ ...key, output: { meter: { ...key.output.meter, fNumber: 5.656854249 } } }];
    const texts = await words({ lights: [key], readings: [reading("before", 1, -1, { stood })] });
    expect(texts.slice(texts.indexOf("before")).slice(0, 9).join(" | ")).toMatch(
      /f\/5\.6 \+ 0\.0 \| f\/5\.6 \+ 0\.0 \| as planned/,
    );
  });
});

describe("the contact sheet of moves", () => {
  const steps: Progress[] = [];
  const studied: (readonly number[] | undefined)[] = [];
  const looker = (): Looker => {
    const computer = coarse();
    return {
      ...computer,
      read: (plan, quality, options) => {
        studied.push(options?.studied);
        return computer.read(plan, quality, options);
      },
    };
  };
  const one = looker();
  const sheet = makeContact(
    [one, one],
    planOf({
      title: "Cellist",
      camera,
      people: [cellist],
      lights: [{ ...key, face: { shape: "disc", width: 0.6 }, position: [1, -1, 2.2] }],
    }),
    { person: 0, units: "metric" },
    { onProgress: (progress) => steps.push(progress) },
  );
  it("[RC12] has the plan and its eight moves, or why one cannot be made, and says how far it is", async () => {
    const { about, cells } = await sheet;
    expect(about).toMatch(/^cellist, 85 mm, f\/8/);
    expect(cells).toHaveLength(9);
    for (const { does, picture, why } of cells) expect(picture === null, does).toBe(why !== null);
    expect(cells.filter(({ why }) => why !== null)).toEqual([]);
    expect(steps).toEqual(
      Array.from({ length: 10 }, (_, i) => ({ done: i / 9, what: `${i} of 9 frames finished` })),
    );
    // only of the plan as it stands are ways to other patterns told
    expect(studied).toHaveLength(9);
    expect(studied.filter((people) => people?.length === 1)).toEqual([[0]]);
  });
  it("[RC13] tells direction and power apart", async () => {
    for (const { direction, does, power, why } of (await sheet).cells.filter((cell) => cell.why === null)) {
      expect(why).toBeNull();
      expect(direction, does).not.toMatch(/stop|f\/\d|cheek/);
      expect(power, does).not.toMatch(/°|Rembrandt|loop|catchlight/i);
      expect(direction, does).not.toBe("");
    }
    const up = (await sheet).cells.find(({ does }) => does.startsWith("key up"));
    expect(up?.direction).toMatch(/light \d+° to own left, \d+° up/);
  });
  it("[RC14] the camera alone leaves the light on the face", async () => {
    const moves = (await sheet).cells.filter(({ does }) => does.startsWith("camera"));
    expect(moves).toHaveLength(2);
    for (const { direction, notes, power } of moves) {
      expect(notes[0]).toBe("the head stays; light on the face unchanged");
      expect(direction).toMatch(/light from where it was/);
      expect(power).toMatch(/^lit cheek as before/);
    }
  });
  it("a light that is off is not moved, and that is said; a nose that follows the lens is told as that", async () => {
    const dark = planOf({
      camera,
      people: [{ ...cellist, head: { follows: "camera" } }],
      lights: [{ ...key, on: false }],
    });
    const { cells } = await makeContact([coarse()], dark, { person: 0, units: "metric" });
    const blocked = cells.filter(({ why }) => why !== null);
    expect(blocked.map(({ does }) => does)).toEqual(
      expect.arrayContaining(["light up 15 cm", "light round 10°"]),
    );
    for (const { picture, why } of blocked) expect([picture, why]).toEqual([null, "no light is on"]);
    expect(cells.filter(({ notes }) => notes.includes("the nose follows the lens"))).toHaveLength(2);
  });
  it("[RC19] a plan without people is refused by its name, and one who is not there", async () => {
    const of = (fields: object, person = 0) =>
      makeContact([coarse()], planOf({ camera, title: "Empty stage", ...fields }), { person, units: "feet" });
    await expect(of({})).rejects.toThrow(/nobody is in "Empty stage", .*; put a person into the plan/);
    await expect(of({ people: [cellist] }, 3)).rejects.toThrow(/has one person, and number 4 was asked for/);
  });
  it("[RC20] nothing further is begun once one has failed", async () => {
    let begun = 0;
    const failing: Looker = {
      ...coarse(),
      read: () => {
        begun++;
        return Promise.reject(new Error("no light"));
      },
    };
    const plan = planOf({ camera, people: [cellist] });
    await expect(makeContact([failing], plan, { person: 0, units: "metric" })).rejects.toThrow("no light");
    expect(begun).toBe(1);
  });
});

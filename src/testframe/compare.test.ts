/** Plan beside frame: what a frame of a plan that is off by a known amount is told as, and what it is put down to. */

import { describe, expect, it } from "vitest";
import { MIDDLE_LEVEL } from "../photometry/index.ts";
import { checkPlan, type Plan, scaledOutput } from "../plan/index.ts";
import { Memory, readPlan, type TryReading, tryReadingOf } from "../reading/index.ts";
import { compareFrame } from "./compare.ts";
import { angleBetween } from "./compare-observed.ts";
import { plannedFace } from "./compare-planned.ts";
import { photoOf as photoOfReading, STILL } from "./testing/photo-of.ts";
import type { FrameComparison, PhotoFace, PhotoReading } from "./types.ts";

function planned(): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 4, depth: 6, height: 3 },
    lights: [
      {
        name: "key",
        position: [3, 2.2, 2.1],
        direction: { at: [2, 3.5, 1.55] },
        face: { shape: "disc", width: 0.6 },
        output: { lumenSeconds: 700 },
      },
      {
        name: "fill",
        position: [1.4, 1.4, 1.7],
        direction: { at: [2, 3.5, 1.55] },
        face: { shape: "disc", width: 0.9 },
        output: { lumenSeconds: 250 },
      },
    ],
    people: [{ name: "cellist", position: [2, 3.5] }],
    camera: { position: [2, 1, 1.6], direction: { at: [2, 3.5, 1.55] } },
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const memory = new Memory();
const readings = new Map<string, TryReading>();

/** Most cases try the same steps of the same plan: each is read once. */
function read(plan: Plan): TryReading {
  const key = JSON.stringify(plan);
  const known = readings.get(key) ?? tryReadingOf(readPlan(plan, "coarse", memory), 0);
  readings.set(key, known);
  return known;
}
const PLAN = planned();

const photoOf = (plan: Plan, settings: Partial<PhotoReading["image"]["exif"]> = {}) =>
  photoOfReading(plan, read(plan), settings);

const compared = (photo: PhotoReading, plan = PLAN): FrameComparison =>
  compareFrame({ plan, person: 0, photo, face: 0, read });

const withLight = (index: number, change: Partial<Plan["lights"][number]>): Plan => ({
  ...PLAN,
  lights: PLAN.lights.map((light, i) => (i === index ? { ...light, ...change } : light)),
});

/** What is said of framing is tested by itself: here the box is made up. */
const told = ({ lines }: FrameComparison) =>
  Object.fromEntries(lines.filter(({ what }) => what !== "framing").map(({ what, state }) => [what, state]));

describe("plan beside frame", () => {
  it("[CP1] a frame of the plan itself is as planned in all that can be told, with no cause", () => {
    const { lines, causes } = compared(photoOf(PLAN));
    for (const line of lines) {
      if (line.what === "framing") continue;
      expect(line.state, line.what).toBe(line.what === "catchlights" ? "cannot tell" : "as planned");
      expect(line.difference, line.what).toBe("");
    }
    expect(causes).toEqual([]);
  });
  it("[CP2] the lit cheek's level is that of the sum by hand: skin x light / pi through the lens", () => {
    const reading = read(PLAN);
    const level = (0.65 * 0.36 * reading.litCheek) / Math.PI / PLAN.camera.fNumber ** 2;
    expect(plannedFace(PLAN, 0, reading).litCheekStops).toBeCloseTo(
      Math.log2((level * PLAN.camera.iso) / MIDDLE_LEVEL),
      9,
    );
  });
  it("[CP3] key a stop down: power of the key comes first, with how much and the cure", () => {
    const off = withLight(0, { output: scaledOutput(PLAN.lights[0].output, 0.5) });
    const { lines, causes, summary } = compared(photoOf(off));
    expect(told({ lines, causes, summary }).exposure).toBe("differs");
    expect(summary).toMatch(/^not as planned: the face is 0\.\d stops? under/);
    expect(causes[0]?.cause).toBe("power");
    const stops = Number(/about (\d\.\d) stops? less/.exec(causes[0]?.why ?? "")?.[1]);
    expect(causes[0]?.why).toMatch(/^key gives/);
    // what is usual is weighed in: a stop is told a little small
    expect(Math.abs(stops - 1)).toBeLessThan(0.25);
  });
  it("[CP3] the fill did not fire: misfire is told, and told first", () => {
    const { causes } = compared(photoOf(withLight(1, { on: false })));
    expect(causes[0]?.cause).toBe("misfire");
    expect(causes[0]?.why).toBe("fill did not fire");
  });
  it("[CP3] the key stands 15° round: its angle comes first", () => {
    const [x, y, z] = PLAN.lights[0].position;
    const turn = (15 * Math.PI) / 180;
    const [dx, dy] = [x - 2, y - 3.5];
    const off = withLight(0, {
      position: [
        2 + Math.cos(turn) * dx - Math.sin(turn) * dy,
        3.5 + Math.sin(turn) * dx + Math.cos(turn) * dy,
        z,
      ],
    });
    const { causes } = compared(photoOf(off));
    expect(causes[0]?.cause).toBe("angle");
    expect(causes[0]?.why).toMatch(/^key stands about 1[0-9]° round the sitter, counterclockwise/);
    expect(causes[0]?.cure).toMatch(/ clockwise round the sitter/);
  });
  it("[CP3] walls that give more back: the wall on the shadow side is among the causes, none of them power", () => {
    const room = PLAN.room as NonNullable<Plan["room"]>;
    const off: Plan = { ...PLAN, room: { ...room, reflectance: { ...room.reflectance, left: 0.95 } } };
    const { lines, causes } = compared(photoOf(off));
    const ratio = lines.find(({ what }) => what === "ratio");
    expect(ratio?.amount).toBeLessThan(-0.05);
    expect(causes.filter(({ cause }) => cause === "power")).toEqual([]);
  });
  it("[CP4] what the file tells of lens and ISO explains the exposure: no light is blamed", () => {
    const { causes } = compared(
      photoOf(
        { ...PLAN, camera: { ...PLAN.camera, fNumber: PLAN.camera.fNumber * Math.SQRT2 } },
        {
          fNumber: PLAN.camera.fNumber * Math.SQRT2,
          iso: PLAN.camera.iso,
        },
      ),
    );
    expect(causes.map(({ cause }) => cause)).toEqual(["settings"]);
    expect(causes[0]?.why).toBe("lens is set 1.0 stop darker than planned, as the file tells");
  });
  it("[CP5] a head turned 15° to own left explains the direction: no light is blamed", () => {
    const turned: Plan = {
      ...PLAN,
      people: PLAN.people.map((person) => ({ ...person, head: { ...person.head, turn: 15 } })),
    };
    const photo = photoOf(turned);
    const { causes } = compared(photo);
    expect(causes[0]?.cause).toBe("turned head");
    expect(causes[0]?.cure).toBe("head 15° to own right");
    expect(causes.filter(({ cause }) => cause === "angle")).toEqual([]);
  });
  it("[CP6] a band along the lower edge is sync, whatever the shutter; never power", () => {
    const photo = photoOf(PLAN, { shutter: 1 / 320 });
    const { causes } = compared({
      ...photo,
      image: { ...photo.image, band: { edge: "bottom", share: 0.2, stops: 2 } },
    });
    expect(causes[0]?.cause).toBe("sync");
    expect(causes[0]?.why).toContain("at 1/320 s");
    expect(causes[0]?.cure).toContain("more power does not help");
  });
  it("[CP6] a band over the face darkens it: no light is blamed for that", () => {
    const photo = photoOf(withLight(0, { output: scaledOutput(PLAN.lights[0].output, 0.4) }));
    const band = { edge: "bottom", share: 0.5, stops: 1.3 } as const;
    const { causes } = compared({ ...photo, image: { ...photo.image, band } });
    expect(causes.map(({ cause }) => cause)).toEqual(["sync"]);
  });
  it("[CP7] what cannot be told is no difference", () => {
    const photo = photoOf(PLAN);
    const [face] = photo.faces;
    const blind = {
      ...face,
      light: null,
      ratioStops: null,
      pattern: null,
      litSide: null,
      litCheekStops: null,
    };
    const { lines, causes, summary } = compared({
      ...photo,
      faces: [{ ...blind, backgroundStops: null } as PhotoFace],
    });
    expect(lines.filter(({ what }) => what !== "framing").every(({ state }) => state === "cannot tell")).toBe(
      true,
    );
    expect(causes).toEqual([]);
    expect(summary).toMatch(/cannot tell|not as planned: the face is/);
  });
  it("[CP8] the face is framed where the figure's own mask falls in the picture", () => {
    const { place } = plannedFace(PLAN, 0, read(PLAN));
    if (place === null) throw new Error("behind the camera");
    const photo = photoOf(PLAN);
    const [width, height] = [2000, 3000];
    const box = {
      left: place.x * width - 0.5 * STILL.width,
      top: (place.y - place.size / 2) * height,
      width: STILL.width,
      height: place.size * height,
    };
    const framed = (change: Partial<typeof box>) =>
      compared({
        ...photo,
        faces: [{ ...photo.faces[0], box: { ...box, ...change } } as PhotoFace],
      }).lines.find(({ what }) => what === "framing");
    expect(framed({})?.state).toBe("as planned");
    expect(framed({ left: box.left + 0.3 * box.height })?.difference).toBe("to picture right");
    expect(framed({ top: box.top - 0.1 * box.height, height: 1.2 * box.height })?.difference).toBe(
      "20 % larger",
    );
  });
  it("[CP9] angles between directions by known ones", () => {
    expect(angleBetween({ azimuth: 0, elevation: 0 }, { azimuth: 90, elevation: 0 })).toBeCloseTo(90, 9);
    // 45 round and 45 up is 60 degrees off the axis
    expect(angleBetween({ azimuth: 0, elevation: 0 }, { azimuth: 45, elevation: 45 })).toBeCloseTo(60, 9);
  });
});

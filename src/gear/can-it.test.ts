import { describe, expect, it } from "vitest";
import {
  bodyFor,
  type CanAbout,
  type CanAsk,
  canItDo,
  freezeTime,
  lensFor,
  recycleTime,
  STARTER_SHELF,
  stopsForCamera,
} from "./index.ts";
import { oneLight } from "./testing/plans.ts";

const ask = (more: Partial<CanAsk> = {}): CanAsk => ({ units: "metric", ...more });
const rowOf = (plan: ReturnType<typeof oneLight>, about: CanAbout, more: Partial<CanAsk> = {}) => {
  const row = canItDo(plan, 0, ask(more)).rows.find((each) => each.about === about);
  if (row === undefined) throw new Error(`no row about ${about}`);
  return row;
};
const wayOf = (row: ReturnType<typeof rowOf>, kind: string, nth = 0) => {
  const way = row.ways.filter((each) => each.kind === kind)[nth];
  if (way === undefined) throw new Error(`no way by ${kind}`);
  return way;
};
const metres = (text: string) => Number(/(?:to|in to|back to) (\d+\.\d+) m/.exec(text)?.[1]);

describe("[GR11] power against both ends of the dial", () => {
  // -3 of a dial of 6 stops: 3 either way, and a hundredth of a stop is its end
  it.each([
    [0, "within its dial", 0],
    [3, "within its dial", 0],
    [-3, "within its dial", 0],
    [3.009, "within its dial", 0],
    [3.5, "too weak at full", 0.5],
    [-3.5, "too bright at its least", -0.5],
    [-7, "too bright at its least", -4],
  ])("%d stops more: %s", (stopsMore, word, outside) => {
    const plan = oneLight();
    const told = canItDo(plan, 0, ask({ stopsMore }));
    expect([told.rows[0].word, told.outside]).toEqual([word, expect.closeTo(outside, 9)]);
    expect(told.rows[0].ways.length > 0).toBe(outside !== 0);
  });
  it("says how much is left at either end, in the dial's own marks", () => {
    const dial = { marked: "fractions", range: 6, step: 0.1 };
    expect(rowOf(oneLight({ dial }), "power").sentence).toBe(
      "1/8 is wanted; the dial has 3.0 stops more and 3.0 stops less",
    );
  });
  it("a light without a dial is told so", () => {
    const row = rowOf(oneLight({ output: { lumenSeconds: 500 } }), "power");
    expect([row.word, row.ways]).toEqual(["no dial known", []]);
  });
  // APEX, published-checks section 3: Av = 2 log2 N
  it("what the camera wants against what the meter reads is a matter of stops", () => {
    const camera = (fNumber: number) => oneLight({}, { camera: { fNumber, position: [0, -2, 1.6] } });
    expect(stopsForCamera(camera(2), 8)).toBeCloseTo(-4, 9);
    expect(stopsForCamera(camera(11.3137085), 8)).toBeCloseTo(1, 6);
  });
});

describe("[GR12] too bright at its least: each way out with its numbers", () => {
  const least = { output: { wattSeconds: 400, efficiency: 0.5, stopsDown: 6 } };
  const open = { camera: { position: [0, -1.6, 1.6], iso: 100, fNumber: 2 } };
  it("a filter takes whole stops, and what it takes too much the lights give back", () => {
    const row = rowOf(oneLight(least, open), "power", { stopsMore: -3.4 });
    expect(wayOf(row, "filter").what).toBe(
      "grey filter of 4.0 stops on the lens, which lets 1/16 through, and every light 0.6 stops up",
    );
    expect(wayOf(row, "filter").effect).toMatch(
      /nothing is moved: direction, softness and the background .* stay/,
    );
    expect(wayOf(row, "filter", 1).what).toBe("grey gel of 3.4 stops before this head");
  });
  // a perfect diffuser of radius r reads Phi / (pi (r^2 + d^2)) on its axis: n stops less is r^2 + d^2 2^n times as large
  it.each([1, 2, 3.3])("going back gives %d stops, as the disc's closed form has it", (by) => {
    const plan = oneLight(least, open);
    const way = wayOf(rowOf(plan, "power", { stopsMore: -by }), "distance");
    const from = Number(/from (\d+\.\d+) m/.exec(way.what)?.[1]);
    const expected = Math.sqrt((0.45 ** 2 + from ** 2) * 2 ** by - 0.45 ** 2);
    expect(Math.abs(metres(way.what) - expected)).toBeLessThan(0.01 + 0.01 * 2 ** (by / 2));
    expect(way.stops).toBeNull();
    expect(way.effect).toMatch(/^direction stays; the front looks \d+° wide instead of \d+°, harder$/);
  });
  it("a room's wall ends it, and what is left over is said", () => {
    const plan = oneLight(
      { ...least, position: [2, 1, 1.6], direction: { at: [2, 2, 1.6] } },
      {
        camera: { position: [2, 0.3, 1.6], fNumber: 2 },
        room: { width: 4, depth: 4, height: 3 },
        people: [{ position: [2, 2.5] }],
      },
    );
    const way = wayOf(rowOf(plan, "power", { stopsMore: -4 }), "distance");
    // straight before the nose, its way ends where its rim, 0.45 m, stands 5 cm from the near wall: at y = 0.5 m
    const from = Number(/from (\d+\.\d+) m/.exec(way.what)?.[1]);
    expect(Math.abs(metres(way.what) - (from + 0.5))).toBeLessThan(0.02);
    const gives = Math.log2((0.45 ** 2 + (from + 0.5) ** 2) / (0.45 ** 2 + from ** 2));
    expect(way.what).toContain(`as far as the room lets it: ${gives.toFixed(1)} of 4.0 stops`);
    expect(way.stops).toBeCloseTo(gives, 1);
  });
  it("the paper comes up as the light goes back: inverse squares from further off", () => {
    const plan = oneLight(least, { ...open, backdrop: { kind: "paper", position: [0, 2] } });
    const way = wayOf(rowOf(plan, "power", { stopsMore: -2 }), "distance");
    const told = Number(/comes up by about (\d\.\d) stops?/.exec(way.effect)?.[1]);
    const [from, to] = [Number(/from (\d+\.\d+) m/.exec(way.what)?.[1]), metres(way.what)];
    const behind = 2 + 0.1;
    const gained = 2 - 2 * Math.log2((to + behind) / (from + behind));
    expect(gained).toBeGreaterThan(0.5);
    // the words round to a tenth, and the nose is where the head has it
    expect(Math.abs(told - gained)).toBeLessThan(0.1);
  });
  it("ISO goes down to the body's base and no further", () => {
    const body = STARTER_SHELF.bodies[0]; // ISO 64: 0.64 stops under 100
    const more = { stopsMore: -0.6, body };
    expect(wayOf(rowOf(oneLight(least, open), "power", more), "iso").what).toBe("ISO 64 in place of 100");
    const part = wayOf(rowOf(oneLight(least, open), "power", { ...more, stopsMore: -2 }), "iso");
    expect([part.what, part.stops]).toEqual([
      "ISO 64 in place of 100: 0.6 of 2.0 stops",
      expect.closeTo(0.644, 3),
    ]);
  });
  it("a grid takes one to two stops and says that it is only practice", () => {
    const way = wayOf(rowOf(oneLight(least, open), "power", { stopsMore: -4 }), "grid");
    expect([way.what, way.stops]).toEqual(["grid on its front: 1 to 2 of 4.0 stops (common practice)", 2]);
  });
  it("a head of the shelf whose dial has it is named with its power", () => {
    const row = rowOf(oneLight(least, open), "power", { stopsMore: -1, shelf: STARTER_SHELF });
    // 400 Ws at efficiency 0.5 and -7 is 1.5625 Ws; before a loss of one stop 3.125 Ws: 600 Ws is 7.58 stops over that, 60 Ws 4.26
    expect(wayOf(row, "head").what).toBe("battery head 600 Ws at 1/256 + 0.4 in its place");
    expect(wayOf(row, "head", 1).what).toBe("small flash 60 Ws at 1/32 + 0.7 in its place");
    const weaker = rowOf(oneLight(least, open), "power", { stopsMore: -2, shelf: STARTER_SHELF });
    expect(weaker.ways.filter(({ kind }) => kind === "head").map(({ what }) => what)).toEqual([
      "small flash 60 Ws at 1/64 + 0.7 in its place",
    ]);
  });
  it("how little is sharp at the aperture that is wanted stands beside it, as depth of field has it", () => {
    const { sentence } = rowOf(oneLight(least, open), "power", { stopsMore: -4 });
    expect(sentence).toMatch(/; at f\/2 \+ 0\.0 and 1\.\d\d m from the camera \d\.\d cm are sharp$/);
  });
});

describe("[GR13] too weak at full: each way out with its numbers", () => {
  const full = { output: { wattSeconds: 400, efficiency: 0.5, stopsDown: 0 } };
  it("ISO in thirds of a stop, and what it gives too much comes off the dial", () => {
    const iso = (stopsMore: number) => wayOf(rowOf(oneLight(full), "power", { stopsMore }), "iso").what;
    expect(iso(2)).toBe("ISO 400 in place of 100");
    expect(iso(1.5)).toBe("ISO 320 in place of 100, and this head 0.2 stops down");
  });
  it("the lens opens by as much, as far as it goes", () => {
    const aperture = (stopsMore: number, shelf = STARTER_SHELF) =>
      wayOf(rowOf(oneLight(full), "power", { stopsMore, shelf }), "aperture");
    expect(aperture(2).what).toBe("f/4 + 0.0 in place of f/8 + 0.0");
    expect(aperture(2).effect).toMatch(/at f\/8 \+ 0\.0 .* sharp; at f\/4 \+ 0\.0 .* sharp$/);
    // 2 log2 (8 / 1.8) = 4.30
    expect(aperture(5)).toMatchObject({
      what: "f/1.4 + 0.7 in place of f/8 + 0.0, the widest of 85 mm f/1.8: 4.3 of 5.0 stops",
      stops: expect.closeTo(4.304, 3),
    });
  });
  it.each([0.5, 1])("coming nearer gives %d stops, as the disc's closed form has it", (by) => {
    const way = wayOf(rowOf(oneLight(full), "power", { stopsMore: by }), "distance");
    const from = Number(/from (\d+\.\d+) m/.exec(way.what)?.[1]);
    const expected = Math.sqrt((0.45 ** 2 + from ** 2) * 2 ** -by - 0.45 ** 2);
    expect(Math.abs(metres(way.what) - expected)).toBeLessThan(0.011);
    expect(way.effect).toMatch(/softer.*see that it stays out of the picture$/);
  });
  it("nearer than a front goes it says how much is left", () => {
    const way = wayOf(rowOf(oneLight(full), "power", { stopsMore: 4 }), "distance");
    expect(way.what).toMatch(/in to 0\.40 m on its own line, as near as a front goes: \d\.\d of 4\.0 stops$/);
  });
});

describe("[GR14] charging against the time from frame to frame", () => {
  const head = (recycle: number) => ({ head: { recycle } });
  it("a share of the energy is charged in a share of the time", () => {
    expect(recycleTime(2, 0)).toBe(2);
    expect(recycleTime(2, 3)).toBe(0.25);
  });
  it("in time, not in time with ways out, and what is not known is asked for", () => {
    const shooting = { shooting: { everySeconds: 0.5 } };
    const at = (recycle: number, stopsMore: number) =>
      rowOf(oneLight(head(recycle), shooting), "recycle", { stopsMore });
    expect(at(2, 0)).toMatchObject({ word: "charged in time", ways: [] });
    expect(at(2, 0).sentence).toBe("charged again in about 0.25 s (2 s at full), a frame every 0.5 s");
    const slow = at(2, 2.5);
    expect(slow.word).toBe("not charged in time");
    // 2 s 2^-0.5 = 1.41 s, 1.5 stops over half a second
    expect(slow.ways.map(({ what }) => what)).toEqual([
      "a frame every 1.5 s",
      "this head 1.5 stops down and ISO up by as much",
    ]);
    expect(rowOf(oneLight(head(2)), "recycle").word).toBe("no rate given");
    expect(rowOf(oneLight(), "recycle").word).toBe("not known");
  });
});

describe("[GR15] the flash against motion", () => {
  const flash = (seconds: number, measured = "t0.1") => ({ head: { duration: { seconds, measured } } });
  const shooting = { shooting: { everySeconds: 1, subjectSpeed: 1 } };
  it("half the peak is a tenth of it ln 10 / ln 2 later, where a tube fades by halves", () => {
    expect(freezeTime({ seconds: 0.001, measured: "t0.5" })).toBeCloseTo(0.0033219, 7);
    expect(freezeTime({ seconds: 0.001, measured: "t0.1" })).toBe(0.001);
  });
  it("path, blur on the sensor and at the final size against what the eye tells apart", () => {
    // 1 m/s for 1 ms is 1 mm; f 85 at 1500 mm makes 85 / 1415 of it: 0.0601 mm; ten times that 0.60 mm
    const plan = oneLight(flash(0.001), {
      ...shooting,
      camera: { position: [0, -1.61, 1.55], focalLength: 85 },
    });
    const final = { enlargement: 10, eye_mm: 0.5 };
    const row = rowOf(plan, "duration", { final });
    expect(row.sentence).toMatch(
      /^at full its flash is over a tenth of its peak for 1\/1000, in which 1 m\/s makes 1\.0 mm: 0\.06 mm on the sensor, 0\.6 mm at the final size, where the eye tells 0\.5 mm apart/,
    );
    expect([row.word, row.ways.length]).toEqual(["blur is seen", 2]);
    // 0.60 mm is 1.2 times 0.5: 1 ms over that
    expect(row.ways[0].what).toMatch(/^a flash that is over in 1\/120\d$/);
    expect(rowOf(plan, "duration", { final: { ...final, eye_mm: 0.7 } })).toMatchObject({
      word: "blur under what the eye tells apart",
      ways: [],
    });
  });
  it("without a final size it is told against a pixel, and a quicker head is named", () => {
    const pixels = { camera: { position: [0, -1.6, 1.6], pixels: { width: 8256, height: 5504 } } };
    const shelf = {
      ...STARTER_SHELF,
      heads: [
        { ...STARTER_SHELF.heads[0], name: "quick", duration: { seconds: 1e-5, measured: "t0.1" as const } },
      ],
    };
    const row = rowOf(oneLight(flash(0.001), { ...shooting, ...pixels }), "duration", { shelf });
    expect(row.word).toBe("blur over a pixel");
    expect(row.sentence).toMatch(/ 1[34]\.\d pixels;/);
    expect(wayOf(row, "head").what).toBe("quick in its place");
    expect(rowOf(oneLight(), "duration").word).toBe("not known");
  });
});

describe("[GR16] the shutter against the body's shortest with flash", () => {
  const at = (shutter: number, light: object = {}) =>
    rowOf(oneLight(light, { camera: { position: [0, -1.6, 1.6], shutter } }), "sync", {
      shelf: STARTER_SHELF,
    });
  it("shorter is a dark band, and more power no cure", () => {
    const row = at(1 / 250);
    expect(row.word).toBe("dark band");
    expect(row.sentence).toMatch(
      /^1\/250 is shorter than the 1\/200 of 45 megapixel body: .*more power does not help$/,
    );
    expect(row.ways.map(({ what }) => what)).toEqual(["1/200 or longer"]);
  });
  it("as long is not", () => expect(at(1 / 200).word).toBe("whole frame"));
  it("a flash that outlasts the shutter loses its tail", () => {
    expect(at(1 / 200, { head: { duration: { seconds: 1 / 100, measured: "t0.1" } } }).word).toBe(
      "shutter cuts the flash",
    );
  });
  it("without a body it asks, and says what is usual and from where", () => {
    expect(rowOf(oneLight(), "sync").sentence).toMatch(/1\/160 to 1\/250 is usual \(from memory\)/);
  });
  it("body and lens of the plan are found on the shelf by sensor, pixels and focal length", () => {
    const plan = (camera: object) => oneLight({}, { camera: { position: [0, -1.6, 1.6], ...camera } });
    expect(bodyFor(plan({}), STARTER_SHELF)?.name).toBe("45 megapixel body");
    expect(bodyFor(plan({ pixels: { width: 6000, height: 4000 } }), STARTER_SHELF)).toBeNull();
    expect(bodyFor(plan({ sensor: { width: 23.6, height: 15.7 } }), STARTER_SHELF)).toBeNull();
    expect(lensFor(plan({ focalLength: 85 }), STARTER_SHELF)?.name).toBe("85 mm f/1.8");
    expect(lensFor(plan({ focalLength: 135 }), STARTER_SHELF)?.name).toBe("70 to 200 mm f/2.8");
    expect(lensFor(plan({ focalLength: 400 }), STARTER_SHELF)).toBeNull();
  });
});

describe("[GR17] nothing is called all right, and lengths are in the units in use", () => {
  const plans = [
    oneLight(),
    oneLight(
      { head: { recycle: 1, duration: { seconds: 0.001 } } },
      { shooting: { everySeconds: 0.2 }, backdrop: { kind: "paper", position: [0, 2] } },
    ),
  ];
  const texts = (units: "metric" | "feet") =>
    plans.flatMap((plan) =>
      [-6, 0, 6].flatMap((stopsMore) =>
        canItDo(plan, 0, { units, stopsMore, shelf: STARTER_SHELF }).rows.flatMap(
          ({ sentence, ways, word }) => [
            word,
            sentence,
            ...ways.flatMap(({ effect, what }) => [what, effect]),
          ],
        ),
      ),
    );
  it("no word of it", () => {
    for (const text of texts("metric"))
      expect(text).not.toMatch(/\b(ok|okay|safe|safely|fine|no problem)\b/i);
  });
  it("no metre where feet are used", () => {
    for (const text of texts("feet")) expect(text).not.toMatch(/\d (m|cm)(?![\p{L}/])/u);
    expect(texts("feet").join()).toMatch(/\d′ \d/);
  });
});

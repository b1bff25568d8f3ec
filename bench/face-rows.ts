/** The speeds that reading a face is held to: set-ups tried in a search, and one face read when its shares are known. */
import type { Emitter } from "../src/engine/index.ts";
import { readFace } from "../src/reading/face.ts";
import { faceShares } from "../src/reading/face-light.ts";
import { Memory } from "../src/reading/index.ts";
import { lightUp, WORK } from "../src/reading/lighting.ts";
import { readPattern } from "../src/reading/pattern.ts";
import { writeQuickExposure } from "../src/reading/quick-exposure.ts";
import { quickFace } from "../src/reading/quick-face.ts";
import { QUICK_RINGS, quickLight } from "../src/reading/quick-light.ts";
import { movableEmitter, writeHeadEmitter } from "../src/reading/quick-place.ts";
import { writeTracedExposure } from "../src/reading/quick-traced.ts";
import { studio } from "./studio.ts";
import type { Row } from "./work.ts";

const SETUPS = 1000;
const TRACED = 50;
const FINE = 10;
/** Far above what counts as dark. */
const OUTPUT = 1600;

export function faceRows(): Row[] {
  const plan = studio();
  const warm = new Memory();
  const lighting = lightUp(plan, "coarse", warm);
  const person = lighting.stage.people[0];
  const marks = person.shape.head.landmarks;
  const coarse = quickFace(person, WORK.coarse.spacing);
  const fine = quickFace(person, WORK.fine.spacing);
  // the key of the studio, an octagon 1.5 m wide, sent all round the head
  const key = lighting.stage.scene.emitters[0];
  const own = movableEmitter(key);
  const searched = quickLight(key, QUICK_RINGS.search);
  const finer = quickLight(key, 2 * QUICK_RINGS.search);
  const setUp = (k: number, write: typeof writeQuickExposure, quick = coarse, light = searched) => {
    const out = new Float64Array(quick.samples.count);
    writeHeadEmitter(own, roundTheHead(key, person.headOffset, k), person);
    write(quick, own, light, out);
    for (let s = 0; s < out.length; s++) out[s] *= OUTPUT;
    return readPattern(quick.samples, out, marks, OUTPUT / 4);
  };
  const each = (clock: () => number, count: number, work: (k: number) => unknown) => {
    const start = clock();
    for (let k = 0; k < count; k++) work(k);
    return clock() - start;
  };
  coarse.edges();
  faceShares(lighting, 0);
  readFace(lighting, 0);
  return [
    {
      name: `${SETUPS} set-ups on the quick face, one light of 1.5 m, pattern read`,
      against: "the same traced",
      // 0.2 ms each
      asked: 0.2 * SETUPS,
      runs: 5,
      once: (c) => ({
        ours: each(c, SETUPS, (k) => setUp(k, writeQuickExposure)),
        other: (SETUPS / TRACED) * each(c, TRACED, (k) => setUp(k, writeTracedExposure)),
      }),
    },
    {
      name: `${TRACED} set-ups traced, coarse, pattern read`,
      against: "the same at the samples of a fine reading, four times the points",
      // 2 ms each
      asked: 2 * TRACED,
      runs: 5,
      once: (c) => ({
        ours: each(c, TRACED, (k) => setUp(k, writeTracedExposure)),
        other: (TRACED / FINE) * each(c, FINE, (k) => setUp(k, writeTracedExposure, fine, finer)),
      }),
    },
    {
      name: "a face read from given shares, three lights",
      against: "with its shares from nothing",
      asked: 5,
      runs: 5,
      once: (c) => ({
        ours: each(c, 1, () => readFace(lighting, 0)),
        other: each(c, 1, () => readFace(lightUp(plan, "coarse", new Memory()), 0)),
      }),
    },
  ];
}

/** A light set 1.5 m off the ears and turned to them, spread evenly over the front. */
function roundTheHead(key: Emitter, ears: Float64Array, k: number): Emitter {
  const azimuth = (((k * 0.618034) % 1) * 2 - 1) * 1.7;
  const elevation = ((k * 0.754878) % 1) * 1.7 - 0.6;
  const [ca, sa, ce, se] = [Math.cos(azimuth), Math.sin(azimuth), Math.cos(elevation), Math.sin(elevation)];
  // the studio's sitter faces the near wall
  const out = [sa * ce, -ca * ce, se];
  return {
    ...key,
    centre: Float64Array.from(out, (d, i) => ears[i] + 1.5 * d),
    forward: Float64Array.from(out, (d) => -d),
    right: Float64Array.of(-ca, -sa, 0),
    up: Float64Array.of(-sa * se, ca * se, ce),
  };
}

import { describe, expect, it } from "vitest";
import { armLength, reachOf, soleLength } from "./index.ts";

/** 32 men of ANSUR II 2012 (public tables, one stretch of rows of one day and place), millimetres: stature, acromial height,
 * acromion-radiale, radiale-stylion, hand length, forearm-hand, forearm to centre of grip, hand breadth, span, overhead
 * fingertip reach sitting, sitting height. */
const MEN: readonly (readonly number[])[] = [
  [1719, 1423, 311, 266, 188, 475, 343, 89, 1756, 1379, 879],
  [1730, 1423, 322, 279, 180, 476, 343, 84, 1798, 1409, 919],
  [1702, 1394, 322, 272, 193, 475, 347, 82, 1799, 1393, 871],
  [1796, 1444, 345, 279, 190, 487, 350, 87, 1877, 1493, 943],
  [1818, 1479, 326, 273, 190, 475, 348, 93, 1810, 1467, 985],
  [1695, 1376, 330, 262, 187, 474, 353, 88, 1801, 1461, 868],
  [1780, 1471, 334, 281, 187, 490, 361, 90, 1839, 1445, 896],
  [1848, 1533, 365, 287, 190, 502, 368, 92, 1904, 1540, 958],
  [1851, 1486, 347, 280, 190, 490, 367, 90, 1876, 1455, 956],
  [1666, 1355, 322, 253, 186, 469, 350, 86, 1759, 1366, 879],
  [1768, 1441, 333, 261, 192, 473, 339, 84, 1834, 1503, 942],
  [1790, 1498, 341, 275, 198, 494, 357, 87, 1852, 1453, 921],
  [1702, 1412, 320, 250, 185, 458, 337, 87, 1749, 1400, 898],
  [1877, 1553, 367, 275, 212, 508, 373, 98, 1966, 1582, 982],
  [1780, 1460, 340, 278, 204, 503, 383, 94, 1856, 1516, 953],
  [1752, 1438, 338, 284, 196, 491, 364, 90, 1838, 1470, 898],
  [1776, 1468, 357, 264, 193, 480, 354, 87, 1846, 1424, 924],
  [1674, 1391, 322, 252, 175, 441, 318, 84, 1716, 1389, 893],
  [1721, 1412, 317, 259, 184, 454, 329, 89, 1739, 1404, 914],
  [1717, 1410, 325, 266, 192, 481, 348, 94, 1781, 1419, 888],
  [1705, 1395, 329, 270, 183, 478, 350, 86, 1817, 1432, 877],
  [1693, 1392, 338, 282, 197, 494, 356, 88, 1848, 1424, 842],
  [1768, 1456, 346, 263, 198, 482, 354, 88, 1861, 1489, 940],
  [1740, 1430, 340, 272, 214, 508, 362, 99, 1921, 1425, 865],
  [1780, 1437, 329, 261, 201, 477, 343, 90, 1836, 1460, 933],
  [1803, 1482, 331, 268, 197, 489, 354, 86, 1836, 1455, 937],
  [1785, 1464, 350, 266, 205, 504, 368, 90, 1883, 1427, 893],
  [1776, 1467, 334, 276, 200, 500, 367, 91, 1900, 1478, 913],
  [1755, 1466, 335, 256, 196, 469, 346, 84, 1772, 1478, 930],
  [1591, 1306, 290, 223, 176, 426, 317, 82, 1578, 1301, 852],
  [1860, 1510, 324, 272, 209, 493, 359, 94, 1812, 1507, 1013],
  [1743, 1424, 318, 250, 176, 455, 338, 84, 1706, 1389, 924],
];

/** Mean and standard deviation of a share of stature. */
function share(of: (row: readonly number[]) => number): { mean: number; sd: number } {
  const all = MEN.map((row) => of(row) / row[0]);
  const mean = all.reduce((sum, x) => sum + x, 0) / all.length;
  const squares = all.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(squares / (all.length - 1)) };
}

const tips = share(([, , upper, fore, hand]) => upper + fore + hand);
/** Overhead reach of somebody who sits, over the acromion of the same who sits as straight. */
const overhead = share(
  ([stature, acromion, , , , , , , , reach, sitting]) => reach - (acromion - (stature - sitting)),
);
/** The mean of 32 is off by this much in one of three draws. */
const off = ({ sd }: { sd: number }) => sd / Math.sqrt(MEN.length);

describe("[BY1] a straight arm is as long as published proportions say", () => {
  it("6,068 people and the 32 agree within the 32's own doubt, Drillis & Contini within 3 %", () => {
    const level = armLength(1, "fingertips", 0);
    // 0.1909 + 0.1511 + 0.1104
    expect(level.length).toBeCloseTo(0.4524, 10);
    expect(Math.abs(level.length - tips.mean)).toBeLessThan(2 * off(tips));
    // 0.186 + 0.146 + 0.108
    expect(Math.abs(level.length - 0.44) / 0.44).toBeLessThan(0.03);
  });
  it("fist, wrist, finger, shoulder and span are the 32's", () => {
    const wrist = share(([, , upper, fore]) => upper + fore);
    const grip = share(([, , , , , hand, fist]) => hand - fist);
    const finger = share((row) => row[7] / 4);
    const { length } = armLength(1, "fingertips", 0);
    const fist = armLength(1, "fist", 0);
    expect(Math.abs(length - fist.length - grip.mean)).toBeLessThan(2 * off(grip));
    expect(Math.hypot(tips.sd, grip.sd)).toBeCloseTo(fist.spread, 3);
    expect(Math.abs(armLength(1, "wrist", 0).length - wrist.mean)).toBeLessThan(2 * off(wrist));
    expect(reachOf(1).finger).toBeCloseTo(finger.mean, 3);
    // tragion under the top of the head: 0.0761 of stature (published-checks section 10)
    const acromion = share((row) => row[1]);
    expect(1 - 0.0761 - reachOf(1).shoulderUnderEars).toBeCloseTo(acromion.mean, 3);
    const span = share((row) => row[8] / 2);
    expect(length + reachOf(1).shoulderAsideHeldOut).toBeCloseTo(span.mean, 3);
  });
  it("straight up it reaches as far over the shoulder as the 32 do, and between it grows all the way", () => {
    expect(armLength(1, "fingertips", 90).length).toBeCloseTo(overhead.mean, 3);
    const lengths = [-30, 0, 30, 60, 90].map((up) => armLength(1.72, "fingertips", up).length);
    expect(lengths[0]).toBe(lengths[1]);
    for (let i = 2; i < lengths.length; i++) expect(lengths[i]).toBeGreaterThan(lengths[i - 1]);
  });
});

describe("[BY2] how much people of one stature differ is told in the same length", () => {
  it("level and straight up it is the deviation of the 32, and the parts' own lie about it", () => {
    expect(armLength(1, "fingertips", 0).spread).toBeCloseTo(tips.sd, 3);
    expect(armLength(1, "fingertips", 90).spread).toBeCloseTo(overhead.sd, 3);
    expect(armLength(1.72, "fingertips", 0).spread).toBeCloseTo(1.72 * 0.012, 10);
    // deviations of 6,068 people's upper arm, forearm and hand: by chance and all in step
    const { spread } = armLength(1, "fingertips", 0);
    expect(spread).toBeGreaterThan(Math.hypot(0.0062, 0.0067, 0.0044));
    expect(spread).toBeLessThan(0.0062 + 0.0067 + 0.0044);
  });
  it("two in three of the 32 lie within it", () => {
    const { length, spread } = armLength(1, "fingertips", 0);
    const within = MEN.filter(
      ([stature, , upper, fore, hand]) => Math.abs((upper + fore + hand) / stature - length) <= spread,
    );
    expect(within.length / MEN.length).toBeGreaterThan(0.5);
    expect(within.length / MEN.length).toBeLessThan(0.85);
  });
});

describe("[BY3] a sole is a foot and a shoe", () => {
  it("by published proportions, Drillis & Contini within 2 %", () => {
    // 0.1534 of 1.72 m, and 2 cm of shoe
    expect(soleLength(1.72).length).toBeCloseTo(0.26385 + 0.02, 4);
    expect(Math.abs((soleLength(1).length - 0.02) / 0.152 - 1)).toBeLessThan(0.02);
    expect(soleLength(1.72).spread).toBeCloseTo(Math.hypot(0.0055 * 1.72, 0.01), 12);
  });
});

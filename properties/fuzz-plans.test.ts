/** Plan files that were damaged, by accident or on purpose: each is a plan, or what is wrong with it is told. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openPlan } from "../src/workbench/index.ts";
import { amount } from "./amount.ts";
import { createChance, damagedBytes, damagedDocument, heldBytes } from "./fuzz-parts.ts";

const SEED = 2_611_000;
const FILES = 20_000;
/** Each takes a few milliseconds. What takes this long is tried again: a busy machine is not as slow three times. */
const LONGEST_MS = 1000;
const TRIES = 3;
/** Beyond what there was before; what stayed behind of each would come to many times that. */
const MOST_GROWTH_BYTES = 256 * 1024 * 1024;

const examples = readdirSync("examples")
  .filter((name) => name.endsWith(".json"))
  .map((name) => readFileSync(join("examples", name), "utf8"));
const count = { plans: 0, refused: 0 };

function openQuickly(text: string, which: string) {
  for (let tries = 0; tries < TRIES; tries++) {
    const began = performance.now();
    const opened = openPlan(text);
    if (performance.now() - began < LONGEST_MS) return opened;
  }
  throw new Error(`${which} takes longer than ${LONGEST_MS} ms`);
}

function tryFile(number: number): void {
  const chance = createChance(SEED + number);
  const example = chance.of(examples);
  const text = chance.oneIn(2)
    ? damagedDocument(chance, example)
    : damagedBytes(chance, Buffer.from(example)).toString("utf8");
  const which = `file ${number} of seed ${SEED}`;
  const opened = openQuickly(text, which);
  if (opened.ok) {
    count.plans++;
    return;
  }
  count.refused++;
  const { problems } = opened;
  expect(problems.length, which).toBeGreaterThan(0);
  expect(problems.length, which).toBeLessThan(200);
  for (const { path, what } of problems) expect(path === "" || what === "", which).toBe(false);
}

it(`[PL5] [PL8] ${FILES} damaged plan files end as plans or as problems with their places (seed ${SEED})`, () => {
  // the figures that meters are checked against are loaded with the first plan that has any
  for (const example of examples) openPlan(example);
  const before = heldBytes();
  for (let number = 0; number < amount(FILES); number++) tryFile(number);
  expect(heldBytes() - before).toBeLessThan(MOST_GROWTH_BYTES);
  // where all are plans, or none is, it would prove little
  expect(count.plans).toBeGreaterThan(amount(FILES) / 50);
  expect(count.refused).toBeGreaterThan(amount(FILES) / 4);
}, 600_000);

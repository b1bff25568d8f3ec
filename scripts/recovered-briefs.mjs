/** Chooses the fifty briefs of reference/recovered-briefs.json: node scripts/recovered-briefs.mjs. Takes some minutes,
 * nearly all of it for the set-ups that try each brief blindly. A draw is passed over where a pattern has enough, and
 * replaced where any of fifty blind set-ups meets its brief. */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const inRepository = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const load = async (path) =>
  (await runnerImport(inRepository(path), { configFile: false, root: inRepository("."), logLevel: "error" }))
    .module;

const { blindlyMet, drawn, PATTERNS } = await load("reference/recovered-briefs.ts");
const { lookMissed } = await load("reference/brief-judge.ts");

const BRIEFS = 50;
const BLIND = 50;
const LEAST = 6;
/** So that every other pattern can still have its least. */
const MOST = 10;
const kept = [];
const replaced = [];
const count = (pattern) => kept.filter((k) => k.pattern === pattern).length;
const owed = () => PATTERNS.reduce((sum, p) => sum + Math.max(0, LEAST - count(p)), 0);

for (let draw = 0; kept.length < BRIEFS; draw++) {
  const made = drawn(draw);
  if (made === null) continue;
  const { pattern } = made.reading;
  const isOwed = count(pattern) < LEAST;
  if (count(pattern) >= MOST || (!isOwed && BRIEFS - kept.length <= owed())) continue;
  const blind = blindlyMet(
    draw,
    made,
    BLIND,
    (plan, asked, reading) => lookMissed(plan, asked, reading).length === 0,
  );
  (blind > 0 ? replaced : kept).push({ draw, pattern, blind });
  console.log(`${draw}: ${pattern}, met blindly by ${blind} of ${BLIND}; ${kept.length} kept`);
}
const text = JSON.stringify({ blindTries: BLIND, kept, replaced }, null, 2);
writeFileSync(inRepository("reference/recovered-briefs.json"), `${text}\n`);

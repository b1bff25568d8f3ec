import fc from "fast-check";
import { expect, it } from "vitest";
import { createWorks } from "../src/library/index.ts";
import { freshLibrary, plainAround } from "../src/library/testing/fresh-library.ts";
import { applyEdit, begin, checkPlan, current, record, redo, seal, undo } from "../src/plan/index.ts";
import { createSession } from "../src/workbench/index.ts";
import { amount } from "./amount.ts";
import { anyEdit, planDocument } from "./plan-arbitrary.ts";

const never = () => Promise.reject(new Error("not asked for here"));
const SEED = 20_260_207;

it(`[PL12] [PL14] random edits, all undone and all done again, give the same plans (seed ${SEED})`, () => {
  let made = 0;
  let refused = 0;
  fc.assert(
    fc.property(
      planDocument,
      fc.array(fc.tuple(anyEdit, fc.boolean(), fc.boolean()), { maxLength: 30 }),
      (document, edits) => {
        const opened = checkPlan(document);
        if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
        const frozen = JSON.stringify(opened.plan);
        let history = begin(opened.plan);
        for (const [edit, isDrag, isLetGo] of edits) {
          const before = JSON.stringify(current(history));
          const edited = applyEdit(current(history), edit);
          expect(JSON.stringify(current(history))).toBe(before);
          if (edited.ok) {
            // what an edit made is a valid plan by itself
            expect(checkPlan(edited.plan)).toEqual(edited);
            history = record(history, edit.label, edited.plan, isDrag ? "drag" : null);
            made++;
          } else {
            expect(edited.problems.length).toBeGreaterThan(0);
            refused++;
          }
          if (isLetGo) history = seal(history);
        }
        const last = current(history);
        let back = history;
        for (let i = history.steps.length; i > 0; i--) back = undo(back);
        expect(current(back)).toBe(opened.plan);
        expect(JSON.stringify(current(back))).toBe(frozen);
        for (let i = history.steps.length; i > 0; i--) back = redo(back);
        expect(current(back)).toBe(last);
        expect(back).toEqual(history);
      },
    ),
    { seed: SEED, numRuns: amount(3000) },
  );
  // a test of edits that were all refused, or all accepted, would prove little
  expect(made).toBeGreaterThan(100);
  expect(refused).toBeGreaterThan(100);
});

it(`[WB4] [LB1] random edits, kept in the library and taken up after a restart: all undone and all done again (seed ${SEED})`, async () => {
  const library = freshLibrary();
  const store = createWorks(library, plainAround());
  const computer = { read: never, frame: never, map: never };
  const begin = () => createSession({ computer, store, scheduler: { after: () => () => undefined } });
  let count = 0;
  await fc.assert(
    fc.asyncProperty(
      planDocument,
      fc.array(anyEdit, { maxLength: 20 }),
      fc.nat(20),
      async (document, edits, back) => {
        const key = `work-${++count}`;
        const first = begin();
        await first.open(key, JSON.stringify(document));
        for (const edit of edits) first.edit(edit);
        for (let i = 0; i < back; i++) first.undo();
        const before = first.get();
        await first.close();
        const second = begin();
        expect((await second.resume(key)).ok).toBe(true);
        const { plan, steps, at } = second.get();
        expect([plan, steps.map(({ label }) => label), at]).toEqual([
          before.plan,
          before.steps.map(({ label }) => label),
          before.at,
        ]);
        const plans = steps.map((_, i) => {
          first.goTo(i);
          return first.get().plan;
        });
        for (const _ of steps) second.undo();
        for (const known of plans) {
          expect(second.get().plan).toEqual(known);
          second.redo();
        }
      },
    ),
    { seed: SEED, numRuns: amount(200) },
  );
  library.close();
});

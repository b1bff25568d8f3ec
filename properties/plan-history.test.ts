import fc from "fast-check";
import { expect, it } from "vitest";
import { applyEdit, begin, checkPlan, current, record, redo, seal, undo } from "../src/plan/index.ts";
import { amount } from "./amount.ts";
import { anyEdit, planDocument } from "./plan-arbitrary.ts";

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

/** A process that makes one record or contact sheet: built into dist/node/print-process.js, started by entry.js. */
import { contactFile, sheetPdf } from "../src/cli/index.ts";
// by its file: the server as a whole is not needed here
import { servePrints } from "../src/server/print-process.ts";
import { contactPage } from "../src/sheet/index.ts";
import { createComputer, makeContact, makeRecord, openPlan, WorkError } from "../src/workbench/index.ts";

servePrints({
  async contact(text, { form, paper, person, units }) {
    const opened = openPlan(text);
    if (!opened.ok)
      throw new WorkError(`${opened.problems[0].path}: ${opened.problems[0].what}`, "correct the plan");
    const { plan } = opened;
    const sheet = await makeContact(createComputer(), plan, { person, units });
    return contactFile(contactPage(sheet, { paper }), form, paper, plan.title);
  },
  async record({ plan, ...on }, options) {
    const pages = await makeRecord(createComputer(), plan, on, options);
    return sheetPdf(plan, pages, options.paper);
  },
});

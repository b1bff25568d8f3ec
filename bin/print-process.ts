/** A process that makes one record or contact sheet: built into dist/node/print-process.js, started by entry.js. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { contactFile, sheetPdf, startFinders } from "../src/cli/index.ts";
// by its file: the server as a whole is not needed here
import { servePrints } from "../src/server/print-process.ts";
import { contactPage } from "../src/sheet/index.ts";
import { createComputer, makeContact, makeRecord, openPlan, WorkError } from "../src/workbench/index.ts";

const THREAD = pathToFileURL(join(import.meta.dirname, "finder-thread.js"));

servePrints({
  async contact(text, { form, paper, person, units }, work) {
    const opened = openPlan(text);
    if (!opened.ok)
      throw new WorkError(`${opened.problems[0].path}: ${opened.problems[0].what}`, "correct the plan");
    const { plan } = opened;
    const { finders, stop } = startFinders(THREAD);
    try {
      const sheet = await makeContact(finders, plan, { person, units }, work);
      return await contactFile(contactPage(sheet, { paper }), form, paper, plan.title);
    } finally {
      await stop();
    }
  },
  async record({ plan, ...on }, options, work) {
    const pages = await makeRecord(createComputer(), plan, on, options, work);
    return sheetPdf(plan, pages, options.paper);
  },
});

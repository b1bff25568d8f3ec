import { afterEach, expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { ShareProcess } from "./live-process.ts";

const HARD = new URL("./testing/hard-worker.mjs", import.meta.url);
let worker: ShareProcess;
afterEach(() => worker.stop());

async function ask(title: string): Promise<string> {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, title });
  if (!checked.ok) throw new Error("no plan");
  const answer = await worker.ask({ want: "meters", plan: checked.plan }).catch((error: Error) => error);
  if (answer instanceof Error) return answer.message;
  return "meters" in answer ? answer.meters[0].name : "no meters";
}

it("[SR22] one process works while all is well; one that breaks off or does not end is followed by another", async () => {
  // a process of the lowest priority takes long to begin where others work
  worker = new ShareProcess(HARD, 5000);
  const first = await ask("a");
  expect((await ask("b")).split(" ")[0]).toBe(first.split(" ")[0]);
  expect(await ask("crash")).toMatch(/broke off \(SIGSEGV\); try it again/);
  const second = await ask("c");
  expect(second.split(" ")[0]).not.toBe(first.split(" ")[0]);
  expect(await ask("hang")).toMatch(/takes longer than 5 s; try it again/);
  expect(await ask("d")).toMatch(/ d$/);
});

it("[SR22] stopping does not wait for one that does not end", async () => {
  worker = new ShareProcess(HARD);
  await ask("a");
  const hanging = ask("hang");
  await worker.stop();
  expect(await hanging).toMatch(/broke off \(SIGKILL\)/);
});

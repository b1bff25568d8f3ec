import { useEffect, useState } from "preact/hooks";
import { checkPlan, type Plan } from "../plan/index.ts";
import type { PlanInShoot } from "../shoots/index.ts";
import type { FileActions } from "./file-actions.ts";

/** The plans of a shoot by their keys, as they come; null for one that cannot be read. */
export function usePlans(
  files: Pick<FileActions, "glance">,
  inShoot: readonly PlanInShoot[],
): ReadonlyMap<string, Plan | null> {
  const [plans, setPlans] = useState<ReadonlyMap<string, Plan | null>>(new Map());
  const states = inShoot.map(({ key, savedAt }) => `${key} ${savedAt}`).join("\n");
  useEffect(() => {
    let isHere = true;
    void Promise.all(inShoot.map(async ({ key }) => [key, await peek(files, key)] as const)).then(
      (known) => isHere && setPlans(new Map(known)),
    );
    return () => {
      isHere = false;
    };
  }, [files, states]);
  return plans;
}

async function peek(files: Pick<FileActions, "glance">, key: string): Promise<Plan | null> {
  const checked = checkPlan((await files.glance(key).catch(() => null))?.plan);
  return checked.ok ? checked.plan : null;
}

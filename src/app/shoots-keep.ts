import type { ShootLibrary } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";

/** What is on the table is kept first: a version is of the plan as it is seen. */
export async function keepVersion(
  { session }: Pick<Bench, "session">,
  library: Pick<ShootLibrary, "keepVersion">,
  key: string,
  name: string,
): Promise<void> {
  if (session.get().key === key) await session.flush();
  await library.keepVersion(key, name);
}

/** Where Tapemark keeps what is the user's own. */
import { homedir } from "node:os";
import { isAbsolute, join, resolve } from "node:path";

/** Where works and gear are kept: TAPEMARK_DATA, or the platform's own place for a user's data. */
export function dataFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  if (env.TAPEMARK_DATA) return resolve(env.TAPEMARK_DATA);
  if (platform === "win32") return join(env.APPDATA || join(homedir(), "AppData", "Roaming"), "Tapemark");
  if (platform === "darwin") return join(homedir(), "Library", "Application Support", "Tapemark");
  // the convention: a path that is empty or not absolute counts as none
  const own = env.XDG_DATA_HOME && isAbsolute(env.XDG_DATA_HOME) ? env.XDG_DATA_HOME : null;
  return join(own ?? join(homedir(), ".local", "share"), "tapemark");
}

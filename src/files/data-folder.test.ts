import { homedir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { dataFolder } from "./index.ts";

describe("[SV5] what is the user's own lies where the platform keeps a user's data", () => {
  it.each([
    [{ TAPEMARK_DATA: "/own" }, "linux", "/own"],
    [{ XDG_DATA_HOME: "/xdg" }, "linux", "/xdg/tapemark"],
    [{ XDG_DATA_HOME: "" }, "linux", join(homedir(), ".local/share/tapemark")],
    [{ XDG_DATA_HOME: "not/absolute" }, "linux", join(homedir(), ".local/share/tapemark")],
    [{}, "darwin", join(homedir(), "Library/Application Support/Tapemark")],
    [{ APPDATA: "/roaming" }, "win32", "/roaming/Tapemark"],
  ] as const)("%j on %s", (env, platform, expected) => {
    expect(dataFolder(env, platform)).toBe(expected);
  });
});

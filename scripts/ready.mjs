// What start and test share: the right Node, the packages of the lockfile, a fresh build. Node's own modules only.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";

const STAMP = "node_modules/.tapemark-lock";
const BUILT = "dist/.built";
const SOURCES = ["src", "bin", "scripts", "vite.config.ts", "vite.node.config.ts", "package-lock.json"];

export function demandNode() {
  const [major, minor] = process.versions.node.split(".").map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  console.error(`Node ${process.versions.node} is too old for Tapemark; install Node 20.19 or newer`);
  process.exit(3);
}

/** Runs a command, showing what it prints; ends this process where it fails. */
export function must(command, args, what) {
  const done = spawnSync(command, args, {
    stdio: "inherit",
    shell: command === "npm" && process.platform === "win32",
  });
  if (done.status === 0) return;
  console.error(`${what} failed${done.error ? `: ${done.error.message}` : ""}; see above`);
  process.exit(3);
}

export function demandPackages() {
  const lock = createHash("sha256").update(readFileSync("package-lock.json")).digest("hex");
  if (existsSync(STAMP) && readFileSync(STAMP, "utf8") === lock) return;
  if (lstatSync("node_modules", { throwIfNoEntry: false })?.isSymbolicLink()) {
    console.error(
      "node_modules is a link to packages that are not known to be those of package-lock.json, and installing would empty the folder that it leads to: remove the link and run this again, or run `npm start` once in the checkout that the folder belongs to",
    );
    process.exit(3);
  }
  must("npm", ["ci", "--no-audit", "--no-fund"], "installing packages");
  writeFileSync(STAMP, lock);
}

export function demandBuild() {
  const newest = Math.max(...SOURCES.map(newestIn));
  if (existsSync(BUILT) && statSync(BUILT).mtimeMs >= newest) return;
  must(process.execPath, ["scripts/build.mjs"], "building");
  mkdirSync("dist", { recursive: true });
  writeFileSync(BUILT, "");
}

function newestIn(path) {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newestIn(join(path, name))));
}

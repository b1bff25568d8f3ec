// A step of the build: writes sw.js with the names of everything that was built, so that the page can be kept whole.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Every browser that runs the page reads the newer fonts; the older form of them need not be kept. */
const NOT_KEPT = /\.woff$|^sw\.js$/;

export function serviceWorker(source) {
  return {
    name: "tapemark-service-worker",
    apply: "build",
    // from the disk, when all is there: the bundle itself knows neither public files nor what comes after it
    writeBundle({ dir }) {
      const names = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) =>
          join(entry.parentPath, entry.name)
            .slice(dir.length + 1)
            .replaceAll("\\", "/"),
        )
        .filter((name) => !NOT_KEPT.test(name))
        .sort();
      const template = readFileSync(source, "utf8");
      const hash = createHash("sha256").update(template);
      for (const name of names) hash.update(name).update(readFileSync(join(dir, name)));
      const files = names.map((name) => (name === "index.html" ? "./" : `./${name}`));
      const code = template
        .replace("__NAME__", hash.digest("hex").slice(0, 12))
        .replace("__FILES__", JSON.stringify(files));
      writeFileSync(join(dir, "sw.js"), code);
    },
  };
}

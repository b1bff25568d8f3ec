// Writes examples/test-frame.jpg: what a camera would bring back from the demo plan with its key half a stop too low.
// Rendered by our own engine: nobody real is in it. Run it after npm run build.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";

const folder = mkdtempSync(join(tmpdir(), "tapemark-test-frame-"));
const at = (name) => join(folder, name);
const plan = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
plan.lights[0].output.stopsDown += 0.5;
writeFileSync(at("plan.json"), JSON.stringify(plan));
const frame = ["frame", at("plan.json"), "--out", at("frame.png"), "--width", "640"];
execFileSync(process.execPath, ["bin/tapemark.js", ...frame], { stdio: "inherit" });
await sharp(at("frame.png"))
  .withExif({
    IFD0: {
      Make: "Tapemark",
      Model: "rendered frame",
      ImageDescription:
        "examples/cellist.json with its key half a stop down, rendered by Tapemark; nobody real",
    },
    // f, time and ISO are those that a plan has where it says nothing
    IFD2: {
      FNumber: `${plan.camera.fNumber}/1`,
      ExposureTime: "1/160",
      ISOSpeedRatings: "100",
      FocalLength: `${plan.camera.focalLength}/1`,
      FocalLengthIn35mmFilm: `${plan.camera.focalLength}`,
      ColorSpace: "1",
      DateTimeOriginal: "2026:11:26 10:12:30",
    },
  })
  .jpeg({ quality: 90 })
  .toFile("examples/test-frame.jpg");
rmSync(folder, { recursive: true, force: true });

/** The command as people and scripts call it: exit codes, what goes where, nothing half-written. */
import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "tapemark-cli-"));
const at = (name: string) => join(folder, name);

function tapemark(...words: string[]) {
  const done = spawnSync(process.execPath, ["bin/tapemark.js", ...words], { encoding: "utf8" });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

function planFile(name: string, text: string): string {
  writeFileSync(at(name), text);
  return at(name);
}

describe("[CL1] exit codes and where things are printed", () => {
  it("read --json prints one object and nothing else", () => {
    const { code, out, error } = tapemark("read", "examples/manual-start.json", "--json");
    expect(code).toBe(0);
    expect(error).toBe("");
    const reading = JSON.parse(out);
    expect(reading.meters[0].name).toBe("nose");
    expect(reading.people[0].face.litSide).toBe("left");
  });
  it("the same plan gives the same bytes", () => {
    const [a, b] = [1, 2].map(() => tapemark("read", "examples/manual-start.json", "--json").out);
    expect(a).toBe(b);
  });
  it("a wrong plan: 1, each problem on a line with its path, nothing on standard output, no stack trace", () => {
    const text = '{"format":"tapemark/plan","version":1,"titel":"x","camera":{"iso":0}}';
    const { code, out, error } = tapemark("read", planFile("wrong.json", text), "--json");
    expect(code).toBe(1);
    expect(out).toBe("");
    const lines = error.trim().split("\n");
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(line).toMatch(/^[a-z][\w.[\]]*: \S/);
    expect(error).not.toMatch(/^\s+at /m);
  });
  it.each([
    ["not JSON", "{"],
    ["empty", ""],
    ["nested too deep", "[".repeat(100000)],
    ["a list", "[]"],
  ])("%s: 1", (name, text) => {
    const file = planFile(`${name}.json`, text);
    const { code, error } = tapemark("check-plan", file);
    expect(code).toBe(1);
    expect(error.startsWith(`plan: ${file}: `), error).toBe(true);
    expect(error).not.toMatch(/^\s+at /m);
  });
  it("a meter inside a body: 1", () => {
    const plan = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
    plan.meters[0].position = [3.5, 4.6, 1.2];
    const { code, error } = tapemark("check-plan", planFile("inside.json", JSON.stringify(plan)));
    expect(code).toBe(1);
    expect(error).toMatch(/^meters\[0\]\.position: /);
  });
  it.each([
    [["reed", "x"], /did you mean read/],
    [["read"], /name a plan/],
    [["read", "a", "b"], /one too many/],
    [["read", "examples/cellist.json", "--jsn"], /did you mean --json/],
    [["frame", "examples/cellist.json"], /--out/],
    [["frame", "examples/cellist.json", "--out", "x.gif"], /must end in \.png or \.pfm/],
    [
      ["frame", "examples/cellist.json", "--out", "x.png", "--width", "0"],
      /--width: 0 is not a whole number from 8/,
    ],
  ])("a wrong call %j: 2 with the cure", (words, message) => {
    const { code, error } = tapemark(...words);
    expect(code).toBe(2);
    expect(error).toMatch(message);
  });
  it("a file that is not there: 3, named", () => {
    const { code, error } = tapemark("read", at("nowhere.json"));
    expect(code).toBe(3);
    expect(error).toMatch(/could not read .*nowhere\.json: there is no such file/);
  });
  it("help and version: 0", () => {
    expect(tapemark("--help").out).toMatch(/check-plan/);
    expect(tapemark("frame", "--help").out).toMatch(/--width/);
    expect(tapemark("--version").out).toMatch(/^tapemark \d/);
  });
});

describe("[CL3] the examples run as they are", () => {
  it.each(["cellist", "manual-start", "group"])("%s is read and framed", (name) => {
    const plan = `examples/${name}.json`;
    const read = tapemark("read", plan);
    expect(read.code).toBe(0);
    expect(read.out).toMatch(/f\/\d/);
    expect(tapemark("frame", plan, "--out", at(`${name}.png`), "--width", "48").code).toBe(0);
  });
});

describe("[CL2] files are written whole or not at all", () => {
  it("PNG and float map of the size asked for", () => {
    expect(tapemark("frame", "examples/manual-start.json", "--out", at("a.png"), "--width", "40").code).toBe(
      0,
    );
    expect(readFileSync(at("a.png")).subarray(1, 4).toString()).toBe("PNG");
    expect(tapemark("frame", "examples/manual-start.json", "--out", at("a.pfm"), "--width", "40").code).toBe(
      0,
    );
    const pfm = readFileSync(at("a.pfm"));
    const header = "PF\n40 60\n-1.0\n";
    expect(pfm.subarray(0, header.length).toString()).toBe(header);
    expect(pfm.length).toBe(header.length + 40 * 60 * 12);
  });
  it("a folder that is not there, or a folder in the way: 3, and nothing is left behind", () => {
    for (const out of [join(folder, "no", "a.png"), folder.concat("/b.png")]) {
      if (out.endsWith("b.png")) spawnSync("mkdir", [out]);
      const { code, error } = tapemark("frame", "examples/manual-start.json", "--out", out, "--width", "8");
      expect(code).toBe(3);
      expect(error).toMatch(/could not write/);
    }
    expect(readdirSync(folder).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });
  it.skipIf(process.getuid?.() === 0)("a file that may not be written: 3", () => {
    // root may write anywhere, so this runs for other users only
    writeFileSync(at("locked.png"), "");
    chmodSync(folder, 0o500);
    expect(tapemark("frame", "examples/manual-start.json", "--out", at("c.png"), "--width", "8").code).toBe(
      3,
    );
    chmodSync(folder, 0o700);
    expect(existsSync(at("c.png"))).toBe(false);
  });
  it("a sheet as PDF and as SVG; the same plan gives the same bytes", () => {
    // nobody in it: nothing to hold, to move or to reach, which is what takes its time
    writeFileSync(at("nobody.json"), '{ "format": "tapemark/plan", "version": 1, "title": "Bare room" }');
    for (const name of ["s.pdf", "t.pdf"])
      expect(tapemark("sheet", at("nobody.json"), "--out", at(name)).code).toBe(0);
    const american = ["--paper", "letter", "--units", "feet"];
    expect(tapemark("sheet", at("nobody.json"), "--out", at("s.svg"), ...american).code).toBe(0);
    expect(readFileSync(at("s.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
    expect(readFileSync(at("s.pdf")).equals(readFileSync(at("t.pdf")))).toBe(true);
    expect(readFileSync(at("s.svg"), "utf8")).toMatch(/^<svg /);
  });
});

describe("[CL9] photometric files beside a plan", () => {
  const lamp = (text: string) =>
    JSON.stringify({
      format: "tapemark/plan",
      version: 1,
      lights: [
        {
          name: "lamp",
          position: [0, 0, 2],
          direction: { bearing: 0, tilt: -90 },
          beam: { photometry: text },
          output: { lumenSeconds: 1000 },
        },
      ],
      meters: [{ name: "under", position: [0, 0, 0], direction: { bearing: 0, tilt: 90 } }],
    });
  const file = (candela: string) =>
    `IESNA91\r\nTILT=NONE\r\n1 -1 1 3 1 1 2 0.4 0.6 0\r\n1 1 0\r\n0 45 90\r\n0\r\n${candela}\r\n`;

  it("the file is read, and gives the front its size", () => {
    planFile("lamp.ies", file("1000 700 0"));
    const { code, out, error } = tapemark("read", planFile("lamp.json", lamp("lamp.ies")), "--json");
    expect(error).toBe("");
    expect(code).toBe(0);
    // flux of the table in front, by hand: 2 pi of the sums of a cos + slope sin over both zones
    const rad = Math.PI / 4;
    const [s1, s2] = [-300 / rad, -700 / rad];
    const zones =
      1000 - 700 * Math.cos(rad) + s1 * Math.sin(rad) + 700 * Math.cos(rad) + s2 * (1 - Math.sin(rad));
    const far = (1000 * 1000) / (2 * Math.PI * zones) / 4;
    // the front of 0.4 x 0.6 m at 2 m is a little under its point: by two thirds of r2 over d2 and what the lobe takes, under 7 %
    const read = JSON.parse(out).meters[0].luxSeconds;
    expect(read / far).toBeLessThan(1);
    expect(read / far).toBeGreaterThan(0.93);
  });
  it("a malformed file: 1, with its name, line and reason", () => {
    planFile("short.ies", file("1000 700"));
    const { code, error } = tapemark("read", planFile("short.json", lamp("short.ies")));
    expect(code).toBe(1);
    expect(error).toMatch(/^lights\[0\]\.beam\.photometry: short\.ies, line 7: ends after 19 of 20 numbers/m);
  });
  it.each(["nowhere.ies", "../lamp.ies", "/etc/hostname", ".hidden"])(
    "%s: 1, and nothing is read",
    (name) => {
      const { code, error } = tapemark("check-plan", planFile("none.json", lamp(name)));
      expect(code).toBe(1);
      expect(error).toMatch(/^lights\[0\]\.beam\.photometry: /m);
    },
  );
});

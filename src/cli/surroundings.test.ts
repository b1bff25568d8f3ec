/** The command among pipes, links, devices and its own server. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-around-"));
const at = (name: string) => join(folder, name);
const COMMAND = [process.execPath, "bin/tapemark.js"] as const;
const SMALL = ["frame", "examples/manual-start.json", "--width", "8", "--out"];
const isPosix = process.platform !== "win32";

afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function tapemark(words: readonly string[], input?: string | Buffer) {
  const done = spawnSync(COMMAND[0], [COMMAND[1], ...words], { encoding: "utf8", input });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

const shell = (line: string) => spawnSync("bash", ["-c", line], { encoding: "utf8" });

describe("[CL4] a plan comes from a file or from standard input, and an endless one ends", () => {
  it("- reads the same plan the same way", () => {
    const text = fs.readFileSync("examples/manual-start.json");
    const piped = tapemark(["read", "-", "--json"], text);
    expect(piped.code).toBe(0);
    expect(piped.out).toBe(tapemark(["read", "examples/manual-start.json", "--json"]).out);
  });
  it("50 MB: 1, with its size", () => {
    const { code, error } = tapemark(["check-plan", "-"], Buffer.alloc(50_000_000, "["));
    expect(code).toBe(1);
    expect(error).toMatch(/^plan: .*47\.7/);
  });
  it.runIf(isPosix)("an input without end: 1", () => {
    const { stdout, stderr } = shell(`yes | "${COMMAND[0]}" ${COMMAND[1]} check-plan -; echo $?`);
    expect(stdout).toBe("1\n");
    expect(stderr).toMatch(/^plan: /);
  });
  it("a folder as a plan: 3, named", () => {
    const { code, error } = tapemark(["read", "examples"]);
    expect(code).toBe(3);
    expect(error).toBe("tapemark: could not read examples: it is a folder; name a file\n");
  });
});

describe("[CL5] what stands where the output goes is respected", () => {
  it.runIf(isPosix)("a link keeps pointing where it did", () => {
    fs.writeFileSync(at("real.png"), "old");
    fs.symlinkSync("real.png", at("link.png"));
    expect(tapemark([...SMALL, at("link.png")]).code).toBe(0);
    expect(fs.lstatSync(at("link.png")).isSymbolicLink()).toBe(true);
    expect(fs.readFileSync(at("real.png")).subarray(1, 4).toString()).toBe("PNG");
  });
  it.runIf(isPosix)("a pipe is written into, not replaced", () => {
    const { status, stdout } = shell(
      `cd "${folder}" && mkfifo p.png && (head -c 4 p.png | tail -c 3 & cd "${process.cwd()}" && ` +
        `"${COMMAND[0]}" ${COMMAND[1]} ${SMALL.join(" ")} "${at("p.png")}"; wait)`,
    );
    expect([status, stdout]).toEqual([0, "PNG"]);
    expect(fs.lstatSync(at("p.png")).isFIFO()).toBe(true);
  });
  it.runIf(fs.existsSync("/dev/full"))("a full disk: 3, with the cure", () => {
    fs.symlinkSync("/dev/full", at("full.png"));
    const { code, error } = tapemark([...SMALL, at("full.png")]);
    expect(code).toBe(3);
    expect(error).toMatch(/could not write .*full\.png: the disk is full; free some space/);
  });
});

describe("[CL6] standard output that goes away or is full is no crash", () => {
  it.runIf(isPosix)("a reader that has seen enough: quiet", () => {
    const line = `"${COMMAND[0]}" ${COMMAND[1]} read examples/manual-start.json --json | true; echo \${PIPESTATUS[0]}`;
    const { stdout, stderr } = shell(line);
    expect([stdout, stderr]).toEqual(["0\n", ""]);
  });
  it.runIf(fs.existsSync("/dev/full"))("a full disk behind it: 3, in words", () => {
    const { stdout, stderr } = shell(`"${COMMAND[0]}" ${COMMAND[1]} --help > /dev/full; echo $?`);
    expect(stdout).toBe("3\n");
    expect(stderr).toMatch(/^tapemark: could not write to standard output: the disk is full/);
  });
});

describe("[CL7] an option that is not known is named with what was meant", () => {
  it.each([
    [["sheet", "x", "--output", "y"], /--output: .*did you mean --out\?/],
    [["sheet", "x", "--papr", "a4"], /--papr: .*did you mean --paper\?/],
    [["open", "--browser"], /--browser: .*did you mean --no-browser\?/],
    [["read", "x", "-j"], /-j: .*it has --json/],
  ])("%j", (words, message) => {
    const { code, out, error } = tapemark(words);
    expect([code, out]).toEqual([2, ""]);
    expect(error).toMatch(message);
  });
});

describe("[CL8] open serves until it is stopped, and knows plans by where they lie", () => {
  const running: ChildProcess[] = [];
  afterAll(() => {
    for (const child of running) child.kill("SIGKILL");
  });

  function open(...words: string[]) {
    const child = spawn(COMMAND[0], [COMMAND[1], "open", "--no-browser", ...words], {
      env: { ...process.env, TAPEMARK_DATA: at("data") },
    });
    running.push(child);
    let said = "";
    child.stderr.on("data", (chunk) => {
      said += chunk;
    });
    const ended = new Promise<number | null>((resolve) => child.on("exit", (code) => resolve(code)));
    const url = new Promise<string>((resolve) => {
      child.stdout.on("data", (chunk) => {
        const match = /http:\S+/.exec(String(chunk));
        if (match) resolve(match[0]);
      });
    });
    return { child, ended, url, said: () => said };
  }

  it("two files of one name are two works; Ctrl-C ends it with 0", async () => {
    const keys = [];
    for (const name of ["a", "b"]) {
      fs.mkdirSync(at(name), { recursive: true });
      fs.copyFileSync("examples/manual-start.json", join(at(name), "My Plan.json"));
      const server = open(join(at(name), "My Plan.json"), "--port", "0");
      const opened = (await (await fetch(`${await server.url}api/open`)).json()) as { key: string };
      keys.push(opened.key);
      server.child.kill("SIGINT");
      expect(await server.ended).toBe(0);
      expect(server.said()).toBe("");
    }
    expect(keys[0]).toMatch(/^my-plan-[0-9a-f]{8}$/);
    expect(keys[1]).not.toBe(keys[0]);
  });

  it("a port that was asked for and is busy: 3 with the cure", async () => {
    const first = open("--port", "0");
    const port = new URL(await first.url).port;
    const second = open("--port", port);
    expect(await second.ended).toBe(3);
    expect(second.said()).toMatch(new RegExp(`port ${port} is busy; name another with --port`));
    first.child.kill("SIGTERM");
    expect(await first.ended).toBe(0);
  });

  it("a wrong plan is not opened: 1", async () => {
    fs.writeFileSync(at("wrong.json"), "{}");
    const server = open(at("wrong.json"), "--port", "0");
    expect(await server.ended).toBe(1);
    expect(server.said()).toMatch(/^format: /m);
  });
});

import { describe, expect, it } from "vitest";
import { Devices, deviceName, MOST_DEVICES, type Stream } from "./devices.ts";

function devices() {
  const time = { elapsed_ms: 0 };
  let changes = 0;
  const made = new Devices({
    now: () => new Date(0),
    elapsed_ms: () => time.elapsed_ms,
    onChange: () => changes++,
  });
  const pair = (name: string) => {
    const token = made.pair(name);
    const device = made.find(token);
    if (device === null) throw new Error("it was paired and is not there");
    return { token, device };
  };
  return { made, time, pair, changes: () => changes };
}

function stream() {
  const ends: string[] = [];
  return { ends, end: (why: string) => ends.push(why) } satisfies Stream & { ends: string[] };
}

describe("[SR9] tokens", () => {
  it("256 bits each, found by themselves only, and nowhere in what is held", () => {
    const { made, pair } = devices();
    const { token, device } = pair("phone");
    expect(Buffer.from(token, "base64url")).toHaveLength(32);
    expect(pair("phone").token).not.toBe(token);
    expect(made.find(`${token}x`)).toBeNull();
    expect(made.find("")).toBeNull();
    expect(JSON.stringify(made.list())).not.toContain(token);
    expect(device).toMatchObject({ name: "phone", pairedAt: "1970-01-01T00:00:00.000Z" });
  });
});

describe("[SR11] off the list", () => {
  it("ends its pages and its token, and no other's", () => {
    const { made, pair, changes } = devices();
    const [a, b] = [pair("a"), pair("b")];
    const [ofA, ofB] = [stream(), stream()];
    made.looks(a.device, ofA);
    made.looks(b.device, ofB);
    expect(made.isAnyLooking).toBe(true);
    const before = changes();
    made.revoke(a.device.id, "off the list");
    expect([ofA.ends, ofB.ends]).toEqual([["off the list"], []]);
    expect(made.find(a.token)).toBeNull();
    expect(made.list().map(({ name }) => name)).toEqual(["b"]);
    expect(changes()).toBe(before + 1);
    const late = stream();
    made.looks(a.device, late);
    expect(late.ends).toHaveLength(1);
    expect(made.mayWrite(a.device)).toBe(false);
  });
});

describe("[SR13] limits of devices", () => {
  it("so many devices", () => {
    const { made } = devices();
    for (let i = 0; i < MOST_DEVICES; i++) made.pair(String(i));
    expect(made.isFull).toBe(true);
  });
  it("of too many pages of one device the oldest gives way", () => {
    const { made, pair } = devices();
    const { device } = pair("a");
    const pages = [stream(), stream(), stream(), stream()];
    for (const page of pages) made.looks(device, page);
    expect(pages.map(({ ends }) => ends.length)).toEqual([1, 0, 0, 0]);
  });
  it("thirty writes at once, then one a second", () => {
    const { made, pair, time } = devices();
    const { device } = pair("a");
    const count = () => Array.from({ length: 100 }, () => made.mayWrite(device)).filter(Boolean).length;
    expect(count()).toBe(30);
    time.elapsed_ms += 3000;
    expect(count()).toBe(3);
  });
});

it.each([
  ["Mira's phone", "Mira's phone"],
  ["  two\r\nlines\t", "two lines"],
  ["a\u202Egnp.exe", "a gnp.exe"],
  ["\u0000\u001b[31mred", "[31mred"],
  ["z\u0335\u0336\u0337\u0338\u0335\u0336", "z\u0335\u0336"],
  ["\u2028\u200b", "a device"],
  ["😀".repeat(99), "😀".repeat(40)],
])("[SR10] %j is shown as %j", (given, shown) => expect(deviceName(given)).toBe(shown));

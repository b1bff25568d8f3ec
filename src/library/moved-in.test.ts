import fs from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { gearBookText } from "../workbench/index.ts";
import { createGearShelf } from "./gear-shelf.ts";
import { moveIn } from "./moved-in.ts";
import { freshLibrary, newFolder, plainAround } from "./testing/fresh-library.ts";
import { savedWork } from "./testing/saved-work.ts";
import { createWorks } from "./works.ts";

const LIGHTS = { "key | octa 120 | 400 Ws": { stops: 0.6, uncertaintyStops: 0.1, measuredOn: "2026-10-03" } };

function oldFolder(): string {
  const folder = newFolder();
  fs.mkdirSync(join(folder, "works"));
  const put = (name: string, text: string) => fs.writeFileSync(join(folder, name), text);
  put(
    "works/cellist-1a2b3c4d.json",
    JSON.stringify({ ...savedWork("cellist", 7), savedAt: "2026-10-03T09:30:00.000Z" }),
  );
  put("works/plan-1.json", '{"plan":{"title":"half of i');
  put(
    "works/plan-2.json",
    '{"plan":{},"history":null,"revision":"many","savedAt":"2026-10-03T09:30:00.000Z"}',
  );
  put("works/.plan-3.tmp", "what a killed one left");
  put("works/notes.txt", "somebody else's");
  put("gear.json", gearBookText({ bodies: {}, lights: LIGHTS }));
  return folder;
}

const filesOf = (folder: string) =>
  (fs.readdirSync(folder, { recursive: true, encoding: "utf8" }) as string[])
    .filter((name) => fs.statSync(join(folder, name)).isFile())
    .map((name) => [name, fs.readFileSync(join(folder, name), "utf8")]);

it("[LB16] works and gear of earlier versions come in once, with their revisions; damaged ones are told by name; files stay", async () => {
  const folder = oldFolder();
  const before = filesOf(folder);
  const library = freshLibrary();
  const works = createWorks(library, plainAround());
  const alongside: string[] = [];
  const around = { ...plainAround(), alongside: ({ key }: { key: string }) => void alongside.push(key) };
  expect(moveIn(library, folder, around)).toEqual(
    ["plan-1", "plan-2"].map((name) =>
      expect.stringContaining(`${join(folder, "works", `${name}.json`)} is damaged and was left where it is`),
    ),
  );
  expect(await works.list()).toEqual([
    {
      key: "cellist-1a2b3c4d",
      title: savedWork("cellist", 7).plan.title,
      savedAt: "2026-10-03T09:30:00.000Z",
    },
  ]);
  expect(await works.load("cellist-1a2b3c4d")).toEqual(savedWork("cellist", 7));
  expect(alongside).toEqual(["cellist-1a2b3c4d"]);
  expect(library.db.prepare("SELECT date FROM shoots").all()).toEqual([{ date: "2026-10-03" }]);
  expect((await createGearShelf(library, plainAround()).load()).lights).toEqual(LIGHTS);
  expect(filesOf(folder)).toEqual(before);
  // what is changed since is not taken back by the files
  await works.save("cellist-1a2b3c4d", savedWork("cellist", 8));
  expect(moveIn(library, folder, plainAround())).toEqual([]);
  expect(await works.load("cellist-1a2b3c4d")).toEqual(savedWork("cellist", 8));
});

it("[LB16] a gear book that is damaged is told by name; a folder of nothing is nothing", () => {
  const folder = newFolder();
  expect(moveIn(freshLibrary(), folder, plainAround())).toEqual([]);
  fs.writeFileSync(join(folder, "gear.json"), '{"format":');
  expect(moveIn(freshLibrary(), folder, plainAround())).toEqual([
    expect.stringContaining(`${join(folder, "gear.json")} is damaged and was left where it is`),
  ]);
});

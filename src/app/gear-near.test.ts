import { describe, expect, test } from "vitest";
import { STARTER_SHELF, withoutPiece } from "../gear/index.ts";
import { browserShelf } from "./gear-near.ts";

class Places implements Pick<Storage, "getItem" | "setItem"> {
  readonly kept = new Map<string, string>();
  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }
  setItem(key: string, text: string): void {
    this.kept.set(key, text);
  }
}

const storeIn = (places: Places) => browserShelf(() => places as unknown as Storage);

describe("[AP144] a shelf in this browser", () => {
  test("begins with typical things, and what is kept is found again", async () => {
    const places = new Places();
    const store = storeIn(places);
    expect(await store.load()).toEqual({ shelf: STARTER_SHELF, isStarter: true });
    const less = withoutPiece(STARTER_SHELF, "heads", 0);
    await store.save(less, undefined);
    expect(await storeIn(places).load()).toEqual({ shelf: less, isStarter: false });
  });

  test("two windows change different things, and both stand", async () => {
    const places = new Places();
    const [one, other] = [storeIn(places), storeIn(places)];
    const first = withoutPiece(STARTER_SHELF, "heads", 0);
    await one.save(first, undefined);
    await other.load();
    await one.save(withoutPiece(first, "stands", 0), undefined);
    const { shelf } = await other.save(withoutPiece(first, "bodies", 0), undefined);
    expect(shelf).toEqual(withoutPiece(withoutPiece(first, "stands", 0), "bodies", 0));
  });

  test("a browser that keeps nothing says so with its cure", async () => {
    const store = browserShelf(() => {
      throw new Error("closed");
    });
    expect((await store.load()).shelf).toEqual(STARTER_SHELF);
    await expect(store.save(STARTER_SHELF, undefined)).rejects.toThrow(/refuses to keep it.*tapemark open/);
  });
});

describe("[AP145] one that cannot be read", () => {
  test.each(["{", '{"format":"tapemark/shelf","version":9}', "null"])(
    "%s is put aside and told",
    async (text) => {
      const places = new Places();
      places.setItem("tapemark.shelf", text);
      const store = storeIn(places);
      const found = await store.load();
      expect(found).toMatchObject({ shelf: STARTER_SHELF, isStarter: true });
      expect(found.notice).toMatch(/could not be read.*tapemark\.shelf\.unread/);
      await store.save(withoutPiece(STARTER_SHELF, "heads", 0), undefined);
      expect(places.getItem("tapemark.shelf.unread")).toBe(text);
      expect((await storeIn(places).load()).notice).toBe(undefined);
    },
  );
});

/** A failure that people can do something about: what happened, and the cure. */
export class WorkError extends Error {
  constructor(
    readonly problem: string,
    readonly cure: string,
  ) {
    super(`${problem}; ${cure}`);
    this.name = "WorkError";
  }
}

/** Somebody else saved the same work in between: nothing was overwritten. */
export class SaveConflict extends WorkError {
  constructor(key: string) {
    super(
      `"${key}" was changed in another window since it was read here`,
      "keep this window's plan or take the other one",
    );
    this.name = "SaveConflict";
  }
}

/** Whoever keeps works elsewhere does not answer: nothing is wrong, it is tried again. */
export class StoreAway extends WorkError {
  constructor() {
    super("the server that keeps plans does not answer", "start it again with `tapemark open`");
    this.name = "StoreAway";
  }
}

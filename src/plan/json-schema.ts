/** The published JSON Schema, from the same source as the types and checks. Kept out of the room's index: only the
 * script that writes the file needs it. */
import { z } from "zod";
import { FORMAT, plan as planSchema, VERSION } from "./schema.ts";

/** What JSON Schema cannot say is checked by the program and written here for readers. */
const BEYOND =
  "Beyond this schema: no two entries of one list share a name; no light is called ambient; positions lie inside " +
  "the room, its surfaces included; a direction's at is not the position itself; the exponent of a front with a " +
  "size is 1 to 60; a photometric file that a light names is in the plan or beside it, is whole, takes no exponent " +
  "beside it, and sends light where the front and the output need it; a panel's reflectance and transmittance come " +
  "to 1 at most; nobody and no backdrop is higher than the room; a reading has a position or names a meter of the " +
  "plan, not both, and is of all lights or of one that is there, and where there are readings no light is called " +
  "all; the backdrop's sweepRadius is no larger than its top; the brief's person is one of people, each of its " +
  "ranges goes from the smaller to the larger number, a spread is asked of two people or more, two of its lights, " +
  "panels or a light's fronts do not share a name, and a stand's lowest is no higher than its highest.";

export function planJsonSchema(): object {
  const schema = z.toJSONSchema(planSchema, {
    // what people write: what has a default may be left out
    io: "input",
    override: ({ jsonSchema }) => {
      const { properties, required } = jsonSchema;
      if (!properties || !required) return;
      // filled in from the rest of the plan, before the check
      const needed = required.filter((field) => !isFilledIn(properties[field]));
      if (needed.length > 0) jsonSchema.required = needed;
      else delete jsonSchema.required;
      for (const property of Object.values(properties)) {
        if (isFilledIn(property)) delete (property as Record<string, unknown>).filledIn;
      }
    },
  });
  const { $schema, ...rest } = schema;
  return { $schema, title: `${FORMAT} ${VERSION}`, description: BEYOND, ...rest };
}

function isFilledIn(property: unknown): boolean {
  return typeof property === "object" && property !== null && "filledIn" in property;
}

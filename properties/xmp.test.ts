/** Sidecars that others wrote, in any of the forms that RDF has: what they say of anything else is the same afterwards. */
import { DOMParser, type Element } from "@xmldom/xmldom";
import fc from "fast-check";
import { expect, it } from "vitest";
import { mergeXmp } from "../src/shoots/xmp.ts";
import { amount } from "./amount.ts";

const RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
const XMP = "http://ns.adobe.com/xap/1.0/";
const OWN = "urn:x-tapemark:xmp:1/";

const SPACES = [
  { prefix: "dc", uri: "http://purl.org/dc/elements/1.1/" },
  { prefix: "xmp", uri: XMP },
  { prefix: "q", uri: "urn:q:" },
  { prefix: "tapemark", uri: "urn:something-else:" },
];
const escaped = (text: string) => text.replace(/[&<>"\r\n\t]/g, (char) => `&#${char.codePointAt(0)};`);
const text = fc.oneof(
  fc.stringMatching(/^[ -~äöü漢]{0,12}$/),
  fc.constantFrom(
    "a & b",
    "<i>",
    '"',
    "two\nlines",
    "tab\there",
    "return\rhere",
    "line\u2028next\u0085one",
    "]]>",
    "  spaces  ",
    "𝄞 clef",
  ),
);
const name = fc
  .stringMatching(/^[A-Z][a-z]{0,5}$/)
  .filter((word) => !["Rating", "Label", "Select", "Stars"].includes(word));
const space = fc.constantFrom(...SPACES);

interface Written {
  readonly attribute: string;
  readonly element: string;
}
/** One property, as an attribute or as an element. */
const property: fc.Arbitrary<Written> = fc
  .tuple(
    space,
    name,
    text,
    fc.constantFrom("attribute", "element", "bag", "structure", "language", "empty", "cdata"),
  )
  .map(([{ prefix }, word, value, form]) => {
    const tag = `${prefix}:${word}`;
    const own = escaped(value);
    switch (form) {
      case "attribute":
        return { attribute: ` ${tag}="${own}"`, element: "" };
      case "bag":
        return {
          attribute: "",
          element: `<${tag}><rdf:Bag><rdf:li>${own}</rdf:li><rdf:li/></rdf:Bag></${tag}>`,
        };
      case "structure":
        return {
          attribute: "",
          element: `<${tag} rdf:parseType="Resource"><xmp:Rating>1</xmp:Rating><q:a>${own}</q:a></${tag}>`,
        };
      case "language":
        return {
          attribute: "",
          element: `<${tag}><rdf:Alt><rdf:li xml:lang="x-default">${own}</rdf:li></rdf:Alt></${tag}>`,
        };
      case "empty":
        return { attribute: "", element: `<${tag}/>` };
      case "cdata":
        return {
          attribute: "",
          element: `<${tag}><![CDATA[${value.replaceAll("]]>", "").replaceAll("\r", "")}]]></${tag}>`,
        };
      default:
        return { attribute: "", element: `<${tag}>${own}</${tag}>` };
    }
  });
const rating: fc.Arbitrary<Written> = fc.constantFrom(
  { attribute: "", element: "" },
  { attribute: ' xmp:Rating="2"', element: "" },
  { attribute: ' xmp:Label="Red"', element: "" },
  { attribute: "", element: "<xmp:Rating>-1</xmp:Rating>\n" },
  { attribute: "", element: "<xmp:Label>Select</xmp:Label>" },
  {
    attribute: "",
    element: '<xmp:Rating rdf:parseType="Resource"><rdf:value>4</rdf:value><q:by>me</q:by></xmp:Rating>',
  },
);
const sidecar = fc
  .tuple(
    fc.array(
      fc.uniqueArray(property, {
        maxLength: 5,
        selector: ({ attribute, element }) => attribute.split("=")[0] || element,
      }),
      {
        minLength: 1,
        maxLength: 3,
      },
    ),
    rating,
    fc.boolean(),
    fc.boolean(),
  )
  .map(([descriptions, rated, isWrapped, isPadded]) => {
    const bound = SPACES.map(({ prefix, uri }) => ` xmlns:${prefix}="${uri}"`).join("");
    const inner = descriptions
      .map((list, i) => [...list, ...(i === descriptions.length - 1 ? [rated] : [])])
      .map(
        (list) =>
          `\n  <rdf:Description rdf:about=""${bound}${list.map(({ attribute }) => attribute).join("")}>\n${list
            .map(({ element }) => element)
            .join("\n    ")}</rdf:Description>`,
      );
    const rdf = `<rdf:RDF xmlns:rdf="${RDF}">${inner.join("")}\n</rdf:RDF>`;
    const outer = isWrapped ? `<x:xmpmeta xmlns:x="adobe:ns:meta/">${rdf}</x:xmpmeta>` : rdf;
    return isPadded
      ? `<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>\n${outer}\n${" \n".repeat(20)}<?xpacket end="w"?>`
      : outer;
  });

/** All that is said, without ratings, labels and what is written of our own. */
function saidBy(xml: string): string[] {
  const document = new DOMParser().parseFromString(xml, "text/xml");
  const out: string[] = [];
  const isOthers = (uri: string | null, local: string | null) =>
    uri !== OWN && !(uri === XMP && (local === "Rating" || local === "Label"));
  const walk = (element: Element, path: string, isTop: boolean) => {
    for (const { localName, namespaceURI, value } of [...element.attributes]) {
      if (namespaceURI === "http://www.w3.org/2000/xmlns/" || (isTop && !isOthers(namespaceURI, localName)))
        continue;
      out.push(`${path}@${namespaceURI} ${localName}=${value}`);
    }
    const children = [...element.childNodes].filter(
      (node) => node.nodeType === node.ELEMENT_NODE,
    ) as Element[];
    if (children.length === 0 && !isTop) out.push(`${path}=${element.textContent}`);
    children.forEach((child) => {
      if (!isTop || isOthers(child.namespaceURI, child.localName))
        walk(child, `${path}/${child.namespaceURI} ${child.localName}`, false);
    });
  };
  const descriptions = [...document.getElementsByTagNameNS(RDF, "RDF")].flatMap(
    (rdf) => [...rdf.childNodes].filter((node) => node.nodeType === node.ELEMENT_NODE) as Element[],
  );
  for (const description of descriptions) walk(description, "", true);
  return out;
}

it("[SO23] all other properties say the same before and after, seed 84", () => {
  const pick = fc.record({ stars: fc.integer({ min: 0, max: 5 }), isSelect: fc.boolean() });
  let changed = 0;
  fc.assert(
    fc.property(sidecar, pick, (before, given) => {
      const after = mergeXmp(before, given);
      if (after !== before) changed++;
      expect(saidBy(after)).toEqual(saidBy(before));
      // said once, it is said
      expect(mergeXmp(after, given)).toBe(after);
      // and taken back as if it had never been, but for the number
      expect(saidBy(mergeXmp(after, { stars: 0, isSelect: false }))).toEqual(saidBy(before));
    }),
    { seed: 84, numRuns: amount(600) },
  );
  expect(changed).toBeGreaterThan(amount(600) / 2);
});

it("[SO22] whatever a sidecar is cut or changed to, it is merged or refused in words, seed 85", () => {
  const cut = fc.tuple(sidecar, fc.nat(), fc.stringMatching(/^[<>&"=/a-z ]{0,4}$/), fc.nat(5));
  fc.assert(
    fc.property(cut, ([whole, at, put, less]) => {
      const place = at % (whole.length + 1);
      const broken = whole.slice(0, place) + put + whole.slice(place + less);
      try {
        mergeXmp(broken, { stars: 3, isSelect: true });
      } catch (error) {
        expect((error as Error).name).toBe("XmpError");
      }
    }),
    { seed: 85, numRuns: amount(2000) },
  );
});

import exifr from "exifr";
import { describe, expect, it } from "vitest";
import { mergeXmp } from "./xmp.ts";

const RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
const XMP = "http://ns.adobe.com/xap/1.0/";
const NONE = { stars: 0, isSelect: false };

/** As a program of others reads a sidecar: a parser that shares nothing with what wrote it. */
async function readByOthers(text: string): Promise<unknown> {
  const read = await exifr.sidecar(new TextEncoder().encode(text), { xmp: true, mergeOutput: false }, "xmp");
  return (read as { readonly xmp?: unknown } | undefined)?.xmp;
}

/** The forms in which the standard lets one packet be written (ISO 16684-1:2019, 7.4, 7.5, 7.8, 7.9.2). */
const element = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="${RDF}">
 <rdf:Description rdf:about="" xmlns:xmp="${XMP}" xmlns:dc="http://purl.org/dc/elements/1.1/">
  <xmp:Rating>3</xmp:Rating>
  <dc:subject><rdf:Bag><rdf:li>cello</rdf:li><rdf:li>season poster</rdf:li></rdf:Bag></dc:subject>
 </rdf:Description></rdf:RDF></x:xmpmeta>`;
const attribute = `<rdf:RDF xmlns:rdf="${RDF}"><rdf:Description rdf:about="" xmlns:xap="${XMP}" xap:Rating="3" xap:Label="Winner"/></rdf:RDF>`;
const qualified = `<rdf:RDF xmlns:rdf="${RDF}" xmlns:xmp="${XMP}" xmlns:q="urn:q:"><rdf:Description rdf:about="">
 <xmp:Rating rdf:parseType="Resource"><rdf:value>3</rdf:value><q:by>editor</q:by></xmp:Rating></rdf:Description></rdf:RDF>`;
const described = `<rdf:RDF xmlns:rdf="${RDF}" xmlns:xmp="${XMP}" xmlns:q="urn:q:"><rdf:Description rdf:about="">
 <xmp:Rating><rdf:Description rdf:value="3" q:by="editor"/></xmp:Rating></rdf:Description></rdf:RDF>`;
const apart = `<rdf:RDF xmlns:rdf="${RDF}"><rdf:Description rdf:about="" xmlns:tiff="http://ns.adobe.com/tiff/1.0/" tiff:Make="Own"/>
<rdf:Description rdf:about="" xmlns:xmp="${XMP}"><xmp:Rating>3</xmp:Rating></rdf:Description></rdf:RDF>`;

describe("[SO20] stars and selects are told as the standard has them", () => {
  it("a new sidecar is read by others: rating and label", async () => {
    expect(await readByOthers(mergeXmp(null, { stars: 4, isSelect: true }))).toMatchObject({
      Rating: 4,
      Label: "Select",
    });
    expect(await readByOthers(mergeXmp(null, { stars: 1, isSelect: false }))).not.toHaveProperty("Label");
  });

  it("where there is nothing to tell nothing is written", () => {
    expect(mergeXmp(null, NONE)).toBe("");
    expect(mergeXmp(element, NONE)).toBe(element);
  });

  it.each(Object.entries({ element, attribute, qualified, described, apart }))(
    "the rating is changed where it stands, in the form that it has: %s",
    (_, text) => {
      const merged = mergeXmp(text, { stars: 5, isSelect: false });
      expect(merged.match(/(?:xmp|xap):Rating/g)?.length).toBe(text.match(/(?:xmp|xap):Rating/g)?.length);
      // nothing but the number, and what was written here
      const undone = merged
        .replace(/ xmlns:tapemark="[^"]*" tapemark:Stars="5"/, "")
        .replace(/(Rating[^>]*>(?:<rdf:value>)?|Rating="|rdf:value=")5/, "$13");
      expect(undone).toBe(text);
    },
  );

  it("a merged one is read by others, what they wrote and what came", async () => {
    const read = await readByOthers(mergeXmp(element, { stars: 2, isSelect: true }));
    expect(read).toMatchObject({ Rating: 2, Label: "Select" });
    expect(mergeXmp(element, { stars: 2, isSelect: true })).toContain("<rdf:li>season poster</rdf:li>");
  });
});

describe("[SO21] what somebody else gave stays", () => {
  it("a label of theirs", () => {
    expect(mergeXmp(attribute, { stars: 0, isSelect: true })).toBe(attribute);
    expect(mergeXmp(attribute, { stars: 0, isSelect: false })).toBe(attribute);
    const theirs = attribute.replace("Winner", "Select");
    expect(mergeXmp(theirs, NONE)).toBe(theirs);
  });

  it("a rating of theirs, where none is given here", () => {
    expect(mergeXmp(attribute, NONE)).toBe(attribute);
    const rejected = attribute.replace('Rating="3"', 'Rating="-1"');
    expect(mergeXmp(rejected, NONE)).toBe(rejected);
  });

  it("a rating that they changed since, as long as it is not changed here too", () => {
    const ours = mergeXmp(null, { stars: 3, isSelect: false });
    const theirs = ours.replace("<xmp:Rating>3<", "<xmp:Rating>5<");
    expect(mergeXmp(theirs, { stars: 3, isSelect: false })).toBe(theirs);
    expect(mergeXmp(theirs, { stars: 4, isSelect: false })).toContain("<xmp:Rating>4<");
  });

  it("what was given here is taken back here", () => {
    const ours = mergeXmp(element, { stars: 4, isSelect: true });
    const none = mergeXmp(ours, NONE);
    expect(none).toContain("<xmp:Rating>0<");
    expect(none).not.toContain("Label");
    expect(none).not.toContain("tapemark:Select");
    expect(mergeXmp(none, NONE)).toBe(none);
  });

  it("the wrapper with its padding, comments and lines of its own", () => {
    const wrapped = `<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>\n<!-- kept -->\n${element}\n${" ".repeat(200)}\n<?xpacket end="w"?>`;
    const merged = mergeXmp(wrapped, { stars: 1, isSelect: false });
    expect(merged.startsWith('<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>')).toBe(true);
    expect(merged).toContain("<!-- kept -->");
    expect(merged.endsWith(`${" ".repeat(200)}\n<?xpacket end="w"?>`)).toBe(true);
  });

  it("a prefix that means something else there", async () => {
    const other = `<rdf:RDF xmlns:rdf="${RDF}"><rdf:Description rdf:about="" xmlns:xmp="urn:other:" xmp:Rating="high"/></rdf:RDF>`;
    const merged = mergeXmp(other, { stars: 2, isSelect: false });
    expect(merged).toContain('xmp:Rating="high"');
    expect(merged).toContain(`xmlns:xmp2="${XMP}" xmp2:Rating="2"`);
  });

  it("a structure within that has a rating of its own is not the photograph's", () => {
    const inner = element.replace(
      "</rdf:Description>",
      '<q:from xmlns:q="urn:q:" rdf:parseType="Resource"><xmp:Rating>1</xmp:Rating></q:from></rdf:Description>',
    );
    expect(mergeXmp(inner, { stars: 4, isSelect: false })).toContain('"Resource"><xmp:Rating>1<');
  });
});

describe("[SO22] what is damaged or no XMP is refused", () => {
  it.each([
    ["cut off", element.slice(0, -30)],
    ["tags that cross", element.replace("</rdf:Bag>", "")],
    ["text after the end", `${element}<more/>`],
    ["nothing at all", ""],
    ["another document", "<html><body/></html>"],
    ["a prefix that nobody bound", element.replace('xmlns:dc="http://purl.org/dc/elements/1.1/"', "")],
    ["a bare ampersand", element.replace("season", "season & autumn")],
    ["an attribute twice", attribute.replace('xap:Label="Winner"', 'xap:Rating="4"')],
    ["a document type", `<!DOCTYPE rdf [<!ENTITY a "b">]>${element}`],
  ])("%s", (_, text) => {
    expect(() => mergeXmp(text, { stars: 2, isSelect: false })).toThrow(/damaged|no XMP|document type/);
  });
});

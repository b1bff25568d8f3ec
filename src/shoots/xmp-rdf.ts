/** Simple properties of an XMP packet in every form in which RDF may write them: as an attribute, as an element, as an
 * element with qualifiers.
 * Source  ISO 16684-1:2019, 7.5 simple values, 7.8 qualifiers, 7.9 equivalent forms of RDF */
import type { Attr, Document, Element, Node } from "@xmldom/xmldom";

export const NS = {
  rdf: "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
  xmp: "http://ns.adobe.com/xap/1.0/",
  /** only a name; nothing is fetched from there */
  own: "urn:x-tapemark:xmp:1/",
  xmlns: "http://www.w3.org/2000/xmlns/",
} as const;

export type Property = Attr | Element;

/** Every place in which a property is told; more than one is against the standard, and then all of them are one. */
export function propertiesOf(
  descriptions: readonly Element[],
  namespace: string,
  localName: string,
): Property[] {
  return descriptions.flatMap((description): Property[] => {
    const attribute = description.getAttributeNodeNS(namespace, localName);
    const elements = elementsIn(description).filter(
      (element) => element.namespaceURI === namespace && element.localName === localName,
    );
    return [...(attribute === null ? [] : [attribute]), ...elements];
  });
}

export function textOf(property: Property): string {
  if (isAttribute(property)) return property.value;
  const inner = valueIn(property);
  return inner === null ? (property.textContent ?? "").trim() : textOf(inner);
}

/** Qualifiers, a language among them, stay. */
export function writeValue(property: Property, value: string): void {
  if (isAttribute(property)) {
    property.ownerElement?.setAttributeNS(property.namespaceURI, property.name, value);
    return;
  }
  const inner = valueIn(property);
  if (inner === null) property.textContent = value;
  else writeValue(inner, value);
}

/** With the white space before it, so that no empty line stays. */
export function removeProperty(property: Property): void {
  if (isAttribute(property)) {
    property.ownerElement?.removeAttributeNode(property);
    return;
  }
  const { parentNode, previousSibling } = property;
  if (previousSibling !== null && previousSibling.nodeType === property.TEXT_NODE) {
    if ((previousSibling.nodeValue ?? "").trim() === "") parentNode?.removeChild(previousSibling);
  }
  parentNode?.removeChild(property);
}

/** As an attribute, the short form of a simple value, under whatever prefix the namespace has there. */
export function addProperty(
  document: Document,
  description: Element,
  namespace: string,
  prefix: string,
  localName: string,
  value: string,
): void {
  const known = prefixAt(description, namespace);
  const own = known ?? freePrefix(description, prefix);
  if (known === null) description.setAttributeNS(NS.xmlns, `xmlns:${own}`, namespace);
  const attribute = document.createAttributeNS(namespace, `${own}:${localName}`);
  attribute.value = value;
  description.setAttributeNodeNS(attribute);
}

/** rdf:value of a property with qualifiers, in whichever form; null where the value stands for itself. */
function valueIn(property: Element): Property | null {
  const attribute = property.getAttributeNodeNS(NS.rdf, "value");
  if (attribute !== null) return attribute;
  for (const element of elementsIn(property)) {
    if (element.namespaceURI !== NS.rdf) continue;
    if (element.localName === "value") return element;
    if (element.localName === "Description") return valueIn(element);
  }
  return null;
}

function elementsIn(node: Element): Element[] {
  return [...node.childNodes].filter((child): child is Element => child.nodeType === child.ELEMENT_NODE);
}

function isAttribute(property: Property): property is Attr {
  return property.nodeType === property.ATTRIBUTE_NODE;
}

/** A prefix that is bound to the namespace there and to no other one nearer. An attribute needs one. */
function prefixAt(element: Element, namespace: string): string | null {
  const seen = new Set<string>();
  for (let at: Node | null = element; at !== null && at.nodeType === at.ELEMENT_NODE; at = at.parentNode) {
    for (const { localName, name, namespaceURI, value } of [...(at as Element).attributes]) {
      if (namespaceURI !== NS.xmlns || name === "xmlns" || localName === null || seen.has(localName))
        continue;
      if (value === namespace) return localName;
      seen.add(localName);
    }
  }
  return null;
}

function freePrefix(element: Element, wanted: string): string {
  let own = wanted;
  for (let n = 2; element.lookupNamespaceURI(own); n++) own = `${wanted}${n}`;
  return own;
}

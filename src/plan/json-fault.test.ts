import { expect, it } from "vitest";
import { findFault } from "./json-fault.ts";

it.each<[string, number, number, RegExp]>([
  ['{\n  "a": 1,\n}', 3, 1, /a comma stands before the }; take the comma out/],
  ["[1, 2,\n ]", 2, 2, /a comma stands before the \]/],
  ['{ "a": 1\n  "b": 2 }', 2, 3, /a comma is missing before "/],
  ["[1 2]", 1, 4, /a comma is missing before 2/],
  ['{ "a" 1 }', 1, 7, /a colon is missing after "a"/],
  ["{ 'a': 1 }", 1, 3, /straight double ones/],
  ['{ "a": “x” }', 1, 8, /straight double ones/],
  ["{ a: 1 }", 1, 3, /a must stand in quotes: "a"/],
  ['{ "a": standing }', 1, 8, /standing must stand in quotes/],
  ['{ "a": 1, // key\n "b": 2 }', 1, 11, /comments are not allowed/],
  ['{ "a": 1 /* key */ }', 1, 10, /comments are not allowed/],
  ["# plan", 1, 1, /comments are not allowed/],
  ['{ "a": NaN }', 1, 8, /NaN is not a number/],
  ['{ "a": -Infinity }', 1, 8, /a minus sign without a number/],
  ['{ "a": True }', 1, 8, /in small letters, not True/],
  ['{ "a": 1,5 }', 1, 10, /a decimal comma must be a point/],
  ['{ "a": .5 }', 1, 8, /0\.5, not \.5/],
  ['{ "a": 5. }', 1, 9, /digits are missing after the decimal point/],
  ['{ "a": 05 }', 1, 9, /must not begin with a 0/],
  ['{ "a": 85mm }', 1, 10, /take the unit off/],
  ['{ "a": , "b": 1 }', 1, 8, /a value is missing before this comma/],
  ['{ "a": }', 1, 8, /a value is missing before }/],
  ['{ "a": "x\n }', 1, 8, /these quotes are not closed/],
  ['{ "a": "x', 1, 8, /these quotes are not closed/],
  ['{ "a": "x\ty" }', 1, 10, /control character or tab/],
  ['{ "a": "C:\\plans" }', 1, 11, /a backslash inside quotes must be doubled/],
  ['{ "a": [1, 2 }', 1, 14, /a } stands where the \[ in line 1 wants its \]/],
  ['{\n "a": {', 2, 8, /the text ends too early: the { in line 2 is not closed/],
  ['{ "a"', 1, 6, /the text ends too early/],
  ["{} {}", 1, 4, /more after the end of the plan/],
  ['{ "a":\u00a01 }', 1, 7, /invisible character \(U\+00A0\)/],
])("[PL8] %j: line %i, column %i", (text, line, column, cause) => {
  expect(() => JSON.parse(text)).toThrow();
  const fault = findFault(text);
  expect(fault).toMatchObject({ line, column });
  expect(fault?.cause).toMatch(cause);
});

it("[PL8] no fault is found in what is JSON", () => {
  const fine = '{ "a": [1, -0.5e+3, "x\\u00e9\\n", true, false, null, {}, []],\r\n\t"": {"b": 0} }';
  expect(JSON.parse(fine)).toBeTruthy();
  expect(findFault(fine)).toBeNull();
});

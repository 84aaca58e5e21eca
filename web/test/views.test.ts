import { join, relative } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";

// Every text that a maker reads stands in src/words. A text is found in two ways: by its place (where an element's words
// go), whatever it looks like; elsewhere by its look. What the types say is one of a few fixed words is none.

/** Functions that show a string, and which of their arguments they show. All further arguments of `h` and `svg`. */
const shown_arguments: Record<string, (i: number) => boolean> = {
  h: (i) => i >= 2,
  svg: (i) => i >= 2,
  button: (i) => i === 0,
  field: (i) => i !== 1,
  slider: (i) => i === 0,
  number: (i) => i === 1 || i === 7,
  say: (i) => i === 0,
  Error: (i) => i === 0,
  Stopped: (i) => i === 0,
  OutOfReach: (i) => i === 0,
  prompt: (i) => i === 0,
  confirm: (i) => i === 0,
  alert: (i) => i === 0,
  fillText: (i) => i === 0,
  createTextNode: (i) => i === 0,
};
const shown_names = new Set([
  "aria-label",
  "aria-valuetext",
  "alt",
  "title",
  "placeholder",
  "textContent",
  "innerText",
  "innerHTML",
  "label",
  "words",
]);

/** Attributes, properties and arguments that a browser or the server reads, not a maker. */
const technical_names = new Set([
  "class",
  "className",
  "style",
  "href",
  "src",
  "download",
  "d",
  "viewBox",
  "role",
  "inputmode",
  "autocomplete",
  "for",
  "id",
  "list",
  "preserveAspectRatio",
  "transform",
  "fill",
  "stroke",
  "points",
  "accept",
  "autocapitalize",
  "data-key",
  "rel",
  "aria-labelledby",
  "aria-describedby",
  "aria-live",
  "font",
  "labelFont",
  "type",
  "key",
  "cursor",
]);
const technical_calls = new Set([
  "querySelector",
  "querySelectorAll",
  "closest",
  "matches",
  "getPropertyValue",
  "get",
  "getBytes",
  "post",
  "remove",
  "addEventListener",
  "dispatchEvent",
  "setAttribute",
  "getAttribute",
  "startsWith",
  "endsWith",
  "replaceAll",
  "replace",
  "split",
  "includes",
  "join",
]);

/** The few texts that stand elsewhere, each with its reason. */
const allowed = new Map([
  ['the server names no limit "{}"', "a fault of this page, for whoever mends it"],
  ["the limits of heat are not known yet", "a fault of this page, for whoever mends it"],
  ["{} in", "the sign of a unit"],
  [" {} in", "the sign of a unit"],
  ["input, select, textarea", "a selector that has a name"],
]);

interface Found {
  at: string;
  text: string;
}

const nameOf = (name: ts.Node | undefined): string =>
  name && (ts.isIdentifier(name) || ts.isStringLiteralLike(name)) ? name.text : "";

/** What a call is called: `say(...)`, `document.querySelector(...)`, `new Error(...)`. */
function calleeOf(node: ts.CallExpression | ts.NewExpression): string {
  const callee = node.expression;
  return ts.isPropertyAccessExpression(callee) ? callee.name.text : nameOf(callee);
}

type Place = "shown" | "technical" | "open";

/** What becomes of a string in the node above it; null when that is told further up. */
function placeIn(below: ts.Node, at: ts.Node): Place | null {
  if (ts.isTypeNode(at) || ts.isImportDeclaration(at) || ts.isExportDeclaration(at)) return "technical";
  if (ts.isElementAccessExpression(at) && at.argumentExpression === below) return "technical";
  if (ts.isCaseClause(at) && at.expression === below) return "technical";
  if (ts.isConditionalExpression(at) && at.condition === below) return "technical";
  if (ts.isPropertyAssignment(at)) {
    if (at.name === below) return "technical";
    const name = nameOf(at.name);
    return shown_names.has(name) ? "shown" : technical_names.has(name) ? "technical" : null;
  }
  if (ts.isBinaryExpression(at)) {
    const sign = at.operatorToken.kind;
    if (sign === ts.SyntaxKind.InKeyword) return "technical";
    if (sign >= ts.SyntaxKind.EqualsEqualsToken && sign <= ts.SyntaxKind.ExclamationEqualsEqualsToken)
      return "technical";
    if (sign !== ts.SyntaxKind.EqualsToken || !ts.isPropertyAccessExpression(at.left)) return null;
    const name = at.left.name.text;
    return shown_names.has(name) ? "shown" : technical_names.has(name) ? "technical" : null;
  }
  if (ts.isCallExpression(at) || ts.isNewExpression(at)) {
    const i = (at.arguments ?? []).findIndex((one) => one === below);
    if (i < 0) return null;
    const name = calleeOf(at);
    if (shown_arguments[name]?.(i) && !ts.isObjectLiteralExpression(below)) return "shown";
    return technical_calls.has(name) || (name in shown_arguments && !ts.isObjectLiteralExpression(below))
      ? "technical"
      : "open";
  }
  return ts.isFunctionLike(at) || ts.isStatement(at) ? "open" : null;
}

function placeOf(node: ts.Node): Place {
  for (let [below, at] = [node, node.parent]; at; [below, at] = [at, at.parent]) {
    const place = placeIn(below, at);
    if (place) return place;
  }
  return "open";
}

/** A string literal's text; of a template, with {} for what is put in. */
function textOf(node: ts.Node): string {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return "";
  return [node.head.text, ...node.templateSpans.map((one) => one.literal.text)].join("{}");
}

/** Two words in a row, a word between blanks and what is put in, or a capital and small letters. */
const readsAsWords = (text: string): boolean =>
  /\p{L}{2,}[,;:.]? +\p{L}{2,}/u.test(text) ||
  /^\s*\p{Lu}\p{Ll}{2,}/u.test(text) ||
  /\} \p{L}{2,}( |$)|^\p{L}{3,}:? \{/u.test(text);

const isFixed = (type: ts.Type | undefined): boolean =>
  type !== undefined && (type.isStringLiteral() || (type.isUnion() && type.types.some((one) => one.isStringLiteral())));

/** The texts of a source that a maker would read. */
function textsOf(source: ts.SourceFile, types: ts.TypeChecker): Found[] {
  const found: Found[] = [];
  const look = (node: ts.Node): void => {
    node.forEachChild(look);
    const text = textOf(node);
    if (!/\p{L}/u.test(text.replaceAll("{}", "")) || allowed.has(text)) return;
    const place = placeOf(node);
    if (place === "technical" || isFixed(types.getContextualType(node as ts.Expression))) return;
    if (place === "open" && !readsAsWords(text)) return;
    found.push({
      at: `${relative(root, source.fileName)}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`,
      text,
    });
  };
  look(source);
  return found;
}

const root = join(import.meta.dirname, "../src");
const options: ts.CompilerOptions = {
  strict: true,
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  skipLibCheck: true,
  types: [],
};

/** Texts of a view that does not stand in a file. */
function textsIn(view: string): string[] {
  const name = join(root, "yard/sample.ts");
  const host = ts.createCompilerHost(options);
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (file, version) =>
    file === name ? ts.createSourceFile(file, view, version, true) : read(file, version);
  const sample = ts.createProgram([name], options, host);
  return textsOf(sample.getSourceFile(name)!, sample.getTypeChecker()).map((one) => one.text);
}

describe("texts of the page", () => {
  test("stand in the words folder", () => {
    const program = ts.createProgram([join(root, "main.ts")], options);
    const views = program
      .getSourceFiles()
      .filter((one) => !one.isDeclarationFile && one.fileName.startsWith(root))
      .filter((one) => !relative(root, one.fileName).startsWith("words/"));
    expect(views.length).toBeGreaterThan(50);
    const found = views.flatMap((one) => textsOf(one, program.getTypeChecker()));
    expect(found.map((one) => `${one.at}: ${one.text}`)).toEqual([]);
  }, 60000);

  test("are found in a view, by their place and by their look", () => {
    const view = `
      import { button, h } from "../ui/dom";
      import { say } from "../ui/say";
      const heat: "very hot" | "cool" = "very hot";
      const late = (n: number): string => (n > 1 ? \`\${n} days\` : "not today");
      document.title = "yard";
      say(late(2) || "none");
      document.body.append(
        button("go", () => document.querySelector("main p a"), "big accent"),
        h("p", { class: "why not", "aria-label": "seen", href: "#/yard" }, heat === "cool" ? "cool" : \`x \${late(1)}\`),
      );`;
    expect(textsIn(view).sort()).toEqual(["cool", "go", "none", "not today", "seen", "x {}", "yard", "{} days"].sort());
  }, 60000);
});

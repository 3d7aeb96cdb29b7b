// A reader of Markdown from outside: takes a list of texts as JSON from standard input, and gives for
// each what markdown-it (CommonMark, with GFM's tables) makes of it. HTML and links are let through
// as far as they ever could be, so that what shouldn't be one is seen.
//
//     node render.mjs FOLDER      the folder holds node_modules
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

const require = createRequire(process.argv[2] + "/");
const MarkdownIt = require("markdown-it");
const reader = new MarkdownIt({ html: true, linkify: true });
// GFM links what begins with a scheme and addresses with an @, as is done here; and what begins with
// www., which is looked for in what was not escaped.
reader.linkify.set({ fuzzyLink: false, fuzzyEmail: true, fuzzyIP: false });
reader.linkify.tlds("example", true);
reader.core.ruler.disable("text_join");

const plain = new Set(["text", "text_special", "softbreak", "strong_open", "strong_close"]);
const live = (token) => !plain.has(token.type) || /www\./i.test(token.type === "text" ? token.content : "");

function text(inline) {
  return inline.children.map((token) => (token.type === "softbreak" ? "\n" : token.content)).join("");
}

function read(markdown) {
  const tokens = reader.parse(markdown, {});
  const out = { html: reader.render(markdown), live: [], headings: [], tables: [], texts: [] };
  const open = [];
  for (const token of tokens) {
    if (token.type === "html_block" || token.type === "code_block" || token.type === "fence")
      out.live.push(token.type + ": " + token.content);
    if (token.nesting === 1) open.push(token.type);
    if (token.nesting === -1) open.pop();
    if (token.type === "table_open") out.tables.push([]);
    if (token.type === "tr_open") out.tables.at(-1).push([]);
    if (token.type !== "inline") continue;
    for (const child of token.children)
      if (live(child)) out.live.push(child.type + ": " + child.content);
    const where = open.at(-1);
    if (where === "heading_open") out.headings.push(text(token));
    else if (where === "th_open" || where === "td_open") out.tables.at(-1).at(-1).push(text(token));
    else out.texts.push(text(token));
  }
  return out;
}

process.stdout.write(JSON.stringify(JSON.parse(readFileSync(0, "utf8")).map(read)));

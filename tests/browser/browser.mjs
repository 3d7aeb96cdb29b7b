// What the tests of pages share: a real Chromium, pages made by the command, and what came of them.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const modules = process.env.LEVIGATE_NODE ?? join(root, "build", "release", "browser");
if (!existsSync(join(modules, "node_modules", "playwright-core"))) {
  console.error(`The browser tests need what tests/browser/package.json names, in ${modules}.\n` +
                "tests/run installs it: copy package.json and package-lock.json there, `npm ci`.");
  process.exit(1);
}
const require = createRequire(join(modules, "from-here.js"));
const { chromium } = require("playwright-core");
const axe_source = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const levigate = process.env.LEVIGATE_BINARY ?? join(root, "build", "release", "levigate");
const browser_path = process.env.LEVIGATE_CHROMIUM ?? "/usr/bin/chromium";
const folder = mkdtempSync(join(tmpdir(), "levigate-browser-"));

/// Standard output of the command; its findings are no matter here.
export const run = (...words) =>
  execFileSync(levigate, words, { encoding: "utf8", cwd: root, maxBuffer: 1 << 26,
                                  stdio: ["ignore", "pipe", "ignore"] });

/// The bench page of these words as a file, and its address.
export const card = (name, ...words) => {
  const path = join(folder, `${name}.html`);
  writeFileSync(path, run("card", ...words));
  return pathToFileURL(path).href;
};

export const edition = (name, ...words) => {
  const path = join(folder, `${name}.html`);
  writeFileSync(path, run("share", ...words, "--as", "html"));
  return pathToFileURL(path).href;
};

/// A file beside the pages, and its path.
export const written = (name, text) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

let browser;
export const start = async () => {
  browser = await chromium.launch({
    executablePath: browser_path,
    args: process.getuid?.() === 0 ? ["--no-sandbox"] : [],  // Chromium asks for it of root
  });
};
export const stop = async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
};

/// Opens a page, hands it to `act`, and returns what it said and asked for on the way.
export const visit = async (address, options, act) => {
  const { before, ...context_options } = options;
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 },
                                             ...context_options });
  const noise = [];
  context.on("console", message => noise.push(`console: ${message.text()}`));
  context.on("weberror", error => noise.push(`error: ${error.error()}`));
  context.on("dialog", dialog => { noise.push("a dialog"); return dialog.dismiss(); });
  context.on("request", request => {
    if (request.url().split("#")[0] !== address) noise.push(`request: ${request.url()}`);
  });
  try {
    if (before) await context.addInitScript(before);
    const page = await context.newPage();
    await page.goto(address);
    await act(page);
  } finally {
    await context.close();
  }
  return noise;
};

/// What axe-core has to say, in words: nothing where all is well. What it can't decide counts too.
export const axe = async page => {
  await page.evaluate(axe_source);
  const results = await page.evaluate(() => window.axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  }));
  if (results.passes.length < 10) throw new Error("axe-core looked at next to nothing");
  return [...results.violations, ...results.incomplete].map(
    one => `${one.id}: ${one.help}: ${one.nodes.map(node => node.html).slice(0, 3).join(" ")}`);
};

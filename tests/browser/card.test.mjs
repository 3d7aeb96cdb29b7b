// The bench page in a real browser.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe, card, edition, run, start, stop, visit, written } from "./browser.mjs";

const bench = "tests/browser/bench.shade", orchard = "examples/orchard.shade";
const boxes = page => page.locator("input[type=checkbox]");
const ticked = page => boxes(page).evaluateAll(all => all.filter(one => one.checked)
                                                         .map(one => one.id));
const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

before(start);
after(stop);

test("opens without a word on the console, and asks for nothing", async () => {
  for (const file of [bench, orchard]) {
    const noise = await visit(card("all", file, "--all"), {}, async page => {
      await boxes(page).first().check();
      await page.locator("#never-tared").check();
      await page.locator(".start-over").first().click();
    });
    assert.deepEqual(noise, []);
  }
});

test("its policy lets no other script, style, picture or request through", async () => {
  await visit(card("policy", bench), {}, async page => {
    const came = await page.evaluate(async () => {
      const refused = [];
      addEventListener("securitypolicyviolation", event => refused.push(event.effectiveDirective));
      const add = (tag, set) =>
        document.body.append(Object.assign(document.createElement(tag), set));
      add("script", { textContent: "window.got_in = true" });
      add("style", { textContent: "body { display: none }" });
      add("img", { src: "data:image/gif;base64,R0lGODlhAQABAAAAACw=" });
      document.body.setAttribute("onclick", "window.got_in = true");
      document.body.click();
      const fetched = await fetch("https://levigate.invalid/").then(() => "got out", () => "no");
      await new Promise(done => setTimeout(done, 100));
      return { got_in: window.got_in === true, fetched, refused: [...new Set(refused)].sort(),
               display: getComputedStyle(document.body).display };
    });
    assert.equal(came.got_in, false);
    assert.equal(came.fetched, "no");
    assert.equal(came.display, "block");
    assert.deepEqual(came.refused, ["connect-src", "img-src", "script-src-attr",
                                    "script-src-elem", "style-src-elem"]);
  });
});

test("ticks survive a reload, and a page that says something else has none", async () => {
  const page_of = (name, ...more) => card(name, bench, "--shade", "Quince", ...more);
  await visit(page_of("kept"), {}, async page => {
    await boxes(page).nth(1).check();
    await boxes(page).nth(4).check();
    await page.locator("#never-tared").check();
    const was = await ticked(page);
    assert.equal(was.length, 2);
    await page.reload();
    assert.deepEqual(await ticked(page), was);
    assert.equal(await page.locator("#never-tared").isChecked(), true);
    await page.goto(page_of("other", "--batch", "trial"));
    assert.deepEqual(await ticked(page), []);
    await page.goto(page_of("again"));  // the same words again, under another file name
    assert.deepEqual(await ticked(page), was);
  });
});

test("start over clears one card, and gives the ticks back on a second press", async () => {
  await visit(card("over", bench), {}, async page => {
    const cards = page.locator(".card");
    assert.equal(await cards.count(), 2);
    await boxes(cards.nth(0)).nth(0).check();
    await boxes(cards.nth(0)).nth(2).check();
    await boxes(cards.nth(1)).nth(0).check();
    const was = await ticked(page);
    const button = cards.nth(0).locator(".start-over");
    await button.click();
    assert.deepEqual(await ticked(page), [was[2]]);
    await page.reload();
    assert.deepEqual(await ticked(page), [was[2]]);
    await boxes(cards.nth(0)).nth(0).check();
    await button.click();
    await button.click();
    assert.deepEqual(await ticked(page), [was[0], was[2]]);
    assert.equal(await button.textContent(), "Start over");
  });
});

test("where the browser keeps nothing it works all the same", async () => {
  const without = () => Object.defineProperty(window, "localStorage", {
    get() { throw new DOMException("no", "SecurityError"); },
  });
  const noise = await visit(card("unkept", bench), { before: without }, async page => {
    await boxes(page).first().check();
    assert.equal((await ticked(page)).length, 1);
    assert.match(await page.locator(".count").first().textContent(), /^1 of \d+ ticked$/);
  });
  assert.deepEqual(noise, []);
});

test("without JavaScript it reads, ticks and changes its readings", async () => {
  const address = card("plain", bench, "--shade", "Quince");
  await visit(address, { javaScriptEnabled: false }, async page => {
    await boxes(page).first().check();
    assert.equal(await boxes(page).first().isChecked(), true);
    assert.equal(await page.locator(".start-over").isVisible(), false);
    const reading = page.locator(".shows").first();
    assert.equal(await reading.isVisible(), false);
    await page.locator("#never-tared").check();
    assert.equal(await reading.isVisible(), true);
    const full = page.locator("td.in-2").first();
    assert.equal(await full.isVisible(), true);
    await page.locator(".pick-1").check();
    assert.equal(await full.isVisible(), false);
  });
});

test("a batch that is looked at alone has its own steps, on paper too", async () => {
  // 18 % and 81.5 % of 6 g, and of 48 tubes of 4.2 g with 5 % more, 211.68 g.
  const words = (mica, base) =>
    `Work Windfall mica ${mica} g into soft base ${base} g until no streak is left.`;
  await visit(card("alone", bench, "--shade", "Quince"), {}, async page => {
    const step = page.locator(".bowl").nth(1).locator("li").first();
    const order = page.locator(".bowl").nth(1).locator(".order");
    const cases = [[".pick-1", words("1.08", "4.89")], [".pick-2", words("38.10", "172.52")],
                   [".all input", words("1.08 | 38.10", "4.89 | 172.52")]];
    for (const [choice, due] of cases) {
      await page.emulateMedia({ media: "screen" });
      await page.locator(choice).check();
      for (const media of ["screen", "print"]) {
        await page.emulateMedia({ media });
        assert.equal(await step.innerText(), due);
        assert.equal(await order.isVisible(), choice === ".all input");
      }
    }
  });
});

test("it counts, and shows the next line of a batch that was begun", async () => {
  await visit(card("count", bench, "--shade", "Quince"), {}, async page => {
    const trial = page.locator("td.in-1 input");
    assert.equal(await trial.count(), 6);  // three lines in each of two bowls
    assert.equal(await page.locator(".next").count(), 0);
    await trial.nth(1).check();
    assert.deepEqual(await page.locator(".count").allTextContents(),
                     ["1 of 6 ticked", "0 of 6 ticked"]);
    const next = page.locator(".next input");
    assert.equal(await next.getAttribute("id"), await trial.nth(2).getAttribute("id"));
    for (let i = 0; i < 6; ++i) await trial.nth(i).check();
    assert.equal(await page.locator(".count").first().textContent(), "all 6 ticked");
    assert.equal(await page.locator("[role=status]").textContent(), "all 6 ticked");
    assert.equal(await page.locator(".next").count(), 0);
  });
});

test("a screen reader hears what a box is for", async () => {
  await visit(card("names", bench, "--shade", "Quince"), {}, async page => {
    const box = name => page.getByRole("checkbox", { name, exact: true });
    // 6 g × 18 % × 8 / 12, and 211.68 g of it; the third reading of bowl 1 is all of the blend
    assert.equal(await box("copper mica, trial: 0.72 g").count(), 1);
    assert.equal(await box("copper mica, full: 25.40 g").count(), 1);
    await page.locator("#never-tared").check();
    assert.equal(await box("red iron oxide, trial: add 0.09 g 1.08 g").count(), 1);
    assert.equal(await page.getByRole("columnheader", { name: "trial, 6.00 g" }).count(), 1);
    assert.equal(await page.getByRole("rowheader", { name: "soft base 81.50 %" }).count(), 1);
  });
});

test("the keyboard alone ticks every line, and shows where it is", async () => {
  await visit(card("keys", bench), {}, async page => {
    const count = await boxes(page).count();
    const reached = new Set();
    for (let press = 0; press < count + 40 && reached.size < count; ++press) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => {
        const one = document.activeElement, style = getComputedStyle(one);
        return { id: one.id, box: one.type === "checkbox", outline: style.outlineStyle,
                 width: parseFloat(style.outlineWidth) };
      });
      assert.equal(here.outline, "solid");
      assert.ok(here.width >= 2);
      if (!here.box || reached.has(here.id)) continue;
      reached.add(here.id);
      await page.keyboard.press("Space");
    }
    assert.equal((await ticked(page)).length, count);
  });
});

test("axe-core finds nothing, contrast included", async () => {
  const address = card("axe", bench, "--shade", "Quince", "--finish", "matte");
  for (const [colorScheme, options, taring] of [
    ["light", {}, "#tared"], ["dark", {}, "#never-tared"],
    ["light", phone, "#never-tared"], ["dark", phone, "#tared"]])
    await visit(address, { ...options, colorScheme }, async page => {
      for (let i = 0; i < 5; ++i) await boxes(page).nth(i).check();
      await page.locator(taring).check();
      assert.deepEqual(await axe(page), [], `${colorScheme}, ${taring}`);
    });
});

test("a phone shows all of it, large enough for an arm's length, and not sideways", async () => {
  for (const width of [320, 390]) {
    const options = { ...phone, viewport: { width, height: 844 } };
    await visit(card("phone", bench, "--all"), options, async page => {
      for (const tared of ["#tared", "#never-tared"]) {
        await page.locator(tared).check();
        const seen = await page.evaluate(() => {
          const small = [], sides = [];
          const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          for (let node; (node = walk.nextNode());) {
            const element = node.parentElement;
            if (!node.data.trim() || element.closest("script, .hidden")) continue;
            const range = document.createRange();
            range.selectNodeContents(node);
            const box = range.getBoundingClientRect();
            if (box.width === 0) continue;
            if (parseFloat(getComputedStyle(element).fontSize) < 18) small.push(node.data);
            if (box.right > innerWidth || box.left < 0) sides.push(node.data);
          }
          const numbers = [...document.querySelectorAll("label b")]
            .filter(one => one.closest("td") && one.checkVisibility())
            .map(one => parseFloat(getComputedStyle(one).fontSize));
          return { small, sides, largest: Math.max(...numbers),
                   wide: document.documentElement.scrollWidth - innerWidth };
        });
        assert.deepEqual(seen.small, []);
        assert.deepEqual(seen.sides, []);
        assert.ok(seen.largest >= 32);
        assert.equal(seen.wide, 0);
      }
    });
  }
});

test("long names and large numbers stay on the page", async () => {
  await visit(card("wide", "tests/browser/wide.shade"), {}, async page => {
    assert.equal(await page.locator(".card").count(), 2);  // three batches, and one
    for (const taring of ["#tared", "#never-tared"]) {
      await page.locator(taring).check();
      for (const width of [320, 768, 820, 1280]) {
        await page.setViewportSize({ width, height: 900 });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.equal(wide, 0, `${width}, ${taring}`);
      }
    }
  });
});

test("each card prints on one sheet, A4 and Letter", async () => {
  for (const [name, words] of [["bench", [bench, "--all"]], ["orchard", [orchard, "--all"]],
                               ["wide", ["tests/browser/wide.shade"]]]) {
    await visit(card(`print-${name}`, ...words), {}, async page => {
      const cards = await page.locator(".card").count();
      for (const format of ["A4", "Letter"]) {
        const pdf = (await page.pdf({ format })).toString("latin1");
        assert.equal(pdf.match(/\/Type\s*\/Page\b/g)?.length, cards, `${name}, ${format}`);
      }
      await page.emulateMedia({ media: "print" });
      assert.equal(await page.locator(".top").isVisible(), false);
      assert.equal(await page.locator(".shows").first().isVisible(), true);
    });
  }
});

test("HTML in a name stays text", async () => {
  await visit(card("hostile-plan", bench, "--plan"), {}, async page => {
    assert.equal(await page.locator("[onmouseover], main b b, main i, main script").count(), 0);
    assert.ok(await page.getByText("lot <i onmouseover=alert(1)>B</i>").count() > 0);
  });
  await visit(card("hostile", bench, "--all"), {}, async page => {
    assert.equal(await page.locator("[onmouseover], main b b, main script").count(), 0);
    assert.ok(await page.getByText("<b onmouseover=alert(1)>rose & 'lily'</b>").count() > 0);
    assert.ok(await page.getByText("</script><script>alert(2)</script> stays words.").count() > 0);
    const markup = await page.locator("main *").evaluateAll(
      all => [...new Set(all.flatMap(one => one.getAttributeNames()))].filter(
        name => name.startsWith("on") || name === "style" || name === "src"));
    assert.deepEqual(markup, []);
  });
});

test("its numbers are those of weigh", async () => {
  const cents = text => Math.round(Number(text) * 100);  // both files weigh in 0.01 g
  for (const file of [bench, orchard]) {
    const sheets = JSON.parse(run("weigh", file, "--all", "--as", "json")).sheets;
    await visit(card("numbers", file, "--all"), {}, async page => {
      const shown = await page.evaluate(() => {
        const texts = (within, query) =>
          [...within.querySelectorAll(query)].map(one => one.textContent);
        return [...document.querySelectorAll(".card:has(.weighing)")].flatMap(one => {
          const columns = one.querySelectorAll(".weighing:first-of-type")[0]
            .querySelectorAll("thead th").length - 1;
          return Array.from({ length: columns }, (_, at) => ({
            title: one.querySelector("h2").textContent,
            total: texts(one, ".batches b")[at],
            bowls: [...one.querySelectorAll(".bowl")].map(bowl => ({
              names: texts(bowl, "tbody bdi"),
              grams: texts(bowl, `tbody .in-${at + 1} .add b`),
              readings: texts(bowl, `tbody .in-${at + 1} .shows b`),
              foot: texts(bowl, `tfoot .in-${at + 1} b`)[0],
            })),
          }));
        });
      });
      assert.ok(sheets.length > 10);
      const due = sheets.map(sheet => ({
        title: [sheet.shade, sheet.variant, sheet.finish].filter(Boolean).join(" · "),
        bowls: sheet.bowls.map(bowl => {
          let reading = 0;
          return {
            names: bowl.lines.map(line => line.name),
            grams: bowl.lines.map(line => line.grams),
            readings: bowl.lines.map(line => ((reading += cents(line.grams)) / 100).toFixed(2)),
            foot: bowl.grams,
          };
        }),
      }));
      assert.deepEqual(shown.map(({ title, bowls }) => ({ title, bowls })), due);
      shown.forEach(({ total }, i) => {
        const [over, under = "1"] = sheets[i].total.exact.split("/");
        const exact = Number(over) / Number(under);
        assert.ok(Math.abs(parseFloat(total) - exact) <= 0.005 + 1e-9, `${total} for ${exact}`);
      });
    });
  }
});

// The colours are those of the project's table: sienna and firebrick, measured for D50.
test("a measured colour is shown, and a private one only to oneself", async () => {
  const fills = page => page.locator("svg rect").evaluateAll(
    all => [...new Set(all.map(one => getComputedStyle(one).fill))]);
  const words = ["--shade", "Quince"];
  await visit(card("mine", bench, ...words), {}, async page => {
    assert.deepEqual(await fills(page), ["rgb(178, 34, 34)", "rgb(160, 82, 45)"]);
    assert.ok(await page.getByText("Meadow & Sons").count() > 0);
    assert.ok(await page.getByLabel("measured: Lab 44.27").count() > 0);
  });
  await visit(card("like", bench, "--shade", "Damson"), {}, async page => {  // measured on Quince
    assert.deepEqual(await fills(page), ["rgb(160, 82, 45)"]);
  });
  await visit(edition("theirs", bench, ...words), {}, async page => {
    assert.deepEqual(await fills(page), ["rgb(160, 82, 45)"]);
    assert.ok(!(await page.content()).includes("Meadow"));
    assert.ok(await page.getByText("Note: Fill warm.").count() > 0);
  });
});

const law = "The law where you make, give or sell this goes before this page: read the current " +
            "rules on colourants and labels, and the safety sheet of each material.";

// Of what is to be weighed of it later, too: `card` of the edition says the same.
test("an edition names itself, and the law that goes before it", async () => {
  const named = ["--title", "Two reds", "--edition", "3", "--date", "2026-10-01"];
  const pages = [edition("named", bench, ...named),
                 card("of-edition", written("named.shade", run("share", bench, ...named)))];
  for (const address of pages)
    await visit(address, phone, async page => {
      assert.equal(await page.locator("h1").textContent(), "Bench page: Two reds");
      assert.equal(await page.title(), "Two reds: bench page");
      assert.ok(await page.locator("header.top").getByText("Edition 3, 2026-10-01.").isVisible());
      assert.ok(await page.locator("footer").getByText(law).isVisible());
      assert.deepEqual(await axe(page), []);
    });
  await visit(card("own", bench), {}, async page => {
    assert.equal(await page.getByText(law).count(), 0);
  });
});

const texts = (within, query) => within.locator(query).allTextContents();

test("a plan's page has what it needs, the shared bowls once, then a card a batch", async () => {
  await visit(card("plan", bench, "--plan", "autumn launch"), {}, async page => {
    assert.deepEqual(await texts(page, "h2"), ["Autumn launch", "Blends for all batches",
                                               "Quince · satin", "Damson · matte"]);
    // 48 × 4.2 g, 5 % more; 24 × 4.2 g; both together
    assert.deepEqual(await texts(page, ".batches b"), ["312.48 g", "211.68 g", "100.80 g"]);
    assert.equal(await page.locator("nav a").count(), 4);
    assert.deepEqual(await texts(page, "h3:has(.number)"),
                     ["Bowl 1: Windfall mica", "Bowl 2: Quince", "Bowl 3: Damson"]);
    // 18 % of 211.68 g is 38.1024 g. Damson's bulk is 77 parts of base in 100, and the matte adds 77
    // of clay and 19.25 of thinner, so that 21 parts of 196.25 are mica: 10.786 g of 100.8 g.
    // Of 48.89 g two thirds, a quarter and a twelfth are rounded up: 32.60 + 12.23 + 4.08 g.
    assert.ok(await page.getByText("Portions: 38.10 g for Quince · satin · full and 10.79 g for " +
                                   "Damson · matte · 24 slim tubes; 0.02 g are left over.")
                        .isVisible());
    assert.equal(await page.getByText("· from bowl 1").count(), 2);
  });
});

test("a plan's page has the numbers of plan, and the lots at their bowls", async () => {
  for (const file of [bench, orchard]) {
    const [plan] = JSON.parse(run("plan", file, "--as", "json")).plans;
    await visit(card("plan-numbers", file, "--plan"), {}, async page => {
      const bowls = await page.locator(".bowl:has(.weighing)").all();
      assert.equal(bowls.length, plan.bowls.length);
      for (const [i, bowl] of bowls.entries()) {
        const due = plan.bowls[i];
        assert.deepEqual(await texts(bowl, "tbody bdi"), due.lines.map(line => line.name));
        assert.deepEqual(await texts(bowl, ".add b"), due.lines.map(line => line.grams));
        assert.equal((await texts(bowl, "tfoot b"))[0], due.grams);
        const lots = plan.supplies.flatMap(one => one.unit === "g" ? one.lots : [])
          .filter(lot => lot.into === i && lot.lot).map(lot => lot.lot);
        const said = (await texts(bowl, ".lots")).join(" ");
        for (const lot of lots) assert.ok(said.includes(`lot ${lot}`), `${lot} in ${said}`);
      }
      const needs = await page.locator(".needs li").all();
      assert.equal(needs.length, plan.supplies.length);
      for (const [i, need] of needs.entries()) {
        const due = plan.supplies[i], said = await need.textContent();
        assert.ok(said.includes(due.name));
        assert.equal(said.includes("short"), due.short !== "0", said);
      }
    });
  }
});

test("a plan's page ticks, counts, prints a card a sheet, and fits a phone", async () => {
  const address = card("plan-look", orchard, "--plan");
  const noise = await visit(address, {}, async page => {
    await boxes(page).first().check();
    assert.match(await page.locator(".count").first().textContent(), /^1 of \d+ ticked$/);
    for (const format of ["A4", "Letter"]) {
      const pdf = (await page.pdf({ format })).toString("latin1");
      assert.equal(pdf.match(/\/Type\s*\/Page\b/g)?.length, 4, format);
    }
  });
  assert.deepEqual(noise, []);
  for (const [colorScheme, options] of [["light", {}], ["dark", phone], ["light", phone]])
    await visit(address, { ...options, colorScheme }, async page => {
      for (let i = 0; i < 12; ++i) await boxes(page).nth(i).check();
      assert.deepEqual(await axe(page), [], colorScheme);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.equal(wide, 0);
      const small = await page.evaluate(() => [...document.querySelectorAll("main *")]
        .filter(one => one.checkVisibility() && one.textContent.trim() &&
                       !one.closest(".hidden") && parseFloat(getComputedStyle(one).fontSize) < 18)
        .map(one => one.textContent));
      assert.deepEqual(small, []);
    });
});

test("ways to weigh a small line stand at its bowl alone, and dilutions have a card", async () => {
  const address = card("small", "tests/browser/small.shade");
  await visit(address, phone, async page => {
    const looks = await page.locator(".looks").innerText();
    assert.match(looks, /0\.02 g of red lake is less than bench weighs well/);
    assert.match(looks, /What to do stands at its bowl\./);
    assert.doesNotMatch(looks, /and take/);
    assert.match(await page.locator(".bowl").nth(0).locator(".ways").innerText(),
                 /red lake: make 10\.00 g or more/);  // 0.2 g of a ninth of 18 %: 6 × 0.2 ÷ 0.12
    const last = page.locator(".card").last();
    assert.equal(await last.locator("h2").innerText(), "Dilutions to prepare");
    assert.match(await last.innerText(), /dilute red lake to \d+ % in /);
    assert.equal(await last.locator("input").count(), 0);
    assert.deepEqual(await axe(page), []);
  });
});

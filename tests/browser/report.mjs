// The season report in a real browser: it loads with no error and no request, its pictures are drawn, what
// people typed stays text, it stands without scripts, on paper and on a phone, and axe-core finds nothing
// serious.
//   node report.mjs CHROMIUM PAGE.html [FOLDER FOR SCREENSHOTS]
// PAGE.html must hold a note with the text of NOTE.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const NOTE = "</script><script>window.ran=1</script><img src=x onerror=window.ran=1> & <b>bold</b>";
const [executablePath, page_file, pictures] = process.argv.slice(2);
const url = pathToFileURL(page_file).href;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf-8");

let wrong = 0, checks = 0;
function check(what, holds, more) {
  ++checks;
  if (holds) return;
  ++wrong;
  console.log(`WRONG: ${what}${more === undefined ? "" : `: ${JSON.stringify(more)}`}`);
}

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });

// A page with the report, and what the browser complained of and asked for.
async function open(options) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const complaints = [], requests = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => { if (request.url() !== url) requests.push(request.url()); });
  await page.goto(url, { waitUntil: "load" });
  return { context, page, complaints, requests };
}
async function shot(page, name, fullPage = true) {
  if (pictures) await page.screenshot({ path: `${pictures}/${name}.png`, fullPage });
}
// Tables that are wider than what holds them.
function cut_tables() {
  const room = document.documentElement.clientWidth;
  return [...document.querySelectorAll("table")]
    .filter((one) => one.getBoundingClientRect().right > room + 1)
    .map((one) => one.caption.textContent);
}

for (const colorScheme of ["light", "dark"]) {
  const { context, page, complaints, requests } = await open({ colorScheme, viewport: { width: 1100, height: 800 } });
  check(`${colorScheme}: nothing to complain of`, complaints.length === 0, complaints);
  check(`${colorScheme}: no request`, requests.length === 0, requests);
  // What is behind a click is looked at too.
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
  // Pictures are drawn as they come near: not all at once, and all of them on the way down.
  const at_once = await page.evaluate(async () => {
    const canvases = document.querySelectorAll("figure canvas").length;
    for (const figure of document.querySelectorAll("figure")) {
      figure.scrollIntoView();
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    }
    scrollTo(0, 0);
    return canvases;
  });
  const drawn = await page.evaluate(() => {
    const data = JSON.parse(document.getElementById("pictures").textContent);
    // A canvas on which something was painted.
    const painted = (canvas) => {
      const pixels = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data;
      for (let i = 3; i < pixels.length; i += 4) if (pixels[i] > 0) return true;
      return false;
    };
    return {
      plots: data.plots.length,
      bars: data.bars.length,
      painted: data.plots.filter((one) =>
        [...document.querySelectorAll(`[id="${one.id}"] canvas`)].some(painted)).length,
      bars_drawn: data.bars.filter((one) =>
        document.querySelectorAll(`[id="${one.id}"] .live rect.bar`).length === one.bars.length).length,
      bands: document.querySelectorAll("#flow .band").length,
      bands_drawn: [...document.querySelectorAll("#flow .band")]
        .filter((one) => one.getBBox().width > 0).length,
    };
  });
  check(`${colorScheme}: there are pictures`, drawn.plots > 0 && drawn.bars > 0 && drawn.bands > 0, drawn);
  check(`${colorScheme}: drawn as they come near`, at_once < 2 * drawn.plots, at_once);
  check(`${colorScheme}: temperatures drawn`, drawn.painted === drawn.plots, drawn);
  check(`${colorScheme}: bars drawn`, drawn.bars_drawn === drawn.bars, drawn);
  check(`${colorScheme}: flows drawn`, drawn.bands_drawn === drawn.bands, drawn);
  const text = await page.evaluate(() => ({
    ran: window.ran,
    images: document.images.length,
    notes: [...document.querySelectorAll("table.of-notes td")].map((one) => one.textContent),
  }));
  const bent = await page.evaluate(() => [...document.querySelectorAll("table")]
    .filter((one) => getComputedStyle(one).display !== "table").map((one) => one.className));
  check(`${colorScheme}: every table is laid out as one`, bent.length === 0, bent);
  check(`${colorScheme}: a note with markup is text`,
    text.ran === undefined && text.images === 0 && text.notes.includes(NOTE), text);
  // axe-core is put in by the debugger, which the page's policy does not bind.
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run({ resultTypes: ["violations"] }));
  const serious = found.violations.filter((one) => ["serious", "critical"].includes(one.impact))
    .map((one) => `${one.id} (${one.nodes.length}): ${one.nodes[0].html.slice(0, 160)} ${one.nodes[0].failureSummary}`);
  check(`${colorScheme}: axe-core finds nothing serious`, serious.length === 0, serious);
  check(`${colorScheme}: axe-core looked`, found.passes.length > 10, found.passes.length);
  await shot(page, colorScheme);

  // It answers to the hand: nearer shows less time.
  const zoomed = await page.evaluate(async () => {
    const figure = document.querySelector("figure[id*=plot]");
    const labels = () => [...figure.querySelectorAll(".dygraph-axis-label-x")].map((one) => one.textContent).join();
    const before = labels();
    figure.querySelector("button").click();
    await new Promise((done) => setTimeout(done, 100));
    return [before, labels()];
  });
  check(`${colorScheme}: nearer`, zoomed[0] !== zoomed[1], zoomed);
  await context.close();
}

{
  const { context, page, complaints } = await open({ viewport: { width: 375, height: 740 }, isMobile: true });
  check("phone: nothing to complain of", complaints.length === 0, complaints);
  const across = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  check("phone: no sideways scrolling", across[0] <= across[1], across);
  await shot(page, "phone");
  await context.close();
}

{
  const { context, page, complaints } = await open({ javaScriptEnabled: false, viewport: { width: 900, height: 800 } });
  check("without scripts: nothing to complain of", complaints.length === 0, complaints);
  const pictures_seen = await page.locator("svg:visible").count();
  const captions = await page.locator("figcaption:visible").count();
  check("without scripts: every picture stands there", pictures_seen > 0 && pictures_seen === captions,
    [pictures_seen, captions]);
  const titles = await page.locator("h2:visible").allTextContents();
  check("without scripts: every section", titles.length >= 5, titles);
  await shot(page, "no-scripts");
  await context.close();
}

{
  // A4 less the page's margins of 14 mm, at 96 dots an inch.
  const { context, page } = await open({ viewport: { width: Math.floor((210 - 28) / 25.4 * 96), height: 1000 } });
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
  await page.emulateMedia({ media: "print" });
  const cut = await page.evaluate(cut_tables);
  check("paper: no table is cut", cut.length === 0, cut);
  const still = await page.evaluate(() => [...document.querySelectorAll("figure")].every((one) =>
    one.querySelector(".still svg").getBoundingClientRect().width > 50 &&
    one.querySelector(".live").getBoundingClientRect().width === 0));
  check("paper: the still pictures are printed", still);
  const pdf = await page.pdf({ format: "A4", path: pictures ? `${pictures}/report.pdf` : undefined });
  check("paper: it prints", pdf.length > 20000 && pdf.subarray(0, 5).toString() === "%PDF-", pdf.length);
  await shot(page, "print");
  await context.close();
}

await browser.close();
console.log(`${checks} checks, ${wrong} wrong`);
process.exit(wrong === 0 ? 0 : 1);

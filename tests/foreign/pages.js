// Pages in a browser: accessibility, requests, width. usage: pages.js PAGE...
const { chromium } = require("playwright-core");
const axe = require.resolve("axe-core/axe.min.js");

async function main() {
  const browser = await chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
  });
  let faults = 0;
  const fault = (text) => {
    console.error("  " + text);
    ++faults;
  };
  for (const path of process.argv.slice(2)) {
    for (const colorScheme of ["light", "dark"]) {
      for (const width of [320, 1280]) {
        const context = await browser.newContext({ colorScheme, viewport: { width, height: 800 } });
        const page = await context.newPage();
        page.on("request", (request) => {
          if (request.url() !== "file://" + path) fault(`${path} asks for ${request.url()}`);
        });
        await page.goto("file://" + path);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        if (wide > width) fault(`${path} is ${wide} pixels wide on a screen of ${width}`);
        await page.addScriptTag({ path: axe });
        const { violations, passes } = await page.evaluate(() => axe.run());
        if (passes.length < 10) fault(`${path}: axe-core checked only ${passes.length} rules`);
        for (const each of violations) fault(`${path} ${colorScheme} ${width}: ${each.id}: ${each.help}: ${each.nodes[0].html}`);
        await context.close();
      }
    }
  }
  await browser.close();
  console.log(`  ${process.argv.length - 2} pages, ${faults} faults`);
  process.exit(faults ? 1 : 0);
}
main();

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";

/** An open page, and what it did that a page of this kind must not do. */
export interface OpenedPage {
  readonly page: Page;
  /** Console messages, errors, dialogs, requests beyond the file itself. */
  readonly misdeeds: readonly string[];
}

/** Opens a text as a file in a context of its own, lets nothing out, shows it to `look` and closes it. */
export async function openPage(
  browser: Browser,
  html: string,
  options: BrowserContextOptions,
  look: (opened: OpenedPage) => Promise<void>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "gurdybench-page-"));
  const context = await browser.newContext(options);
  try {
    const path = join(folder, "page.html");
    writeFileSync(path, html);
    const url = pathToFileURL(path).href;
    const page = await context.newPage();
    const misdeeds: string[] = [];
    page.on("console", (message) => misdeeds.push(`console: ${message.text()}`));
    page.on("pageerror", (error) => misdeeds.push(`error: ${error.message}`));
    page.on("dialog", (dialog) => {
      misdeeds.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on("request", (request) => {
      if (request.url() !== url) misdeeds.push(`request: ${request.url()}`);
    });
    await context.route("**/*", (route) =>
      route.request().url() === url ? route.continue() : route.abort(),
    );
    await page.goto(url, { waitUntil: "load" });
    await look({ page, misdeeds });
  } finally {
    await context.close();
    rmSync(folder, { recursive: true });
  }
}

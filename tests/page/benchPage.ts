import { once } from "node:events";
import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";

/** The bench in a browser, and what it did that it must not do. */
export interface OpenedBench {
  readonly page: Page;
  /** Messages on the console, errors, what the policy of the page held back. */
  readonly misdeeds: string[];
  /** Requests that were to leave this computer, from the page, its threads or its service worker. */
  readonly outgoing: string[];
}

/**
 * Opens the page in a context of its own. All that is not meant for this computer has to go through a proxy, which lets nothing through and
 * remembers what was asked for.
 */
export async function withBench(
  browser: Browser,
  address: string,
  options: BrowserContextOptions,
  look: (opened: OpenedBench) => Promise<void>,
): Promise<void> {
  const outgoing: string[] = [];
  const proxy = createServer((request, response) => {
    outgoing.push(request.url ?? "");
    response.writeHead(502).end();
  });
  proxy.on("connect", (request, socket) => {
    outgoing.push(request.url ?? "");
    socket.on("error", () => {});
    socket.end("HTTP/1.1 502 \r\n\r\n");
  });
  proxy.listen(0, "127.0.0.1");
  await once(proxy, "listening");
  const context = await browser.newContext({
    ...options,
    proxy: { server: `http://127.0.0.1:${portOf(proxy)}`, bypass: "127.0.0.1" },
  });
  try {
    const page = await context.newPage();
    const misdeeds: string[] = [];
    page.on("console", (message) => misdeeds.push(`console: ${message.text()}`));
    page.on("pageerror", (error) => misdeeds.push(`error: ${error.message}`));
    await page.goto(address, { waitUntil: "load" });
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    await look({ page, misdeeds, outgoing });
  } finally {
    await context.close();
    proxy.close();
    proxy.closeAllConnections();
  }
}

function portOf(server: Server): number {
  return (server.address() as { port: number }).port;
}

/** Goes to a part of the bench. */
export async function goTo(page: Page, part: string): Promise<void> {
  const link = page.getByRole("navigation").getByRole("link", { name: part, exact: true });
  await link.click();
  await link.and(page.locator("[aria-current=page]")).waitFor();
}

/** Writes an instrument into the form and uses it. */
export async function useInstrument(page: Page, yaml: string): Promise<void> {
  await goTo(page, "Take");
  await page.getByLabel("Which strings").selectOption("own");
  await page.getByLabel("The instrument, as in an instrument file").fill(yaml);
  await page.getByRole("button", { name: "Use it" }).click();
  await page.getByText(/^Strings: /).waitFor();
}

/** Puts a recording on the bench. */
export async function choose(
  page: Page,
  file: string | { readonly name: string; readonly mimeType: string; readonly buffer: Buffer },
): Promise<void> {
  await goTo(page, "Take");
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Choose recordings" }).click();
  await (await chooser).setFiles(file as never);
}

/** Waits until the newest take is read, charts and all, and shows it. */
export async function showReading(page: Page): Promise<void> {
  await page.getByText("Read.", { exact: true }).first().waitFor();
  await page.getByRole("button", { name: "Read it" }).first().click();
  await page.locator(".answer:visible").waitFor();
}

/** Clicks what saves a file. @returns its text */
export async function savedText(page: Page, button: string): Promise<string> {
  const download = page.waitForEvent("download");
  await page.locator("button:visible", { hasText: button }).click();
  return readFileSync(await (await download).path(), "utf8");
}

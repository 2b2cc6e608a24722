import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname } from "node:path";

/** No other address than this computer's own. */
export const HERE = "127.0.0.1";

const contentTypes: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".gz": "application/gzip",
};

/** What the page says of itself too (`cli/page/index.html`), for its threads, which read it only here; and that no other page may
 * frame it. The kernels of the analysis are WebAssembly that the page itself brings along, which needs its own leave. */
const POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; connect-src 'self'; worker-src 'self'; " +
  "manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const headers: Readonly<Record<string, string>> = {
  "Content-Security-Policy": POLICY,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Permissions-Policy": "microphone=(self), camera=(), geolocation=()",
  "Cache-Control": "no-cache",
};

/**
 * Hands out the files of the page to browsers on this computer. A request that names another host is refused: a page from elsewhere
 * whose name was made to lead here could reach it otherwise.
 *
 * @param files - by path
 */
export function pageServer(files: ReadonlyMap<string, Uint8Array>): Server {
  return createServer((request, response) => {
    const { localPort: port } = request.socket;
    const hosts = [`${HERE}:${port}`, `localhost:${port}`];
    if (!hosts.includes(request.headers.host ?? "")) {
      refuse(response, 403, "Only pages of this computer are answered here.");
      return;
    }
    answer(files, request, response);
  });
}

function answer(
  files: ReadonlyMap<string, Uint8Array>,
  { method, url = "" }: IncomingMessage,
  response: ServerResponse,
): void {
  if (method !== "GET" && method !== "HEAD") {
    response.setHeader("Allow", "GET, HEAD");
    refuse(response, 405, "Only reading is possible here.");
    return;
  }
  const path = url.replace(/[?#].*$/s, "");
  const content = files.get(path);
  if (content === undefined) {
    refuse(response, 404, "There is nothing of this name here.");
    return;
  }
  const type = contentTypes[path === "/" ? ".html" : extname(path)] ?? "application/octet-stream";
  response.writeHead(200, { ...headers, "Content-Type": type, "Content-Length": content.length });
  response.end(method === "HEAD" ? undefined : content);
}

function refuse(response: ServerResponse, status: number, sentence: string): void {
  response.writeHead(status, { ...headers, "Content-Type": "text/plain; charset=utf-8" });
  response.end(`${sentence}\n`);
}

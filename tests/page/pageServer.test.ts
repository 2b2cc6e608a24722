import { spawnSync } from "node:child_process";
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openBrowser } from "../../cli/openBrowser.js";
import { type BenchServer, freePort, startBench } from "./benchServer.js";

// What the command hands out, asked for without a browser. The page is the built one (npm ci and npm run build make it).
let bench: BenchServer;
const folder = mkdtempSync(join(tmpdir(), "gurdybench-serve-"));
beforeAll(async () => {
  bench = await startBench();
}, 60_000);
afterAll(() => {
  bench.remove();
  rmSync(folder, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: NodeJS.Dict<string | string[]>;
  readonly body: string;
}

function ask(path: string, { host = `127.0.0.1:${bench.port}`, method = "GET" } = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: "127.0.0.1", port: bench.port, path, method, headers: { host } },
      (response) => {
        let body = "";
        response.on("data", (part) => {
          body += part;
        });
        response.on("end", () => resolve({ status: response.statusCode!, headers: response.headers, body }));
      },
    );
    asked.on("error", reject);
    asked.end();
  });
}

describe("gurdybench page", () => {
  it("says where the page is", () => {
    expect(bench.said()).toContain(`http://127.0.0.1:${bench.port}/`);
  });

  it.each(["127.0.0.1", "localhost"])("answers this computer as %s", async (name) => {
    const { status, headers, body } = await ask("/", { host: `${name}:${bench.port}` });
    expect(status).toBe(200);
    expect(headers["content-type"]).toBe("text/html; charset=utf-8");
    expect(body).toContain("<title>Gurdybench</title>");
  });

  it.each(["evil.example", "evil.example:80", "127.0.0.1", "127.0.0.1.evil.example", "localhost:1"])(
    "refuses a request that names the host %j",
    async (host) => {
      const { status, body } = await ask("/", { host });
      expect(status).toBe(403);
      expect(body).not.toContain("<");
    },
  );

  it.each(["POST", "PUT", "DELETE", "OPTIONS"])("refuses %s", async (method) => {
    const { status, headers } = await ask("/", { method });
    expect(status).toBe(405);
    expect(headers.allow).toBe("GET, HEAD");
  });

  it("answers HEAD without the page itself", async () => {
    const { status, headers, body } = await ask("/", { method: "HEAD" });
    expect({ status, body }).toEqual({ status: 200, body: "" });
    expect(Number(headers["content-length"])).toBeGreaterThan(100);
  });

  it.each([
    "/../package.json",
    "/..%2fpackage.json",
    "/%2e%2e/package.json",
    "/assets/../../../package.json",
    "/..\\package.json",
    "//etc/passwd",
    "/index.html/",
    "/assets",
    "/%00",
    "*",
    "http://127.0.0.1/package.json",
  ])("has nothing at %s", async (path) => {
    const { status, body } = await ask(path);
    expect(status).toBe(404);
    expect(body).toBe("There is nothing of this name here.\n");
  });

  it("gives every answer the policy that the page has itself, and lets nobody frame it", async () => {
    const page = await ask("/");
    const [, own] = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(page.body) ?? [];
    expect(own).toMatch(/^default-src 'none'; /);
    // No address but the page's own, and nothing written into it that would run or load.
    expect(own).toContain("script-src 'self' 'wasm-unsafe-eval'; "); // the kernels; no text is run as a script by it
    expect(own.replace("'wasm-unsafe-eval'", "")).not.toMatch(/https?:|\*|unsafe|blob:/);
    for (const path of ["/", "/offline.js", "/nothing"]) {
      const { headers } = await ask(path);
      expect(headers["content-security-policy"]).toBe(`${own}; frame-ancestors 'none'`);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      expect(headers["access-control-allow-origin"]).toBeUndefined();
    }
  });

  it("holds no script or style within the page, and names no address elsewhere", async () => {
    const { body } = await ask("/");
    expect(body).toMatch(/<script type="module" [^>]*src="\.\/assets\/[^"]+\.js"><\/script>/);
    expect(body).not.toMatch(/<script(?![^>]* src=)|<style| style=| on\w+=/i);
    expect(body).not.toMatch(/(?:src|href)="(?!\.\/)/);
  });

  it("hands out licence, source and the notices of what is built in", async () => {
    expect((await ask("/licence.txt")).body).toContain("GNU GENERAL PUBLIC LICENSE");
    const notices = await ask("/third-party-notices.txt");
    expect(notices.headers["content-type"]).toBe("text/plain; charset=utf-8");
    for (const name of ["preact", "echarts", "zrender", "zod", "yaml", "fft.js"])
      expect(notices.body).toMatch(new RegExp(`^${name.replace(".", "\\.")} \\d`, "m"));
    const source = await ask("/source.tar.gz", { method: "HEAD" });
    expect(source).toMatchObject({ status: 200, headers: { "content-type": "application/gzip" } });
  });

  it("hands out a source that any tar reads, with what the page is built from", () => {
    const archive = new URL("../../dist/page/source.tar.gz", import.meta.url).pathname;
    const { stdout, status } = spawnSync("tar", ["-tzf", archive], { encoding: "utf8" });
    expect(status).toBe(0);
    const paths = stdout.split("\n").map((path) => path.replace(/^gurdybench-[^/]+\//, ""));
    for (const path of [
      "package.json",
      "package-lock.json",
      ".vite.mjs",
      "LICENSE",
      "src/index.ts",
      "cli/page/main.tsx",
    ])
      expect(paths).toContain(path);
  });

  it("listens to this computer alone", async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal, family }) => !internal && family === "IPv4");
    for (const { address } of others) {
      const isOpen = await new Promise((resolve) => {
        const socket = connect(bench.port, address, () => resolve(true));
        socket.on("error", () => resolve(false));
      });
      expect(isOpen).toBe(false);
    }
  });

  it("says so where the port is in use, with code 4", () => {
    const [program, ...first] = bench.command.start;
    const { status, stderr, stdout } = spawnSync(
      program,
      [...first, "page", "--no-browser", "--port", String(bench.port)],
      { encoding: "utf8" },
    );
    expect(status).toBe(4);
    expect(stderr).toContain(`Port ${bench.port} is in use`);
    expect(stdout).toBe("");
  });

  it.each(["0", "65536", "x", "80.5", ""])("refuses port %j with code 2", (port) => {
    const [program, ...first] = bench.command.start;
    const { status, stderr } = spawnSync(program, [...first, "page", "--port", port], { encoding: "utf8" });
    expect(status).toBe(2);
    expect(stderr).toContain("Write a port from 1 to 65535");
  });

  it("ends with code 0 at Ctrl-C", async () => {
    const other = await startBench();
    expect(await other.end()).toBe(0);
    other.remove();
  });
});

describe.skipIf(process.platform !== "linux")("opening the browser", () => {
  const withPath = async <T>(path: string, action: () => Promise<T>): Promise<T> => {
    const before = process.env.PATH;
    process.env.PATH = path;
    try {
      return await action();
    } finally {
      process.env.PATH = before;
    }
  };
  const opener = (script: string) => {
    writeFileSync(join(folder, "xdg-open"), `#!/bin/sh\n${script}\n`);
    chmodSync(join(folder, "xdg-open"), 0o755);
  };

  it("hands over the address as one argument, without a shell", async () => {
    opener(`printf '%s|' "$#" "$1" > ${join(folder, "opened")}`);
    const path = `${folder}${delimiter}${process.env.PATH}`;
    expect(await withPath(path, () => openBrowser("http://127.0.0.1:1/;x $(y)"))).toBe(true);
    expect(readFileSync(join(folder, "opened"), "utf8")).toBe("1|http://127.0.0.1:1/;x $(y)|");
  });

  it("says so where none is there, or it fails", async () => {
    expect(await withPath("/nowhere", () => openBrowser("http://127.0.0.1:1/"))).toBe(false);
    opener("exit 3");
    const path = `${folder}${delimiter}${process.env.PATH}`;
    expect(await withPath(path, () => openBrowser("http://127.0.0.1:1/"))).toBe(false);
  });

  it("tells the address to type where no browser opens", async () => {
    const port = await freePort();
    const [program, ...first] = bench.command.start;
    const { stderr, stdout } = spawnSync(program, [...first, "page", "--port", String(port)], {
      encoding: "utf8",
      env: { ...process.env, PATH: "/nowhere" },
      timeout: 6000,
      killSignal: "SIGINT",
    });
    expect(stdout).toContain(`http://127.0.0.1:${port}/`);
    expect(stderr).toContain(
      `No browser could be opened. Open one, and type this address: http://127.0.0.1:${port}/`,
    );
  });
});

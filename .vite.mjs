// Builds the bench page into dist/page: a folder that any web server can hand out, with all it needs and nothing from elsewhere.
// Beside the page: what it was built from, its licence, the notices of what was built in, and the service worker with the list of files.
import { createHash } from "node:crypto";
import { copyFileSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { build as bundle } from "esbuild";
import { build } from "vite";
import { notices } from "./.notices.mjs";

const OUT = "dist/page";
const { version } = JSON.parse(readFileSync("package.json", "utf8"));
const used = new Set();

/** Remembers what got in; the thread that reads is a build of its own. */
const noted = () => ({
  name: "noted",
  generateBundle(_options, bundle) {
    for (const part of Object.values(bundle)) {
      for (const [path, { renderedLength }] of Object.entries(part.modules ?? {})) {
        if (renderedLength > 0) used.add(path);
      }
    }
  },
});

await build({
  root: "cli/page",
  base: "./",
  configFile: false,
  logLevel: "warn",
  define: { __GURDYBENCH_VERSION__: JSON.stringify(version) },
  plugins: [noted()],
  worker: { format: "es", plugins: () => [noted()] },
  build: {
    outDir: `../../${OUT}`,
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    // A file of its own each: the policy of the page lets in nothing that is written into another.
    assetsInlineLimit: 0,
    // The chart library is large, and comes only once a chart is wanted.
    chunkSizeWarningLimit: 1000,
    rolldownOptions: {
      checks: { pluginTimings: false },
      // Of our own modules none does anything but define: what the page doesn't use stays out.
      treeshake: {
        moduleSideEffects: (path) =>
          !/\/(?:src|cli)\/.*\.tsx?$/.test(path) || /main\.tsx$|analyst\.ts$/.test(path),
      },
    },
  },
});

copyFileSync("LICENSE", `${OUT}/licence.txt`);
writeFileSync(`${OUT}/third-party-notices.txt`, notices(used, "page"));

// What works without a network: all but the source, which is as large as the rest.
const built = readdirSync(OUT, { recursive: true })
  .filter((path) => statSync(`${OUT}/${path}`).isFile())
  .map((path) => path.replaceAll("\\", "/"))
  .sort();
const digest = createHash("sha256");
for (const path of built) digest.update(path).update(readFileSync(`${OUT}/${path}`));
await bundle({
  entryPoints: ["cli/page/worker/offline.ts"],
  outfile: `${OUT}/offline.js`,
  bundle: true,
  minify: true,
  format: "iife",
  logLevel: "warning",
  define: {
    __GURDYBENCH_FILES__: JSON.stringify(built),
    __GURDYBENCH_BUILD__: JSON.stringify(digest.digest("hex").slice(0, 16)),
  },
});

// What the page is built from, so that whoever gets the page gets its source (GPL 3, section 6).
const sources = [
  ...["src", "cli"].flatMap((folder) =>
    readdirSync(folder, { recursive: true }).map((path) => `${folder}/${path}`),
  ),
  ...readdirSync(".").filter((name) =>
    /^\.?[^.]+\.(?:md|json|mjs|cjs)$|^\.tsconfig.*json$|^LICENSE$/.test(name),
  ),
].filter((path) => statSync(path).isFile());
writeFileSync(`${OUT}/source.tar.gz`, gzipSync(tar(sources.sort()), { level: 9 }));

/** A tape archive (POSIX.1-1988, ustar) of files, the same for the same files whenever it is made. */
function tar(paths) {
  const blocks = paths.flatMap((path) => {
    const content = readFileSync(path);
    const head = Buffer.alloc(512);
    const write = (text, at) => head.write(text, at, "latin1");
    const octal = (value, digits) => `${value.toString(8).padStart(digits, "0")}\0`;
    const name = `gurdybench-${version}/${path.replaceAll("\\", "/")}`;
    if (Buffer.byteLength(name) > 100) throw new Error(`${path}: its name is too long for the archive`);
    head.write(name, 0, "utf8");
    write(octal(0o644, 7), 100);
    write(octal(0, 7), 108);
    write(octal(0, 7), 116);
    write(octal(content.length, 11), 124);
    write(octal(0, 11), 136);
    write("        0", 148);
    write("ustar\x0000", 257);
    write(
      octal(
        [...head].reduce((sum, byte) => sum + byte, 0),
        6,
      ),
      148,
    );
    return [head, content, Buffer.alloc((512 - (content.length % 512)) % 512)];
  });
  return Buffer.concat([...blocks, Buffer.alloc(1024)]);
}

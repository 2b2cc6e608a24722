// Bundles the command, packages and all: from one file it starts in two thirds of the time that their many files take
// (`DEVELOPERS.md`). What draws the pages is a part of its own, loaded where a page is asked for.
// The licences of every package that got in are written beside it, found through what the bundler says it used.
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename } from "node:path";
import { build } from "esbuild";

const OUT = "dist/cli";
rmSync(`${OUT}/parts`, { recursive: true, force: true });

const { metafile } = await build({
  entryPoints: ["cli/main.ts"],
  bundle: true,
  splitting: true,
  metafile: true,
  platform: "node",
  target: "node20",
  format: "esm",
  outdir: OUT,
  chunkNames: "parts/[name]-[hash]",
  logLevel: "warning",
  define: { "process.env.NODE_ENV": '"production"' },
  // Packages in CommonJS ask for Node's own modules with `require`, which a module of the newer kind doesn't have.
  banner: {
    js: 'import { createRequire as nodeRequire } from "node:module"; const require = nodeRequire(import.meta.url);',
  },
});

const folders = new Set();
for (const output of Object.values(metafile.outputs)) {
  for (const [path, { bytesInOutput }] of Object.entries(output.inputs)) {
    const [folder] = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path) ?? [];
    if (folder !== undefined && bytesInOutput > 0) folders.add(folder);
  }
}

/** At the top of a package, or in a folder of licences that it carries. */
const LICENCE_FILE = /^(?:licenses\/)?(?:licen[cs]e|notice|copying)[^/]*$/i;

/** The licence texts of a package: its licence and notice files, else what its README says under that head. */
function licenceTexts(folder) {
  const files = readdirSync(folder, { recursive: true }).filter(
    (name) => LICENCE_FILE.test(name) && statSync(`${folder}/${name}`).isFile(),
  );
  if (files.length > 0) return files.map((name) => readFileSync(`${folder}/${name}`, "utf8").trim());
  const readme = readdirSync(folder).find((name) => /^readme/i.test(name));
  const said = readme && /^#+ *licen[cs]e[\s\S]*$/im.exec(readFileSync(`${folder}/${readme}`, "utf8"))?.[0];
  return said ? [said.trim()] : [];
}

const notices = [...folders].sort().map((folder) => {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, "utf8"));
  const texts = licenceTexts(folder);
  if (license === undefined && texts.length === 0)
    throw new Error(`${name} names no licence: it can't be built in`);
  if (texts.length === 0) texts.push("The package carries no licence text of its own.");
  return [`${name} ${version}${license ? ` (${license})` : ""}`, ...texts].join("\n\n");
});
// npx and npm's links start the file itself.
chmodSync(`${OUT}/main.js`, 0o755);
const rule = `\n\n${"-".repeat(80)}\n\n`;
writeFileSync(
  `${OUT}/third-party-notices.txt`,
  `What is built into this command besides its own code, and under which terms.${rule}${[...new Set(notices)].join(rule)}\n`,
);

// The schemas of the JSON documents are published by their names alone (`gurdybench/schemas/...`).
mkdirSync("dist/schemas", { recursive: true });
for (const path of readdirSync("src", { recursive: true })) {
  if (path.endsWith(".schema.json")) copyFileSync(`src/${path}`, `dist/schemas/${basename(path)}`);
}
